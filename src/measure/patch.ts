/**
 * A patch: what a small part of the marked frame looks like, prepared once for inverse-compositional alignment, so that a frame costs no
 * more than sampling and a few sums. Source: S. Baker, I. Matthews, "Lucas–Kanade 20 years on: a unifying framework", Int. J. Computer
 * Vision 56 (2004) 221–255, §3.2; brightness gain, offset and even slopes are projected out as their part 3 (CMU-RI-TR-03-35,
 * 2003) does with appearance, here with the gain divided out.
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
  /** Two even slopes of brightness over the pixels, without mean, at right angles to each other, each of length 1; all 0 where even slopes are part of its looks. */
  readonly ramps: readonly [Float32Array, Float32Array];
  /** Brightness less its mean and what goes along the ramps: on smooth skin even slopes are the light's, which stays behind when the head turns. */
  readonly template: Float32Array;
  /** Sum of its squares. */
  readonly energy: number;
  /** Change of brightness with shift right, shift down, growth and turn (px at the radius), pixel by pixel, four in turn; brightness gain, offset and even slopes projected out. */
  readonly steepest: Float32Array;
  /** Their products summed over the pixels: 4 × 4, by rows. */
  readonly hessian: Float64Array;
  /** Of the Hessian with the prior of `PRIOR`: 4 × 4, by rows. */
  readonly inverse: Float64Array;
  /** Covariance of the place by light that changes smoothly over the patch as the head turns (`SHADE_GREY`), px², along the marked frame's axes: xx, xy, yy. */
  readonly shade: readonly [number, number, number];
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
  /** Whether even slopes of brightness are no part of its looks; default: they are. What is weakly textured is held by them where the light stays, and misled where it does not. */
  readonly withoutSlopes?: boolean;
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
    const cut = cutLevel(pyramid.levels[level]!, level, place, half, spec);
    if (cut) levels.push(cut);
    else if (level === finest) return null;
  }
  return { place, radiusPx: spec.halfPx, levels };
}

function cutLevel(
  from: PyramidLevel, level: number, place: Point, half: number, { halfPx: radiusPx, accepts, withoutSlopes = false }: PatchSpec,
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
  let reachX = 0;
  let reachY = 0;
  for (let pixel = 0; pixel < count; pixel++) {
    const at = (pixels[4 * pixel + 1]! - from.top) * width + pixels[4 * pixel]! - from.left;
    const x = (offsetX[pixel] = pixels[4 * pixel + 2]!);
    const y = (offsetY[pixel] = pixels[4 * pixel + 3]!);
    reachX = Math.max(reachX, Math.abs(x));
    reachY = Math.max(reachY, Math.abs(y));
    template[pixel] = values[at]!;
    const slopeX = smoothSlope(values, at, 1, width) / scale;
    const slopeY = smoothSlope(values, at, width, 1) / scale;
    steepest[4 * pixel] = slopeX;
    steepest[4 * pixel + 1] = slopeY;
    steepest[4 * pixel + 2] = (slopeX * x + slopeY * y) / radiusPx;
    steepest[4 * pixel + 3] = (slopeY * x - slopeX * y) / radiusPx;
  }
  const flat = new Float32Array(count);
  const ramps: PatchLevel['ramps'] = withoutSlopes ? rampsOver(offsetX, offsetY) : [flat, flat];
  const even = new Float32Array(count).fill(1 / Math.sqrt(count));
  for (const one of [even, ...ramps]) takeAlong(template, 1, 0, one);
  const energy = sumOfSquares(template);
  if (!(energy > LEAST_ENERGY * count)) return null;
  const alike = template.map((each) => each / Math.sqrt(energy));
  for (let unknown = 0; unknown < 4; unknown++) for (const one of [even, ...ramps, alike]) takeAlong(steepest, 4, unknown, one);
  const hessian = new Float64Array(16);
  for (let pixel = 0; pixel < count; pixel++) {
    for (let row = 0; row < 4; row++) {
      for (let column = 0; column < 4; column++) hessian[4 * row + column]! += steepest[4 * pixel + row]! * steepest[4 * pixel + column]!;
    }
  }
  const inverse = invertWithPrior(hessian, radiusPx);
  const shade = shadeOf(steepest, inverse, smoothShapes(offsetX, offsetY, ramps));
  return { level, count, offsetX, offsetY, reachX, reachY, ramps, template, energy, steepest, hessian, inverse, shade };
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

function rampsOver(offsetX: Float32Array, offsetY: Float32Array): [Float32Array, Float32Array] {
  const across = unitOf(offsetX, []);
  return [across, unitOf(offsetY, [across])];
}

/** Without mean and what goes along `others`, of length 1; all 0 where nothing is left. */
function unitOf(values: Float32Array, others: readonly Float32Array[]): Float32Array {
  const free = Float32Array.from(values);
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
  for (let pixel = 0; pixel < free.length; pixel++) free[pixel]! -= mean;
  for (const other of others) takeAlong(free, 1, 0, other);
  const size = Math.sqrt(sumOfSquares(free));
  return free.map((each) => (size > 0 ? each / size : 0));
}

/** Takes out of `values` (every `step`th from `first`) what of it goes along `other`, which is of length 1. */
function takeAlong(values: Float32Array, step: number, first: number, other: Float32Array): void {
  let along = 0;
  for (let pixel = 0; pixel < other.length; pixel++) along += values[step * pixel + first]! * other[pixel]!;
  for (let pixel = 0; pixel < other.length; pixel++) values[step * pixel + first]! -= along * other[pixel]!;
}

const sumOfSquares = (values: Float32Array): number => values.reduce((sum, each) => sum + each * each, 0);
/**
 * By how much light may change over a patch in each smooth shape (squares and cubes of the place) as the head turns, grey levels, root mean
 * square: on films of heads with known truth smooth skin misled patches by as much (docs/numerics.md §19).
 */
const SHADE_GREY = 1;

/** Squares and cubes of the place, without mean and even slopes, at right angles to each other, of length 1. */
function smoothShapes(offsetX: Float32Array, offsetY: Float32Array, ramps: readonly Float32Array[]): Float32Array[] {
  const size = Math.sqrt((sumOfSquares(offsetX) + sumOfSquares(offsetY)) / offsetX.length) || 1;
  const free = [...ramps];
  for (const [i, j] of [[2, 0], [1, 1], [0, 2], [3, 0], [2, 1], [1, 2], [0, 3]] as const) {
    free.push(unitOf(offsetX.map((x, pixel) => (x / size) ** i * (offsetY[pixel]! / size) ** j), free));
  }
  return free.slice(ramps.length);
}

/** What a change of light in these shapes moves the answer by: inverse · Sᵀ·shape for each. */
function shadeOf(steepest: Float32Array, inverse: Float64Array, shapes: readonly Float32Array[]): [number, number, number] {
  let [xx, xy, yy] = [0, 0, 0];
  for (const shape of shapes) {
    const pull = [0, 0, 0, 0];
    for (let pixel = 0; pixel < shape.length; pixel++) for (let k = 0; k < 4; k++) pull[k]! += steepest[4 * pixel + k]! * shape[pixel]!;
    const [x, y] = [0, 4].map((row) => pull.reduce((sum, each, k) => sum + inverse[row + k]! * each, 0)) as [number, number];
    const size = SHADE_GREY ** 2 * shape.length;
    xx += size * x * x;
    xy += size * x * y;
    yy += size * y * y;
  }
  return [xx, xy, yy];
}

/** Less than this, grey levels squared a pixel, is rounding and no texture. */
const LEAST_ENERGY = 1e-6;

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
