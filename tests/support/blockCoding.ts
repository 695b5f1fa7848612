/**
 * What a video codec does to a frame, without one: each 8 × 8 block's cosine coefficients are rounded to a step, so that fine noise and weak
 * texture go and blocks come. A step of 16 is about H.264's quantiser 28, a phone's quality (value from memory); a real codec also smooths the blocks' edges.
 */
import type { GreyPicture } from '../../src/measure/picture';

const SIDE = 8;
const BASIS = Array.from({ length: SIDE }, (_, wave) =>
  Array.from({ length: SIDE }, (__, at) => Math.sqrt((wave === 0 ? 1 : 2) / SIDE) * Math.cos(((2 * at + 1) * wave * Math.PI) / (2 * SIDE))),
);

/** The picture, changed in place; blocks that do not fill stay as they are. */
export function blockCoded({ width, height, luma }: GreyPicture, step: number): void {
  const block = new Float64Array(SIDE * SIDE);
  const turned = new Float64Array(SIDE * SIDE);
  for (let top = 0; top + SIDE <= height; top += SIDE) {
    for (let left = 0; left + SIDE <= width; left += SIDE) {
      for (let at = 0; at < SIDE * SIDE; at++) block[at] = luma[(top + (at >> 3)) * width + left + (at & 7)]!;
      alongRows(block, turned, false);
      alongRows(turned, block, false);
      for (let at = 0; at < SIDE * SIDE; at++) block[at] = step * Math.round(block[at]! / step);
      alongRows(block, turned, true);
      alongRows(turned, block, true);
      for (let at = 0; at < SIDE * SIDE; at++) luma[(top + (at >> 3)) * width + left + (at & 7)] = Math.max(0, Math.min(255, Math.round(block[at]!)));
    }
  }
}

/** Transforms (or back) each row, and writes it as a column: twice is both ways. */
function alongRows(from: Float64Array, to: Float64Array, back: boolean): void {
  for (let row = 0; row < SIDE; row++) {
    for (let out = 0; out < SIDE; out++) {
      let sum = 0;
      for (let at = 0; at < SIDE; at++) sum += from[row * SIDE + at]! * (back ? BASIS[at]![out]! : BASIS[out]![at]!);
      to[out * SIDE + row] = sum;
    }
  }
}
