/** A bite print drawn on a card that is seen from the side, with everything about it known. */
import { createCanvas } from '@napi-rs/canvas';
import type { FormSpec } from '../../../src/core/specs';
import { focalFromEquivalent } from '../../../src/measure/camera';
import type { Point } from '../../../src/measure/picture';
import { cardSeen, onCardAt, pointsOn } from '../../support/drawnPrint';

export const PRINT_SIZE = { width: 1400, height: 1050 };
export const CARD = { widthMm: 105, heightMm: 74 };
/** The front is rounder than most: 27 mm. */
export const PRINT_FORM: FormSpec = { kind: 'sextic', a: 2.4e-8, b: 1 / 54 };

const camera = { ...PRINT_SIZE, focalPx: focalFromEquivalent(40, PRINT_SIZE.width, PRINT_SIZE.height), focalRelativeSd: 0 };
const seen = cardSeen(camera, CARD, 165, [0.35, -0.2]);
const lying = (places: readonly (readonly [number, number])[]): Point[] => onCardAt(places, { x: 52, y: 14 }, 0.06);
const TEETH = 13;
const REACH_MM = 41;
const places = pointsOn(PRINT_FORM, TEETH, REACH_MM);

/** Upper left, upper right, lower right, lower left, px. */
export const corners: readonly Point[] = [{ x: 0, y: 0 }, { x: CARD.widthMm, y: 0 }, { x: CARD.widthMm, y: CARD.heightMm }, { x: 0, y: CARD.heightMm }].map(seen);
/** Outer edges, from the player's right, px. */
export const teeth: readonly Point[] = lying(places).map(seen);

/** Prints 6 mm wide and 2.5 mm deep, their outer sides on the form. */
export function printFile(): { readonly name: string; readonly mimeType: string; readonly buffer: Buffer } {
  const canvas = createCanvas(PRINT_SIZE.width, PRINT_SIZE.height);
  const context = canvas.getContext('2d');
  const fill = (points: readonly Point[], style: string): void => {
    context.fillStyle = style;
    context.beginPath();
    // A canvas counts from a pixel's corner, marks from its middle.
    for (const { x, y } of points) context.lineTo(x + 0.5, y + 0.5);
    context.fill();
  };
  context.fillStyle = '#3c4148';
  context.fillRect(0, 0, PRINT_SIZE.width, PRINT_SIZE.height);
  fill(corners, '#eceae4');
  const fine = pointsOn(PRINT_FORM, 24 * (TEETH - 1) + 1, REACH_MM);
  places.forEach((_, tooth) => {
    const outer = fine.slice(Math.max(0, 24 * tooth - 11), 24 * tooth + 12);
    const inner = outer.map(([x, z], at): [number, number] => {
      const [before, after] = [outer[Math.max(0, at - 1)]!, outer[Math.min(outer.length - 1, at + 1)]!];
      const size = Math.hypot(after[0] - before[0], after[1] - before[1]);
      return [x + (2.5 * (after[1] - before[1])) / size, z - (2.5 * (after[0] - before[0])) / size];
    });
    fill(lying([...outer, ...inner.reverse()]).map(seen), '#9a968c');
  });
  const letter = seen({ x: 92, y: 20 });
  context.fillStyle = '#222222';
  context.font = '60px sans-serif';
  context.fillText('R', letter.x, letter.y);
  return { name: 'print.png', mimeType: 'image/png', buffer: canvas.toBuffer('image/png') };
}
