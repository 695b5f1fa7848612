/**
 * A picture at full, half, quarter … size, over a region of interest only, in buffers that are used again for the next frame.
 * A place (x, y) of the picture (picture.ts) lies at ((x + 0.5) / scale − 0.5, …) of a level: each level's pixel is the mean of four of
 * the level below, so its centre lies between theirs.
 */
import type { GreyPicture } from './picture';

/** One size of the picture over the region: pixel (i, j) of the level is `values[(j − top) * width + i − left]`. */
export interface PyramidLevel {
  /** Picture pixels to a side of one of this level's: 1, 2, 4 … */
  readonly scale: number;
  left: number;
  top: number;
  width: number;
  height: number;
  /** Brightness as in the picture; longer than width · height where an earlier region was larger. */
  values: Float32Array;
}

export interface Pyramid {
  /** Full size first. */
  readonly levels: readonly PyramidLevel[];
}

/** Part of a picture, px; left and top inside, right and bottom outside. */
export interface Region {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function createPyramid(levelCount: number): Pyramid {
  if (!Number.isInteger(levelCount) || levelCount < 1 || levelCount > 6) {
    throw new RangeError(`createPyramid: levelCount ${levelCount}; allowed: a whole number from 1 to 6`);
  }
  return {
    levels: Array.from({ length: levelCount }, (_, level) => ({
      scale: 2 ** level, left: 0, top: 0, width: 0, height: 0, values: new Float32Array(0),
    })),
  };
}

/**
 * Fills all levels from the picture's part in the region (cut to the picture, widened to whole pixels of the coarsest level). A region that
 * lies outside leaves empty levels. Throws RangeError where the brightness is shorter than the picture.
 */
export function fillPyramid(pyramid: Pyramid, picture: GreyPicture, region: Region): void {
  if (picture.luma.length < picture.width * picture.height) {
    throw new RangeError(`fillPyramid: luma of ${picture.luma.length}; allowed: at least ${picture.width} × ${picture.height}`);
  }
  const coarsest = pyramid.levels[pyramid.levels.length - 1]!.scale;
  const left = Math.max(0, Math.floor(region.left / coarsest) * coarsest);
  const top = Math.max(0, Math.floor(region.top / coarsest) * coarsest);
  const right = Math.min(picture.width, Math.ceil(region.right / coarsest) * coarsest);
  const bottom = Math.min(picture.height, Math.ceil(region.bottom / coarsest) * coarsest);
  const full = pyramid.levels[0]!;
  shapeLevel(full, left, top, right - left, bottom - top);
  for (let row = 0; row < full.height; row++) {
    const from = (top + row) * picture.width + left;
    const to = row * full.width;
    for (let column = 0; column < full.width; column++) full.values[to + column] = picture.luma[from + column]!;
  }
  for (let level = 1; level < pyramid.levels.length; level++) halve(pyramid.levels[level - 1]!, pyramid.levels[level]!);
}

/**
 * Brightness between the pixels by the cubic of Catmull and Rom, which goes through them and has their central differences as slopes.
 * x and y are the level's, and at least one pixel inside its region (`insideLevel`).
 */
export function sampleCubic(level: PyramidLevel, x: number, y: number): number {
  const column = Math.floor(x);
  const row = Math.floor(y);
  const u = x - column;
  const v = y - row;
  const { values, width } = level;
  const at = (row - level.top - 1) * width + column - level.left - 1;
  const u0 = u * (-0.5 + u * (1 - 0.5 * u));
  const u1 = 1 + u * u * (1.5 * u - 2.5);
  const u2 = u * (0.5 + u * (2 - 1.5 * u));
  const u3 = u * u * (0.5 * u - 0.5);
  const v0 = v * (-0.5 + v * (1 - 0.5 * v));
  const v1 = 1 + v * v * (1.5 * v - 2.5);
  const v2 = v * (0.5 + v * (2 - 1.5 * v));
  const v3 = v * v * (0.5 * v - 0.5);
  const second = at + width;
  const third = second + width;
  const fourth = third + width;
  return (
    v0 * (u0 * values[at]! + u1 * values[at + 1]! + u2 * values[at + 2]! + u3 * values[at + 3]!) +
    v1 * (u0 * values[second]! + u1 * values[second + 1]! + u2 * values[second + 2]! + u3 * values[second + 3]!) +
    v2 * (u0 * values[third]! + u1 * values[third + 1]! + u2 * values[third + 2]! + u3 * values[third + 3]!) +
    v3 * (u0 * values[fourth]! + u1 * values[fourth + 1]! + u2 * values[fourth + 2]! + u3 * values[fourth + 3]!)
  );
}

/** The same by the straight-line rule: a quarter of the work, for coarse levels and searches along an edge. */
export function sampleLinear(level: PyramidLevel, x: number, y: number): number {
  const column = Math.floor(x);
  const row = Math.floor(y);
  const u = x - column;
  const v = y - row;
  const { values, width } = level;
  const at = (row - level.top) * width + column - level.left;
  const below = at + width;
  const upper = values[at]! + u * (values[at + 1]! - values[at]!);
  const lower = values[below]! + u * (values[below + 1]! - values[below]!);
  return upper + v * (lower - upper);
}

/** Whether both samplers have all they need at (x, y) of the level. */
export function insideLevel(level: PyramidLevel, x: number, y: number): boolean {
  return x >= level.left + 1 && y >= level.top + 1 && x < level.left + level.width - 2 && y < level.top + level.height - 2;
}

/** A place of the picture, one coordinate, in the level's own. */
export function toLevel(level: PyramidLevel, picturePx: number): number {
  return (picturePx + 0.5) / level.scale - 0.5;
}

function shapeLevel(level: PyramidLevel, left: number, top: number, width: number, height: number): void {
  level.left = left;
  level.top = top;
  level.width = Math.max(0, width);
  level.height = Math.max(0, height);
  const needed = level.width * level.height;
  if (level.values.length < needed) level.values = new Float32Array(needed);
}

function halve(from: PyramidLevel, to: PyramidLevel): void {
  // A last odd row or column has no partner and is left out.
  shapeLevel(to, from.left / 2, from.top / 2, from.width >> 1, from.height >> 1);
  for (let row = 0; row < to.height; row++) {
    let upper = 2 * row * from.width;
    let lower = upper + from.width;
    const end = (row + 1) * to.width;
    for (let at = row * to.width; at < end; at++) {
      to.values[at] = 0.25 * (from.values[upper]! + from.values[upper + 1]! + from.values[lower]! + from.values[lower + 1]!);
      upper += 2;
      lower += 2;
    }
  }
}
