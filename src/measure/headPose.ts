/**
 * Where the head is and how it is turned, from its landmarks in one picture: six unknowns by damped Gauss–Newton, started from the
 * plane's similarity. The head's frame is the player's (docs/model.md), the camera's that of camera.ts.
 */
import type { Vec3 } from '../core/vector';
import { checkCamera, middleOf } from './camera';
import { GENERIC_HEAD } from './headShape';
import { LANDMARK_NAMES, type CameraSpec, type LandmarkName } from './marks';
import { createSeenPoint, seePoint } from './pointRows';
import { FACING, compose, rotationFromVector, type Rotation } from './rotation';
import { fitSimilarity } from './similarity';
import { anyWaySdPx } from './slidingPoint';
import { factor, invertSymmetric, solveFactored } from './symmetricSolver';
import type { TracedPoint } from './traces';

/** Six unknowns need three points; a fourth tells the right one of up to four answers. */
export const FEWEST_LANDMARKS = 4;
/** On a shape that is not the person's own, four or five follow that shape's errors. */
export const FEWEST_ON_GENERIC_SHAPE = 6;
/** Cauchy's weight 1/(1 + (r/k)²): at this k, in deviations, it costs 5 % of the exactness where nothing is wrong (value from memory). */
export const ROBUST_WIDTH = 2.385;

/**
 * What a robustly weighted two-dimensional mark tells over what its weight alone would say, for normal errors: E[ψ′]²/(E[ψ²]·E[weight])
 * at the width above, 0.6302²/(0.4216 × 0.7784), by numerical integration over the squared length of two normals.
 */
export const ROBUST_GAIN = 1.21;

const MOST_STEPS = 200;
/** A step of this many radians or parts of the distance is below every mark's exactness by far. */
const STEP_ENOUGH = 1e-10;
/** Nor is there anything to gain where a step takes less than this part off the cost. */
const GAIN_ENOUGH = 1e-12;
const DAMPING = { first: 1e-3, less: 0.2, more: 8, most: 1e12 } as const;

export interface HeadPose {
  readonly kind: 'found';
  /** From the head's frame to the camera's: rotation·point + shift, mm. */
  readonly rotation: Rotation;
  readonly shift: Vec3;
  /** Of (a small turn after the rotation, rad; shift, mm), 6 × 6, row by row. */
  readonly covariance: Float64Array;
  /** Root mean square distance of marked and fitted landmarks, px. */
  readonly residualPx: number;
  readonly iterations: number;
  /** How much each landmark counted, 1 for in full. */
  readonly weights: Readonly<Partial<Record<LandmarkName, number>>>;
}

export interface NoHeadPose {
  readonly kind: 'not-found';
  readonly reason: 'too-few-landmarks' | 'sides-exchanged' | 'one-place' | 'not-settled';
}

export type SeenLandmarks = Readonly<Partial<Record<LandmarkName, TracedPoint>>>;
export type HeadShape = Readonly<Partial<Record<LandmarkName, { readonly placeMm: Vec3; readonly sdMm: Vec3 }>>>;

/**
 * @param shape the landmarks in the head's frame; left out: the generic head, of which six landmarks must be seen, else four.
 * Each landmark errs by its mark (sdPx) and by the shape (sdMm, taken as seen from the front), once for each direction.
 */
export function findHeadPose(camera: CameraSpec, seen: SeenLandmarks, shape?: HeadShape): HeadPose | NoHeadPose {
  checkCamera(camera);
  const known: HeadShape = shape ?? GENERIC_HEAD;
  const names = LANDMARK_NAMES.filter((name) => seen[name] && known[name]);
  if (names.length < (shape ? FEWEST_LANDMARKS : FEWEST_ON_GENERIC_SHAPE)) return { kind: 'not-found', reason: 'too-few-landmarks' };
  const middle = middleOf(camera);
  const marks = names.map((name) => ({ name, x: seen[name]!.x - middle.x, y: seen[name]!.y - middle.y, sdPx: anyWaySdPx(seen[name]!), ...known[name]! }));
  marks.forEach((mark) => {
    if (!(mark.sdPx > 0 && mark.sdPx < Infinity)) throw new RangeError(`${mark.name}.sdPx ${mark.sdPx}: allowed is above 0 and finite`);
    if (!Number.isFinite(mark.x) || !Number.isFinite(mark.y)) throw new RangeError(`${mark.name} (${mark.x}, ${mark.y}): allowed is finite`);
  });
  const flat = fitSimilarity(marks.map(({ placeMm }) => ({ x: placeMm[0], y: -placeMm[1] })), marks);
  if (flat.kind === 'not-fitted') return { kind: 'not-found', reason: 'one-place' };
  if (flat.mirroredFitsBetter) return { kind: 'not-found', reason: 'sides-exchanged' };

  // The similarity maps the landmarks' plane, which lies at their mean depth before the head's origin.
  const meanDepth = marks.reduce((sum, { placeMm }) => sum + placeMm[2], 0) / marks.length;
  const away = camera.focalPx / flat.scale;
  let state: State = {
    rotation: compose(rotationFromVector([0, 0, flat.angleRad]), FACING),
    shift: [(flat.shift.x * away) / camera.focalPx, (flat.shift.y * away) / camera.focalPx, away + meanDepth],
  };
  const sds = marks.map(({ sdPx, sdMm }) => {
    const across = (sdMm[0] + sdMm[1]) / 2;
    return Math.hypot(sdPx, (across * camera.focalPx) / away);
  });
  const seenPoint = createSeenPoint();
  const normal = new Float64Array(36);
  const slope = new Float64Array(6);
  const weights = new Float64Array(marks.length);

  const sumUp = (at: State, fill: boolean): { cost: number; squares: number } => {
    let cost = 0;
    let squares = 0;
    if (fill) {
      normal.fill(0);
      slope.fill(0);
    }
    for (let i = 0; i < marks.length; i++) {
      const mark = marks[i]!;
      seePoint(seenPoint, camera.focalPx, at.rotation, at.shift, mark.placeMm);
      if (!(seenPoint.depth > 0)) return { cost: Infinity, squares: Infinity };
      const ru = mark.x - seenPoint.u;
      const rv = mark.y - seenPoint.v;
      const square = (ru * ru + rv * rv) / sds[i]! ** 2;
      const wide = ROBUST_WIDTH * ROBUST_WIDTH;
      cost += wide * Math.log1p(square / wide);
      squares += ru * ru + rv * rv;
      if (!fill) continue;
      weights[i] = 1 / (1 + square / wide);
      const w = weights[i]! / sds[i]! ** 2;
      for (let j = 0; j < 6; j++) {
        slope[j]! += w * (seenPoint.du[j]! * ru + seenPoint.dv[j]! * rv);
        for (let k = 0; k < 6; k++) normal[6 * j + k]! += w * (seenPoint.du[j]! * seenPoint.du[k]! + seenPoint.dv[j]! * seenPoint.dv[k]!);
      }
    }
    return { cost, squares };
  };

  let damping: number = DAMPING.first;
  let now = sumUp(state, true);
  let iterations = 0;
  let settled = false;
  while (iterations < MOST_STEPS && !settled && damping < DAMPING.most) {
    iterations++;
    const damped = normal.slice();
    for (let j = 0; j < 6; j++) damped[7 * j]! *= 1 + damping;
    const step = slope.slice();
    if (!factor(damped, 6)) return { kind: 'not-found', reason: 'one-place' };
    solveFactored(damped, 6, step);
    const next = moved(state, step);
    const after = sumUp(next, false);
    const size = Math.max(Math.hypot(step[0]!, step[1]!, step[2]!), Math.hypot(step[3]!, step[4]!, step[5]!) / away);
    settled = size < STEP_ENOUGH;
    if (after.cost <= now.cost) {
      settled ||= now.cost - after.cost < GAIN_ENOUGH * now.cost;
      state = next;
      now = sumUp(state, true);
      damping *= DAMPING.less;
    } else damping *= DAMPING.more;
  }
  // Where rounding lets no step lower the sum any more, the damping runs out: that is as settled as it can be.
  if (!settled && damping < DAMPING.most) return { kind: 'not-found', reason: 'not-settled' };
  const covariance = invertSymmetric(normal.map((each) => ROBUST_GAIN * each), 6);
  if (!covariance) return { kind: 'not-found', reason: 'one-place' };
  return {
    kind: 'found',
    ...state,
    covariance,
    residualPx: Math.sqrt(now.squares / marks.length),
    iterations,
    weights: Object.fromEntries(marks.map(({ name }, i) => [name, weights[i]!])),
  };
}

interface State {
  readonly rotation: Rotation;
  readonly shift: Vec3;
}

function moved(state: State, step: Float64Array): State {
  return {
    rotation: compose(rotationFromVector([step[0]!, step[1]!, step[2]!]), state.rotation),
    shift: [state.shift[0] + step[3]!, state.shift[1] + step[4]!, state.shift[2] + step[5]!],
  };
}
