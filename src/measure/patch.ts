/**
 * A patch: what a small part of the marked frame looks like, prepared once for inverse-compositional alignment, so that a frame costs no
 * more than sampling and a few sums. Source: S. Baker, I. Matthews, "Lucas–Kanade 20 years on: a unifying framework", Int. J. Computer
 * Vision 56 (2004) 221–255, §3.2; brightness gain and offset are projected out as their part 3 (CMU-RI-TR-03-35, 2003) does with
 * appearance, here with the gain divided out.
 */
import { insideLevel, type Pyramid, type PyramidLevel, toLevel } from './pyramid';
import type { Point } from './picture';

/** A patch at one size of the picture. Arrays run over its pixels; all lengths are picture px whatever the level. */
export interface PatchLevel {
  readonly level: number;
  readonly count: number;
  /** From the patch's place. */
  readonly offsetX: Float32Array;
  readonly offsetY: Float32Array;
  /** The furthest of them. */
  readonly reachX: number;
  readonly reachY: number;
  /** Brightness less its mean. */
  readonly template: Float32Array;
  /** Sum of its squares. */
  readonly energy: number;
  /** Change of brightness with shift right, shift down, growth and turn (px at the radius), pixel by pixel, four in turn; brightness gain and offset projected out. */
  readonly steepest: Float32Array;
  /** Their products summed over the pixels: 4 × 4, by rows. */
  readonly hessian: Float64Array;
  /** Of the Hessian with the prior of `PRIOR`: 4 × 4, by rows. */
  readonly inverse: Float64Array;
}

export interface Patch {
  /** Where it was marked. */
  readonly place: Point;
  /** Growth and turn are counted in px at this distance from the place. */
  readonly radiusPx: number;
  /** Coarse first. */
  readonly levels: readonly PatchLevel[];
}

export interface PatchSpec {
  /** Half a side of the square, px of the picture, at the finest level. */
  readonly halfPx: number;
  /** Which levels of the pyramid, coarse first. */
  readonly levels: readonly number[];
  /** Half a side at the coarser levels, in their own pixels; default 8. */
  readonly coarseHalf?: number;
  /** Which pixels belong to it (picture px); default: all. */
  readonly accepts?: (x: number, y: number) => boolean;
}

/**
 * How far a frame's answer is drawn to where the patch was expected. The shift's is so weak that a patch with any texture is not moved
 * (0.1 % of the surprise), and holds one without; growth and turn are a head's and a horn's from one frame to the next.
 */
export const PRIOR = {
  /** Taken for the noise of one pixel, grey levels. */
  noiseGrey: 5,
  /** One deviation of a shift, px. */
  shiftSdPx: 2,
  /** One deviation of growth or turn, as a part: 0.04 is 4 % or 2.3°. */
  shapeSd: 0.04,
} as const;

/** Fewer pixels than this make no patch. */
const LEAST_PIXELS = 40;

/** Cuts a patch out of a filled pyramid; null where a pixel of the finest level lies outside it, or (with `accepts`) too few lie in it. Levels other than the finest are left out where they do not fit. */
export function cutPatch(pyramid: Pyramid, place: Point, spec: PatchSpec): Patch | null {
  if (!(spec.halfPx >= 2 && spec.halfPx <= 500)) throw new RangeError(`cutPatch: halfPx ${spec.halfPx}; allowed: 2 to 500`);
  const finest = spec.levels[spec.levels.length - 1]!;
  const levels: PatchLevel[] = [];
  for (const level of spec.levels) {
    const half = level === finest ? Math.round(spec.halfPx / pyramid.levels[level]!.scale) : (spec.coarseHalf ?? 8);
    const cut = cutLevel(pyramid.levels[level]!, level, place, half, spec.halfPx, spec.accepts);
    if (cut) levels.push(cut);
    else if (level === finest) return null;
  }
  return { place, radiusPx: spec.halfPx, levels };
}

function cutLevel(
  from: PyramidLevel, level: number, place: Point, half: number, radiusPx: number, accepts: PatchSpec['accepts'],
): PatchLevel | null {
  const { scale, values, width } = from;
  const middleX = Math.round(toLevel(from, place.x));
  const middleY = Math.round(toLevel(from, place.y));
  // The template is taken at whole pixels, so nothing of it is interpolated.
  const pixels: number[] = [];
  for (let row = middleY - half; row <= middleY + half; row++) {
    for (let column = middleX - half; column <= middleX + half; column++) {
      if (!insideLevel(from, column - 1, row - 1) || !insideLevel(from, column + 1, row + 1)) continue;
      const x = (column + 0.5) * scale - 0.5;
      const y = (row + 0.5) * scale - 0.5;
      if (!accepts || accepts(x, y)) pixels.push(column, row, x - place.x, y - place.y);
    }
  }
  const count = pixels.length / 4;
  if (count < LEAST_PIXELS || (!accepts && count < (2 * half + 1) ** 2)) return null;
  const offsetX = new Float32Array(count);
  const offsetY = new Float32Array(count);
  const template = new Float32Array(count);
  const steepest = new Float32Array(4 * count);
  let mean = 0;
  let reachX = 0;
  let reachY = 0;
  for (let pixel = 0; pixel < count; pixel++) {
    const at = (pixels[4 * pixel + 1]! - from.top) * width + pixels[4 * pixel]! - from.left;
    const x = (offsetX[pixel] = pixels[4 * pixel + 2]!);
    const y = (offsetY[pixel] = pixels[4 * pixel + 3]!);
    reachX = Math.max(reachX, Math.abs(x));
    reachY = Math.max(reachY, Math.abs(y));
    template[pixel] = values[at]!;
    mean += values[at]! / count;
    const slopeX = smoothSlope(values, at, 1, width) / scale;
    const slopeY = smoothSlope(values, at, width, 1) / scale;
    steepest[4 * pixel] = slopeX;
    steepest[4 * pixel + 1] = slopeY;
    steepest[4 * pixel + 2] = (slopeX * x + slopeY * y) / radiusPx;
    steepest[4 * pixel + 3] = (slopeY * x - slopeX * y) / radiusPx;
  }
  let energy = 0;
  for (let pixel = 0; pixel < count; pixel++) {
    template[pixel]! -= mean;
    energy += template[pixel]! ** 2;
  }
  if (!(energy > 0)) return null;
  projectBrightnessOut(steepest, template, energy);
  const hessian = new Float64Array(16);
  for (let pixel = 0; pixel < count; pixel++) {
    for (let row = 0; row < 4; row++) {
      for (let column = 0; column < 4; column++) hessian[4 * row + column]! += steepest[4 * pixel + row]! * steepest[4 * pixel + column]!;
    }
  }
  const inverse = invertWithPrior(hessian, radiusPx);
  return { level, count, offsetX, offsetY, reachX, reachY, template, energy, steepest, hessian, inverse };
}

/**
 * Slope along `step` (in the buffer), by central differences of brightness smoothed by 1-2-1 both ways. Slopes that hold the marked frame's
 * noise pass for texture: the steps become too short and the stated deviation too small, by three times at 8 grey levels of noise on 18 of texture.
 */
function smoothSlope(values: Float32Array, at: number, step: number, across: number): number {
  let sum = 0;
  for (let side = -1; side <= 1; side++) {
    const from = at + side * across;
    const slope = values[from + 2 * step]! + 2 * values[from + step]! - 2 * values[from - step]! - values[from - 2 * step]!;
    sum += (side === 0 ? 2 : 1) * slope;
  }
  return sum / 32;
}

function projectBrightnessOut(steepest: Float32Array, template: Float32Array, energy: number): void {
  const count = template.length;
  for (let unknown = 0; unknown < 4; unknown++) {
    let sum = 0;
    let along = 0;
    for (let pixel = 0; pixel < count; pixel++) {
      sum += steepest[4 * pixel + unknown]!;
      along += steepest[4 * pixel + unknown]! * template[pixel]!;
    }
    for (let pixel = 0; pixel < count; pixel++) steepest[4 * pixel + unknown]! -= sum / count + (along / energy) * template[pixel]!;
  }
}

/** Noise variance over the prior's variance, for a shift and for growth and turn at the radius. */
export function priorWeights(radiusPx: number): { shift: number; shape: number } {
  const variance = PRIOR.noiseGrey ** 2;
  return { shift: variance / PRIOR.shiftSdPx ** 2, shape: variance / (PRIOR.shapeSd * radiusPx) ** 2 };
}

function invertWithPrior(hessian: Float64Array, radiusPx: number): Float64Array {
  const { shift, shape } = priorWeights(radiusPx);
  // Gauss–Jordan beside the unit matrix; the prior keeps every pivot above zero.
  const rows = Array.from({ length: 4 }, (_, row) =>
    Array.from({ length: 8 }, (_, column) =>
      column < 4 ? hessian[4 * row + column]! + (row === column ? (row < 2 ? shift : shape) : 0) : column - 4 === row ? 1 : 0,
    ),
  );
  for (let pivot = 0; pivot < 4; pivot++) {
    const divisor = rows[pivot]![pivot]!;
    for (let column = 0; column < 8; column++) rows[pivot]![column]! /= divisor;
    for (let row = 0; row < 4; row++) {
      const factor = rows[row]![pivot]!;
      if (row !== pivot) for (let column = 0; column < 8; column++) rows[row]![column]! -= factor * rows[pivot]![column]!;
    }
  }
  return Float64Array.from(rows.flatMap((row) => row.slice(4)));
}
