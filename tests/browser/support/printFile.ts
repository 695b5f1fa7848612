/** A bite print drawn on a card, with a coin and a ruler beside it if wanted, seen by a known camera: everything about it is known. */
import { createCanvas } from '@napi-rs/canvas';
import type { FormSpec } from '../../../src/core/specs';
import { focalFromEquivalent } from '../../../src/measure/camera';
import type { Point } from '../../../src/measure/picture';
import { cardSeen, onCardAt, pointsOn } from '../../support/drawnPrint';

export const PRINT_SIZE = { width: 1400, height: 1050 };
export const CARD = { widthMm: 105, heightMm: 74 };
/** The front is rounder than most: 27 mm. */
export const PRINT_FORM: FormSpec = { kind: 'sextic', a: 2.4e-8, b: 1 / 54 };

/** Of the coin, and of the stretch of the ruler. */
export const COIN_MM = 20;
export const RULER_MM = 60;

export interface PrintView {
  /** Of a lens on the old film's size, mm, and how far the card's middle is. */
  readonly equivalentMm: number;
  readonly farMm: number;
  /** About the camera's x and y. */
  readonly tiltRad: readonly [number, number];
  readonly beside?: 'coin' | 'ruler';
}

/** From the side and near: only the card's corners tell its size and tilt. From farther: a coin does. Flat, as a scanner sees it: a ruler does. */
export const FROM_THE_SIDE: PrintView = { equivalentMm: 40, farMm: 165, tiltRad: [0.35, -0.2] };
export const WITH_COIN: PrintView = { equivalentMm: 200, farMm: 825, tiltRad: [0.25, -0.15], beside: 'coin' };
export const WITH_RULER: PrintView = { equivalentMm: 40, farMm: 165, tiltRad: [0, 0], beside: 'ruler' };

export interface MadePrint {
  readonly file: { readonly name: string; readonly mimeType: string; readonly buffer: Buffer };
  /** Upper left, upper right, lower right, lower left, px. */
  readonly corners: readonly Point[];
  /** Outer edges, from the player's right, px. */
  readonly teeth: readonly Point[];
  /** Eight points of the coin's rim, px. */
  readonly coin: readonly Point[];
  /** Both ends of the ruler's stretch, px. */
  readonly ruler: readonly [Point, Point];
}

const lying = (places: readonly (readonly [number, number])[]): Point[] => onCardAt(places, { x: 52, y: 14 }, 0.06);
const TEETH = 13;
const REACH_MM = 41;
const places = pointsOn(PRINT_FORM, TEETH, REACH_MM);
/** On the card, mm from its upper left corner. */
const COIN_AT = { x: 91, y: 60 };
const RULER_FROM = { x: 12, y: 64 };

const roundCoin = (count: number): Point[] =>
  Array.from({ length: count }, (_, at) => ({ x: COIN_AT.x + (COIN_MM / 2) * Math.cos((2 * Math.PI * at) / count), y: COIN_AT.y + (COIN_MM / 2) * Math.sin((2 * Math.PI * at) / count) }));

/** Prints 6 mm wide and 2.5 mm deep, their outer sides on the form. */
export function madePrint({ equivalentMm, farMm, tiltRad, beside }: PrintView): MadePrint {
  const camera = { ...PRINT_SIZE, focalPx: focalFromEquivalent(equivalentMm, PRINT_SIZE.width, PRINT_SIZE.height), focalRelativeSd: 0 };
  const seen = cardSeen(camera, CARD, farMm, tiltRad);
  const corners = [{ x: 0, y: 0 }, { x: CARD.widthMm, y: 0 }, { x: CARD.widthMm, y: CARD.heightMm }, { x: 0, y: CARD.heightMm }].map(seen);
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
  const onRuler = (mm: number, down: number): Point => ({ x: RULER_FROM.x + mm, y: RULER_FROM.y + down });
  if (beside === 'coin') fill(roundCoin(120).map(seen), '#b08d57');
  if (beside === 'ruler') {
    fill([onRuler(-3, 0), onRuler(RULER_MM + 3, 0), onRuler(RULER_MM + 3, 8), onRuler(-3, 8)].map(seen), '#c9d6c2');
    for (let mm = 0; mm <= RULER_MM; mm += 5) fill([onRuler(mm - 0.1, 0), onRuler(mm + 0.1, 0), onRuler(mm + 0.1, mm % 10 === 0 ? 4 : 2.5), onRuler(mm - 0.1, mm % 10 === 0 ? 4 : 2.5)].map(seen), '#222222');
  }
  const letter = seen({ x: 92, y: 20 });
  context.fillStyle = '#222222';
  context.font = '60px sans-serif';
  context.fillText('R', letter.x, letter.y);
  return {
    file: { name: 'print.png', mimeType: 'image/png', buffer: canvas.toBuffer('image/png') },
    corners,
    teeth: lying(places).map(seen),
    coin: roundCoin(8).map(seen),
    ruler: [seen(onRuler(0, 0)), seen(onRuler(RULER_MM, 0))],
  };
}
