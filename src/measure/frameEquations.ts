/**
 * One frame of a film as equations: the head's pose (6) and the rim's place in the head's frame (3) are the frame's own unknowns; where
 * the landmarks lie, the rim's usual depth, focal length and rim diameter (by their logarithms) are shared by all frames.
 */
import type { Vec3 } from '../core/vector';
import { ROBUST_WIDTH } from './headPose';
import { createSeenPoint, seePoint, type SeenPoint } from './pointRows';
import { compose, rotationFromVector, turn, type Rotation } from './rotation';

/** Of a frame: small turn, shift, rim. */
export const OWN = 9;
/** How far the rim leaves its usual depth as it travels over the arch: 8 mm off the middle an arch curves back by about 1.5 mm; a judgement. */
export const OWN_DEPTH_SD_MM = 1.5;

export interface FrameSeen {
  readonly timeS: number;
  /** Relative to the picture's middle, px; `landmark` numbers those of the shape. */
  readonly marks: readonly { readonly landmark: number; readonly x: number; readonly y: number; readonly sdPx: number }[];
  /** The picture of the rim's centre point (not the ellipse's own centre), and focal length × radius / depth. */
  readonly rim: {
    readonly x: number; readonly y: number; readonly sdPx: number; readonly radiusPx: number; readonly radiusSdPx: number;
    /** Which of the shared radii it is seen by. */
    readonly radius: number;
  };
  /** Which of the shared rests the rim keeps to in this frame, to within `sdMm`; absent: to none. */
  readonly rest?: { readonly number: number; readonly sdMm: number } | undefined;
}

export interface FrameState {
  readonly rotation: Rotation;
  readonly shift: Vec3;
  readonly rim: Vec3;
}

export interface SharedState {
  readonly shape: readonly Vec3[];
  readonly rimDepthMm: number;
  readonly focalPx: number;
  /** Of the rim as it was marked, one for each time that it was: the hand errs anew. */
  readonly radiiMm: readonly number[];
  /** Where the rim rests while a note is held, in the head's frame, one for each note: last among the unknowns. */
  readonly rests: readonly Vec3[];
}

/** Landmarks' places, rim depth, logarithms of focal length and radii, rests. */
export const sharedSize = (landmarks: number, radii: number, rests = 0): number => 3 * landmarks + 2 + radii + 3 * rests;

/** Sums of J'WJ and J'Wr, filled by `sumFrame`. */
export interface FrameSums {
  readonly own: Float64Array;
  readonly mixed: Float64Array;
  readonly ownSlope: Float64Array;
}

export interface SharedSums {
  readonly normal: Float64Array;
  readonly slope: Float64Array;
}

export const createFrameSums = (shared: number): FrameSums => ({
  own: new Float64Array(OWN * OWN), mixed: new Float64Array(OWN * shared), ownSlope: new Float64Array(OWN),
});

const seenPoint: SeenPoint = createSeenPoint();
const row = new Float64Array(OWN);
const sharedAt = new Int32Array(4);
const sharedRow = new Float64Array(4);

/**
 * The frame's cost (Cauchy's for landmarks, squares for the rest, in deviations), Infinity where something lies behind the camera. Where
 * `sums` is given it is refilled; where `shared` is given the frame's part is added to it.
 */
export function sumFrame(
  seen: FrameSeen, state: FrameState, all: SharedState, sums: FrameSums | null, shared: SharedSums | null,
  robustWidth = ROBUST_WIDTH, restWidth = robustWidth,
): number {
  const landmarks = all.shape.length;
  const radii = all.radiiMm.length;
  const size = sharedSize(landmarks, radii, all.rests.length);
  const focalAt = 3 * landmarks + 1;
  const wide = robustWidth * robustWidth;
  let cost = 0;
  if (sums) {
    sums.own.fill(0);
    sums.mixed.fill(0);
    sums.ownSlope.fill(0);
  }
  for (const mark of seen.marks) {
    seePoint(seenPoint, all.focalPx, state.rotation, state.shift, all.shape[mark.landmark]!);
    if (!(seenPoint.depth > 0)) return Infinity;
    const ru = mark.x - seenPoint.u;
    const rv = mark.y - seenPoint.v;
    const square = (ru * ru + rv * rv) / (mark.sdPx * mark.sdPx);
    cost += wide * Math.log1p(square / wide);
    if (!sums) continue;
    const weight = 1 / ((1 + square / wide) * mark.sdPx * mark.sdPx);
    for (let side = 0; side < 2; side++) {
      const derivatives = side === 0 ? seenPoint.du : seenPoint.dv;
      row.fill(0);
      for (let k = 0; k < 6; k++) row[k] = derivatives[k]!;
      for (let k = 0; k < 3; k++) {
        sharedAt[k] = 3 * mark.landmark + k;
        sharedRow[k] = derivatives[6 + k]!;
      }
      sharedAt[3] = focalAt;
      sharedRow[3] = side === 0 ? seenPoint.u : seenPoint.v;
      addRow(sums, shared, size, 4, side === 0 ? ru : rv, weight);
    }
  }
  seePoint(seenPoint, all.focalPx, state.rotation, state.shift, state.rim);
  if (!(seenPoint.depth > 0)) return Infinity;
  const { rim } = seen;
  const radiusPx = (all.focalPx * all.radiiMm[rim.radius]!) / seenPoint.depth;
  const ru = rim.x - seenPoint.u;
  const rv = rim.y - seenPoint.v;
  const rr = rim.radiusPx - radiusPx;
  cost += (ru * ru + rv * rv) / rim.sdPx ** 2 + (rr / rim.radiusSdPx) ** 2;
  if (sums) {
    sharedAt[0] = focalAt;
    sharedRow[0] = seenPoint.u;
    row.set(seenPoint.du);
    addRow(sums, shared, size, 1, ru, 1 / rim.sdPx ** 2);
    sharedRow[0] = seenPoint.v;
    row.set(seenPoint.dv);
    addRow(sums, shared, size, 1, rv, 1 / rim.sdPx ** 2);
    sharedRow[0] = radiusPx;
    sharedAt[1] = focalAt + 1 + rim.radius;
    sharedRow[1] = radiusPx;
    for (let k = 0; k < OWN; k++) row[k] = (-radiusPx / seenPoint.depth) * seenPoint.dDepth[k]!;
    addRow(sums, shared, size, 2, rr, 1 / rim.radiusSdPx ** 2);
  }
  const { rest } = seen;
  if (!rest) {
    const away = all.rimDepthMm - state.rim[2];
    cost += (away / OWN_DEPTH_SD_MM) ** 2;
    if (sums) tieRim(sums, shared, size, 2, 3 * landmarks, away, 1 / OWN_DEPTH_SD_MM ** 2);
    return cost;
  }
  const away = all.rests[rest.number]!.map((each, k) => each - state.rim[k]!);
  const square = (away[0]! ** 2 + away[1]! ** 2 + away[2]! ** 2) / rest.sdMm ** 2;
  const restWide = restWidth * restWidth;
  // A frame in which the note had not come to rest must not count for much.
  cost += restWide * Math.log1p(square / restWide);
  if (!sums) return cost;
  for (let k = 0; k < 3; k++) tieRim(sums, shared, size, k, sharedSize(landmarks, radii, rest.number) + k, away[k]!, 1 / ((1 + square / restWide) * rest.sdMm ** 2));
  return cost;
}

/**
 * The state after a step of the frame's nine unknowns. Distance is stepped by its logarithm and the shift across by its angle: so a step
 * that goes with one of the focal length stays on the same picture. `turned` is how the shape itself turns in this step: the rim, being
 * part of the head, turns with it in full and not only to first order.
 */
export function stepFrame({ rotation, shift, rim }: FrameState, step: Float64Array, turned: Vec3 = [0, 0, 0]): FrameState {
  const z = shift[2] * Math.exp(step[5]! / shift[2]);
  const across = (k: 0 | 1): number => z * (shift[k] + step[3 + k]! - (shift[k] * step[5]!) / shift[2]) / shift[2];
  return {
    rotation: compose(rotationFromVector([step[0]!, step[1]!, step[2]!]), rotation),
    shift: [across(0), across(1), z],
    rim: stepTurned(rim, [step[6]!, step[7]!, step[8]!], turned),
  };
}

/** place + step to first order, with the part of the step that is a turn of the whole head made a full turn. */
export function stepTurned(place: Vec3, step: Vec3, turned: Vec3): Vec3 {
  const [x, y, z] = place;
  const [a, b, c] = turned;
  return turn(rotationFromVector(turned), [
    x + step[0] - (b * z - c * y), y + step[1] - (c * x - a * z), z + step[2] - (a * y - b * x),
  ]);
}

/** Landmark residuals, px, in the order of `seen.marks`. */
export function residualsOf(seen: FrameSeen, state: FrameState, all: SharedState): { readonly x: number; readonly y: number }[] {
  return seen.marks.map((mark) => {
    seePoint(seenPoint, all.focalPx, state.rotation, state.shift, all.shape[mark.landmark]!);
    return { x: mark.x - seenPoint.u, y: mark.y - seenPoint.v };
  });
}

/** rim[k] = the shared unknown, to within 1/√weight. */
function tieRim(sums: FrameSums, shared: SharedSums | null, size: number, k: number, at: number, away: number, weight: number): void {
  row.fill(0);
  row[6 + k] = 1;
  sharedAt[0] = at;
  sharedRow[0] = -1;
  addRow(sums, shared, size, 1, away, weight);
}

function addRow(sums: FrameSums, shared: SharedSums | null, size: number, count: number, residual: number, weight: number): void {
  for (let j = 0; j < OWN; j++) {
    const each = weight * row[j]!;
    if (each === 0) continue;
    sums.ownSlope[j]! += each * residual;
    for (let k = 0; k < OWN; k++) sums.own[OWN * j + k]! += each * row[k]!;
    for (let k = 0; k < count; k++) sums.mixed[size * j + sharedAt[k]!]! += each * sharedRow[k]!;
  }
  if (!shared) return;
  for (let j = 0; j < count; j++) {
    const each = weight * sharedRow[j]!;
    shared.slope[sharedAt[j]!]! += each * residual;
    for (let k = 0; k < count; k++) shared.normal[size * sharedAt[j]! + sharedAt[k]!]! += each * sharedRow[k]!;
  }
}
