/** The plane across the face as a plot: one scale for both directions, which side is which, labels that do not overlap. */
import type { Travel } from './props';
import { roundStep, ticks, toPixels, type Scale } from './scale';

export interface FaceScales {
  /** rightMm to pixels; runs to the left when seen face to face. */
  readonly across: Scale;
  /** upMm to pixels. */
  readonly up: Scale;
}

export interface Box {
  readonly leftPx: number;
  readonly rightPx: number;
  readonly topPx: number;
  readonly bottomPx: number;
}

/** What is shown at least, so that a small travel looks small. */
const LEAST_SPAN_MM = 6;
const AIR_MM = 1;
const TICK_PX = 30;

/** Home and every place within the box, at one scale, in the middle. */
export function faceScales(places: readonly Travel[], box: Box, mirror: boolean): FaceScales {
  const across = span(places.map(({ rightMm }) => rightMm));
  const up = span(places.map(({ upMm }) => upMm));
  const [widthPx, heightPx] = [box.rightPx - box.leftPx, box.bottomPx - box.topPx];
  const pxPerMm = Math.min(widthPx / (across[1] - across[0]), heightPx / (up[1] - up[0]));
  const filled = (range: readonly [number, number], px: number): [number, number] => {
    const middle = (range[0] + range[1]) / 2;
    return [middle - px / pxPerMm / 2, middle + px / pxPerMm / 2];
  };
  return {
    across: { from: filled(across, widthPx), to: mirror ? [box.leftPx, box.rightPx] : [box.rightPx, box.leftPx] },
    up: { from: filled(up, heightPx), to: [box.bottomPx, box.topPx] },
  };
}

export function placeOnFace(scales: FaceScales, travel: Travel): readonly [number, number] {
  return [toPixels(scales.across, travel.rightMm), toPixels(scales.up, travel.upMm)];
}

/** Travel for a move on the picture, in pixels across (to the right of the picture) and down. */
export function travelForMove(scales: FaceScales, acrossPx: number, downPx: number): Travel {
  return { rightMm: acrossPx / pixelsPerMm(scales.across), upMm: downPx / pixelsPerMm(scales.up) };
}

/** +1 when the player's right is on the right of the picture, −1 face to face. */
export function rightward(scales: FaceScales): 1 | -1 {
  return pixelsPerMm(scales.across) > 0 ? 1 : -1;
}

export function faceTicks(scales: FaceScales): { readonly across: number[]; readonly up: number[]; readonly stepMm: number } {
  const [low, high] = scales.across.from;
  const widthPx = Math.abs(scales.across.to[1] - scales.across.to[0]);
  const stepMm = roundStep(high - low, widthPx / TICK_PX);
  const every = (range: readonly [number, number]): number[] => ticks(range, (range[1] - range[0]) / stepMm);
  return { across: every(scales.across.from), up: every(scales.up.from), stepMm };
}

export interface FaceLabel {
  readonly index: number;
  readonly xPx: number;
  readonly yPx: number;
  readonly anchor: 'start' | 'end' | 'middle';
}

const MARK_PX = 7;
/** Clear of the mark and of the playhead's ring round it. */
const BESIDE_PX = 11;
const LINE_PX = 15;
const CHARACTER_PX = 8;

/** Where a name is tried, from the best place to the last resort: beside, above and below, then at the corners. */
const DIRECTIONS = [[1, 0], [-1, 0], [0, -1], [0, 1], [-1, -1], [1, 1], [1, -1], [-1, 1]] as const;

/**
 * A place next to each mark for its name, whichever is free of marks, of other names and of the
 * frame; those of greater priority (smaller number) choose first, and a name without a free place is left out.
 */
export function placeFaceLabels(
  marks: readonly { readonly at: readonly [number, number]; readonly text: string; readonly priority: number }[],
  frame: Box,
): FaceLabel[] {
  const taken: Box[] = marks.map(({ at: [x, y] }) => around(x, y, MARK_PX, MARK_PX));
  const order = marks.map((_, index) => index).sort((a, b) => (marks[a]?.priority ?? 0) - (marks[b]?.priority ?? 0) || a - b);
  const labels: FaceLabel[] = [];
  for (const index of order) {
    const mark = marks[index];
    if (!mark) continue;
    const [x, y] = mark.at;
    const half = (mark.text.length * CHARACTER_PX) / 2;
    const candidates = DIRECTIONS.map(([dx, dy]) => {
      const [edgeX, edgeY] = [x + dx * BESIDE_PX, y + dy * BESIDE_PX];
      const box = around(edgeX + dx * half, edgeY + (dy * LINE_PX) / 2, half, LINE_PX / 2);
      const anchor = dx > 0 ? 'start' : dx < 0 ? 'end' : 'middle';
      return { box, label: { xPx: edgeX, yPx: edgeY + (dy * LINE_PX) / 2, anchor } as const };
    });
    const free = candidates.find(({ box }) => within(box, frame) && taken.every((other) => !overlap(box, other)));
    if (!free) continue;
    taken.push(free.box);
    labels.push({ index, ...free.label });
  }
  return labels.sort((a, b) => a.index - b.index);
}

function span(values: readonly number[]): [number, number] {
  const low = Math.min(0, ...values) - AIR_MM;
  const high = Math.max(0, ...values) + AIR_MM;
  const missing = Math.max(0, LEAST_SPAN_MM - (high - low)) / 2;
  return [low - missing, high + missing];
}

function pixelsPerMm(scale: Scale): number {
  return (scale.to[1] - scale.to[0]) / (scale.from[1] - scale.from[0]);
}

function around(x: number, y: number, halfWidth: number, halfHeight: number): Box {
  return { leftPx: x - halfWidth, rightPx: x + halfWidth, topPx: y - halfHeight, bottomPx: y + halfHeight };
}

function overlap(a: Box, b: Box): boolean {
  return a.leftPx < b.rightPx && b.leftPx < a.rightPx && a.topPx < b.bottomPx && b.topPx < a.bottomPx;
}

function within(box: Box, frame: Box): boolean {
  return box.leftPx >= frame.leftPx && box.rightPx <= frame.rightPx && box.topPx >= frame.topPx && box.bottomPx <= frame.bottomPx;
}
