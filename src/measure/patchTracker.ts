/**
 * Finds a patch again in another frame: inverse-compositional alignment (source: patch.ts) of shift, growth and turn, coarse to fine. The
 * template is always the marked frame's, so nothing adds up from frame to frame.
 */
import { cutPatch, type Patch, type PatchLevel, PRIOR, priorWeights } from './patch';
import type { Point } from './picture';
import { type Pyramid, type PyramidLevel, sampleCubic, sampleLinear, toLevel } from './pyramid';

/** Where a patch lies in a frame: what was at (u, v) from its marked place is at (x + a·u − b·v, y + b·u + a·v), px. */
export interface PatchPose extends Point {
  readonly a: number;
  readonly b: number;
}

/** Deviations and their product, px². */
export interface Covariance {
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

export type PatchAnswer =
  | {
      readonly found: true;
      readonly pose: PatchPose;
      /** Zero-mean normalised correlation with the template, up to 1. */
      readonly correlation: number;
      readonly iterations: number;
      /** Of the place, from what of the brightness stays unexplained and from the template's Hessian. */
      readonly covariance: Covariance;
    }
  | {
      readonly found: false;
      /** It leaves the picture; the steps led away from where it can be; what is there is not like it. */
      readonly reason: 'outside' | 'ran-away' | 'unlike';
      readonly correlation: number;
    };

export interface TrackLimits {
  /** A correlation below it is 'unlike'. */
  readonly leastCorrelation: number;
  /** How far from the start it may be found, px. */
  readonly furthestPx: number;
}

/** A step shorter than this ends the search, px: far below the noise. */
const ENOUGH_PX = 0.004;
/** Alignment from within a patch's reach takes 3 to 8 steps; one that takes more goes nowhere. */
const MOST_STEPS = 20;
const MOST_COARSE_STEPS = 8;
/** A step that undoes this part of the last one is too long, and the next ones are shortened to this part. */
const TURNED_BACK = 0.5;
const SHORTER = 0.6;
/** Contrast may change to this part of the marked frame's, or its inverse; beyond it is another thing. */
const LEAST_GAIN = 0.25;
/** Growth from the marked frame to this factor, or its inverse. */
const MOST_GROWTH = 2;
/** What remains unexplained is taken together in so many cells to a side of the patch, and of their sixteen pulls the fit has used four. */
const CELLS = 4;
const CELLS_FACTOR = CELLS ** 2 / (CELLS ** 2 - 4);
/** No place is known better than this, px: interpolation, rolling shutter, the lens. */
const FLOOR_PX = 0.03;

/**
 * Tracks `patch` into the frame from `start` (the last place, moved on). `expected` is where the patch is drawn to if its own texture
 * does not tell (a featureless one, or along a straight edge); default the start.
 */
export function trackPatch(patch: Patch, frame: Pyramid, start: PatchPose, limits: TrackLimits, expected: PatchPose = start): PatchAnswer {
  for (let index = 0; index < 4; index++) now[index] = poseNumber(start, index);
  const finest = patch.levels.length - 1;
  let iterations = 0;
  for (let index = 0; index <= finest; index++) {
    const level = patch.levels[index]!;
    const picture = frame.levels[level.level]!;
    const before = [now[0]!, now[1]!, now[2]!, now[3]!] as const;
    const steps = alignLevel(patch, level, picture, expected, index === finest ? MOST_STEPS : MOST_COARSE_STEPS, limits, start);
    if (steps > 0) {
      iterations += steps;
      // A coarse level that finds nothing like its template must not lead the finer ones astray.
      if (index < finest && correlationOf(level) < limits.leastCorrelation) now.set(before);
      continue;
    }
    if (index < finest) now.set(before);
    else return { found: false, reason: steps === OUTSIDE ? 'outside' : 'ran-away', correlation: 0 };
  }
  const level = patch.levels[finest]!;
  const correlation = correlationOf(level);
  const gain = sums.along / level.energy;
  if (!(correlation >= limits.leastCorrelation) || !(gain > LEAST_GAIN && gain < 1 / LEAST_GAIN)) {
    return { found: false, reason: 'unlike', correlation };
  }
  const pose = { x: now[0]!, y: now[1]!, a: now[2]!, b: now[3]! };
  return { found: true, pose, correlation, iterations, covariance: covarianceOf(patch, level, gain, correlation, pose) };
}

/**
 * Looks for the patch on a grid of whole pixels of its coarsest level, up to `radiusPx` from `around`, with the growth and turn of that.
 * The most alike place, to be refined by `trackPatch`; null where none is in the picture.
 */
export function searchPatch(patch: Patch, frame: Pyramid, around: PatchPose, radiusPx: number): { pose: PatchPose; correlation: number } | null {
  const level = patch.levels[0]!;
  const picture = frame.levels[level.level]!;
  const radius = Math.ceil(radiusPx / picture.scale);
  const middleX = Math.round(toLevel(picture, around.x));
  const middleY = Math.round(toLevel(picture, around.y));
  let best = -1;
  let bestX = 0;
  let bestY = 0;
  for (let row = -radius; row <= radius; row++) {
    for (let column = -radius; column <= radius; column++) {
      const x = (middleX + column + 0.5) * picture.scale - 0.5;
      const y = (middleY + row + 0.5) * picture.scale - 0.5;
      if (!fits(level, picture, x, y, around.a, around.b)) continue;
      gatherNearest(level, picture, x, y, around.a, around.b);
      const correlation = correlationOf(level);
      if (correlation > best) [best, bestX, bestY] = [correlation, x, y];
    }
  }
  return best < 0 ? null : { pose: { x: bestX, y: bestY, a: around.a, b: around.b }, correlation: best };
}

/** Correlation of the patch's widest surroundings (its coarsest level) at `pose`; −1 where they leave the picture. */
export function surroundingsCorrelation(patch: Patch, frame: Pyramid, { x, y, a, b }: PatchPose): number {
  const level = patch.levels[0]!;
  const picture = frame.levels[level.level]!;
  if (!fits(level, picture, x, y, a, b)) return -1;
  gatherNearest(level, picture, x, y, a, b);
  return correlationOf(level);
}

/**
 * Forward and back: what is now at `pose` is tracked into the marked frame, from a place `awayPx` beside where it should come out. How far
 * from the mark it comes out, px; Infinity where it is lost on the way. A place that is found by chance does not lead back.
 */
export function wayBackPx(patch: Patch, frame: Pyramid, pose: PatchPose, marked: Pyramid, awayPx: number): number {
  const finest = patch.levels[patch.levels.length - 1]!.level;
  const back = cutPatch(frame, pose, { halfPx: patch.radiusPx, levels: [finest] });
  if (!back) return Infinity;
  const size = pose.a ** 2 + pose.b ** 2;
  const start = { x: patch.place.x + awayPx, y: patch.place.y, a: pose.a / size, b: -pose.b / size };
  const answer = trackPatch(back, marked, start, { leastCorrelation: 0, furthestPx: patch.radiusPx });
  return answer.found ? Math.hypot(answer.pose.x - patch.place.x, answer.pose.y - patch.place.y) : Infinity;
}

/** The place's deviations along the direction in which it is known worst and across it, px; `alongRad` from the picture's x axis toward y. */
export function mainDeviations({ xx, xy, yy }: Covariance): { alongPx: number; acrossPx: number; alongRad: number } {
  const middle = (xx + yy) / 2;
  const spread = Math.hypot((xx - yy) / 2, xy);
  return { alongPx: Math.sqrt(middle + spread), acrossPx: Math.sqrt(Math.max(0, middle - spread)), alongRad: 0.5 * Math.atan2(2 * xy, xx - yy) };
}

const OUTSIDE = -1;
const RAN_AWAY = -2;

/** The pose being worked on: x, y, a, b. One thread works on one patch at a time, and every call fills these anew. */
const now = new Float64Array(4);
const right = new Float64Array(4);
/** Of the frame's brightness over the patch: its sum, its squares' sum, and its products with the template and the two ramps. */
const sums = { plain: 0, squared: 0, along: 0, right: 0, down: 0 };
/** The brightness that was sampled last, pixel by pixel of the patch. */
let sampled = new Float64Array(4096);

function poseNumber(pose: PatchPose, index: number): number {
  return index === 0 ? pose.x : index === 1 ? pose.y : index === 2 ? pose.a : pose.b;
}

/** Steps until the patch lies still; OUTSIDE or RAN_AWAY where it does not. Leaves `now` and `sums` at the last pose that was sampled. */
function alignLevel(
  patch: Patch, level: PatchLevel, picture: PyramidLevel, expected: PatchPose, mostSteps: number, limits: TrackLimits, start: PatchPose,
): number {
  const { shift, shape } = priorWeights(patch.radiusPx);
  const { inverse } = level;
  const radius = patch.radiusPx;
  const enough = ENOUGH_PX * picture.scale;
  let pace = 1;
  let lastX = 0;
  let lastY = 0;
  for (let step = 1; ; step++) {
    const [x, y, a, b] = [now[0]!, now[1]!, now[2]!, now[3]!];
    if (!fits(level, picture, x, y, a, b)) return OUTSIDE;
    gather(level, picture, x, y, a, b);
    if (step > mostSteps) return step;
    const gain = Math.max(sums.along / level.energy, LEAST_GAIN);
    const size = a * a + b * b;
    // The prior's pull, in the marked frame's directions.
    const awayX = x - expected.x;
    const awayY = y - expected.y;
    const pullX = shift * ((a * awayX + b * awayY) / size);
    const pullY = shift * ((a * awayY - b * awayX) / size);
    const pullGrowth = shape * radius * (a - expected.a);
    const pullTurn = shape * radius * (b - expected.b);
    const r0 = right[0]! / gain + pullX;
    const r1 = right[1]! / gain + pullY;
    const r2 = right[2]! / gain + pullGrowth;
    const r3 = right[3]! / gain + pullTurn;
    let dx = inverse[0]! * r0 + inverse[1]! * r1 + inverse[2]! * r2 + inverse[3]! * r3;
    let dy = inverse[4]! * r0 + inverse[5]! * r1 + inverse[6]! * r2 + inverse[7]! * r3;
    let growth = inverse[8]! * r0 + inverse[9]! * r1 + inverse[10]! * r2 + inverse[11]! * r3;
    let turn = inverse[12]! * r0 + inverse[13]! * r1 + inverse[14]! * r2 + inverse[15]! * r3;
    // Smoothed slopes are too small on the finest texture, and its steps too long: where a step turns back on the last, they are shortened.
    if (dx * lastX + dy * lastY < -TURNED_BACK * (lastX * lastX + lastY * lastY)) pace *= SHORTER;
    lastX = dx;
    lastY = dy;
    dx *= pace;
    dy *= pace;
    growth *= pace;
    turn *= pace;
    // The warp is followed by the inverse of the template's step.
    const da = 1 + growth / radius;
    const db = turn / radius;
    const d = da * da + db * db;
    const newA = (a * da + b * db) / d;
    const newB = (b * da - a * db) / d;
    now[0] = x - newA * dx + newB * dy;
    now[1] = y - newB * dx - newA * dy;
    now[2] = newA;
    now[3] = newB;
    const newSize = newA * newA + newB * newB;
    if (!(Math.hypot(now[0] - start.x, now[1] - start.y) <= limits.furthestPx) || newSize > MOST_GROWTH ** 2 || newSize < MOST_GROWTH ** -2) {
      return RAN_AWAY;
    }
    if (Math.abs(dx) + Math.abs(dy) < enough && Math.abs(growth) + Math.abs(turn) < enough) return step;
  }
}

/** Whether the whole patch at this pose lies in the region of the picture that is at hand. */
function fits(level: PatchLevel, picture: PyramidLevel, x: number, y: number, a: number, b: number): boolean {
  const wide = (Math.abs(a) * level.reachX + Math.abs(b) * level.reachY) / picture.scale;
  const high = (Math.abs(b) * level.reachX + Math.abs(a) * level.reachY) / picture.scale;
  const atX = toLevel(picture, x);
  const atY = toLevel(picture, y);
  return (
    atX - wide >= picture.left + 1 && atY - high >= picture.top + 1 &&
    atX + wide < picture.left + picture.width - 2 && atY + high < picture.top + picture.height - 2
  );
}

/** Samples the frame over the patch and forms the sums, and the right-hand side of the normal equations in `right`. */
function gather(level: PatchLevel, picture: PyramidLevel, x: number, y: number, a: number, b: number): void {
  const { count, offsetX, offsetY, template, steepest, ramps: [across, downward] } = level;
  if (sampled.length < count) sampled = new Float64Array(count);
  const perPixel = 1 / picture.scale;
  const atX = toLevel(picture, x);
  const atY = toLevel(picture, y);
  const ca = a * perPixel;
  const cb = b * perPixel;
  const full = picture.scale === 1;
  let plain = 0;
  let squared = 0;
  let along = 0;
  let right0 = 0;
  let down0 = 0;
  let r0 = 0;
  let r1 = 0;
  let r2 = 0;
  let r3 = 0;
  for (let pixel = 0, at = 0; pixel < count; pixel++, at += 4) {
    const u = offsetX[pixel]!;
    const v = offsetY[pixel]!;
    const sampleX = atX + ca * u - cb * v;
    const sampleY = atY + cb * u + ca * v;
    const value = full ? sampleCubic(picture, sampleX, sampleY) : sampleLinear(picture, sampleX, sampleY);
    plain += value;
    squared += value * value;
    along += value * template[pixel]!;
    right0 += value * across[pixel]!;
    down0 += value * downward[pixel]!;
    sampled[pixel] = value;
    r0 += value * steepest[at]!;
    r1 += value * steepest[at + 1]!;
    r2 += value * steepest[at + 2]!;
    r3 += value * steepest[at + 3]!;
  }
  sums.plain = plain;
  sums.squared = squared;
  sums.along = along;
  sums.right = right0;
  sums.down = down0;
  right[0] = r0;
  right[1] = r1;
  right[2] = r2;
  right[3] = r3;
}

/** As `gather`, the sums only, at the nearest pixels. */
function gatherNearest(level: PatchLevel, picture: PyramidLevel, x: number, y: number, a: number, b: number): void {
  const { count, offsetX, offsetY, template, ramps: [across, downward] } = level;
  const { values, width, left, top, scale } = picture;
  const atX = toLevel(picture, x) - left + 0.5;
  const atY = toLevel(picture, y) - top + 0.5;
  const ca = a / scale;
  const cb = b / scale;
  let plain = 0;
  let squared = 0;
  let along = 0;
  let right0 = 0;
  let down0 = 0;
  for (let pixel = 0; pixel < count; pixel++) {
    const u = offsetX[pixel]!;
    const v = offsetY[pixel]!;
    const column = (atX + ca * u - cb * v) | 0;
    const row = (atY + cb * u + ca * v) | 0;
    const value = values[row * width + column]!;
    plain += value;
    squared += value * value;
    along += value * template[pixel]!;
    right0 += value * across[pixel]!;
    down0 += value * downward[pixel]!;
  }
  sums.plain = plain;
  sums.squared = squared;
  sums.along = along;
  sums.right = right0;
  sums.down = down0;
}

/** Sum of squares of the frame's brightness, less its mean and even slopes. */
const spreadOf = ({ count }: PatchLevel): number => sums.squared - sums.plain ** 2 / count - sums.right ** 2 - sums.down ** 2;

function correlationOf(level: PatchLevel): number {
  const spread = spreadOf(level);
  return spread > 0 ? sums.along / Math.sqrt(spread * level.energy) : 0;
}

const pulls = new Float64Array(4 * CELLS * CELLS);
const cells = new Float64Array(16);
const spreads = new Float64Array(16);

/**
 * What stays unexplained pulls at the patch, cell by cell; how far these pulls scatter tells how far their sum may have led it (the sandwich form
 * of a covariance, with cells as its clusters): blots as large as a compressed face has them count as the few pulls they are.
 * Slopes that are the marked frame's noise are no hold: they pass for texture in the Hessian, by about the part that is not found again.
 */
function covarianceOf(patch: Patch, level: PatchLevel, gain: number, correlation: number, { a, b }: PatchPose): Covariance {
  const { count, offsetX, offsetY, reachX, reachY, template, steepest, inverse, ramps: [across, downward] } = level;
  pulls.fill(0);
  const mean = sums.plain / count;
  for (let pixel = 0, at = 0; pixel < count; pixel++, at += 4) {
    const left = (sampled[pixel]! - mean - sums.right * across[pixel]! - sums.down * downward[pixel]!) / gain - template[pixel]!;
    const column = Math.min(CELLS - 1, Math.floor(((offsetX[pixel]! / reachX + 1) / 2) * CELLS));
    const row = Math.min(CELLS - 1, Math.floor(((offsetY[pixel]! / reachY + 1) / 2) * CELLS));
    const cell = 4 * (row * CELLS + column);
    for (let unknown = 0; unknown < 4; unknown++) pulls[cell + unknown]! += left * steepest[at + unknown]!;
  }
  const { shift, shape } = priorWeights(patch.radiusPx);
  cells.fill(0);
  for (let cell = 0; cell < pulls.length; cell += 4) {
    for (let i = 0; i < 4; i++) for (let j = 0; j < 4; j++) cells[4 * i + j]! += CELLS_FACTOR * pulls[cell + i]! * pulls[cell + j]!;
  }
  // The prior's own part.
  for (let i = 0; i < 4; i++) cells[5 * i]! += (i < 2 ? shift : shape) * PRIOR.noiseGrey ** 2;
  // inverse · cells · inverse, of which the place's part is wanted.
  for (let i = 0; i < 4; i++) {
    for (let j = 0; j < 4; j++) {
      let sum = 0;
      for (let k = 0; k < 4; k++) sum += inverse[4 * i + k]! * cells[4 * k + j]!;
      spreads[4 * i + j] = sum;
    }
  }
  const part = (i: number, j: number): number => {
    let sum = 0;
    for (let k = 0; k < 4; k++) sum += spreads[4 * i + k]! * inverse[4 * k + j]!;
    return sum / correlation ** 2;
  };
  const gain2 = gain * gain;
  const { shade } = level;
  const [xx, xy, yy] = [part(0, 0) + shade[0] / gain2, part(0, 1) + shade[1] / gain2, part(1, 1) + shade[2] / gain2];
  const floor = FLOOR_PX ** 2;
  // From the marked frame's directions to this frame's.
  return {
    xx: a * a * xx - 2 * a * b * xy + b * b * yy + floor,
    xy: a * b * (xx - yy) + (a * a - b * b) * xy,
    yy: b * b * xx + 2 * a * b * xy + a * a * yy + floor,
  };
}
