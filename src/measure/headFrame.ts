/** What one solved frame says, in the head's frame, and how it hangs on its own noise and on what all frames share. */
import type { HornAngles } from '../core/analysis';
import { anglesFromAxis, toDegrees } from '../core/frame';
import { type Vec3, cross, dot } from '../core/vector';
import { OWN, OWN_DEPTH_SD_MM, createFrameSums, sumFrame, type FrameSeen, type FrameState, type SharedState } from './frameEquations';
import { AS_COUNTED, toldOf } from './headBundle';
import type { FrontAxis } from './hornFromFront';
import { turnBack } from './rotation';
import { invertSymmetric, sandwich } from './symmetricSolver';

/** In the order of `HeadFrame`'s arrays: rim's x, y, z in the head's frame, mm; elevation and lateral, degrees. */
export const MEASURED = 5;

export interface HeadFrame {
  readonly timeS: number;
  /** The rim's centre in the player's frame up to a constant, mm. */
  readonly rimMm: Vec3;
  readonly angles: HornAngles | null;
  /** Covariance of what is this frame's own, MEASURED × MEASURED; zeros for angles that are not told: by landmarks and horn, and by the rim. */
  readonly noise: Float64Array;
  readonly rimNoise: Float64Array;
  /** By one deviation of the rim's own depth, which a note keeps. */
  readonly byOwnDepth: Float64Array;
  /** By each shared error, MEASURED × the size of `HeadFilm.covariance`. */
  readonly byShared: Float64Array;
}

export interface FilmErrors {
  /** The fit's shared unknowns (without rests), and with the horn's errors. */
  readonly unknowns: number;
  readonly sharedErrors: number;
  /** Where the horn's errors of this frame stand among all of those. */
  hornErrorAt(error: number): number;
  /** As `HeadFilm.marksTimes`. */
  readonly marksTimes: number;
  /** How many times larger or smaller than it counts in the fit the deviation of the rim's size is. */
  readonly radiusTimes: number;
}

/** null where the frame is not determined. */
export function headFrame(seen: FrameSeen, state: FrameState, shared: SharedState, axis: FrontAxis | null, { unknowns: size, sharedErrors, hornErrorAt, marksTimes, radiusTimes }: FilmErrors): HeadFrame | null {
  const sums = createFrameSums(size);
  const told = toldOf(seen, AS_COUNTED);
  sumFrame(told.seen, state, shared, sums, null, told.marksWidth, told.restWidth);
  const own = invertSymmetric(sums.own, OWN);
  if (!own) return null;
  // What is measured, by the frame's own unknowns: MEASURED × OWN.
  const measure = new Float64Array(MEASURED * OWN);
  for (let k = 0; k < 3; k++) measure[k * OWN + 6 + k] = 1;
  const angles = axis ? anglesFromAxis(turnBack(state.rotation, axis.axis)) : null;
  const byDirection = axis ? anglesByDirection(turnBack(state.rotation, axis.axis)) : null;
  const byAcross: number[][] = [[0, 0], [0, 0]];
  if (axis && byDirection) {
    for (let k = 0; k < 3; k++) {
      // Turning the head by δ moves a direction d, seen from the head, by Rᵀ(d × δ).
      const unit: Vec3 = [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];
      const moved = turnBack(state.rotation, cross(axis.axis, unit));
      byDirection.forEach((row, a) => (measure[(3 + a) * OWN + k] = dot(row, moved)));
    }
    axis.across.forEach((one, k) => byDirection.forEach((row, a) => (byAcross[a]![k] = dot(row, turnBack(state.rotation, one)))));
  }
  const followed = multiply(measure, MEASURED, own, OWN);
  const byOwnDepth = new Float64Array(MEASURED);
  for (let a = 0; a < MEASURED; a++) byOwnDepth[a] = followed[a * OWN + 8]! / OWN_DEPTH_SD_MM;
  // What the rim tells of the frame's own unknowns, without the landmarks and without its usual depth.
  const byRim = (radiusSdPx: number): Float64Array => {
    const rim = createFrameSums(size);
    sumFrame({ ...told.seen, rim: { ...told.seen.rim, radiusSdPx }, marks: [], rest: undefined }, state, shared, rim, null);
    rim.own[OWN * OWN - 1]! -= 1 / OWN_DEPTH_SD_MM ** 2;
    return sandwich(followed, MEASURED, rim.own, OWN);
  };
  const counted = byRim(told.seen.rim.radiusSdPx);
  // What counts as σ and errs by kσ: the sums are to be told a deviation of σ/k.
  const rimNoise = byRim(told.seen.rim.radiusSdPx / radiusTimes);
  const noise = new Float64Array(MEASURED * MEASURED);
  for (let a = 0; a < MEASURED; a++) {
    for (let b = 0; b < MEASURED; b++) {
      const at = a * MEASURED + b;
      let sum = -byOwnDepth[a]! * byOwnDepth[b]! - counted[at]!;
      for (let k = 0; k < OWN; k++) sum += followed[a * OWN + k]! * measure[b * OWN + k]!;
      noise[at] = marksTimes * sum;
    }
  }
  const byShared = new Float64Array(MEASURED * sharedErrors);
  for (let a = 0; a < MEASURED; a++) {
    for (let k = 0; k < OWN; k++) {
      const each = followed[a * OWN + k]!;
      if (each !== 0) for (let j = 0; j < size; j++) byShared[a * sharedErrors + j]! -= each * sums.mixed[k * size + j]!;
    }
  }
  if (axis) {
    for (let a = 0; a < 2; a++) {
      const at = (3 + a) * sharedErrors;
      const [p, q] = byAcross[a]! as [number, number];
      for (let b = 0; b < 2; b++) {
        const [r, s] = byAcross[b]! as [number, number];
        noise[(3 + a) * MEASURED + 3 + b]! += p * r * axis.noise[0] + (p * s + q * r) * axis.noise[1] + q * s * axis.noise[2];
      }
      const focalAt = at + 3 * shared.shape.length + 1;
      byShared[focalAt]! += p * axis.byLogFocal[0] + q * axis.byLogFocal[1];
      byShared[focalAt + 1 + seen.rim.radius]! += p * axis.byLogDiameter[0] + q * axis.byLogDiameter[1];
      axis.shared.forEach(([x, y], k) => (byShared[at + size + hornErrorAt(k)] = p * x + q * y));
    }
  }
  return { timeS: seen.timeS, rimMm: state.rim, angles, noise, rimNoise, byOwnDepth, byShared };
}

/** Elevation's and lateral's derivatives by a direction in the head's frame, degrees for a unit vector's part. */
function anglesByDirection([x, y, z]: Vec3): readonly [Vec3, Vec3] {
  const level = Math.hypot(x, z);
  const whole = x * x + y * y + z * z;
  const degree = toDegrees(1);
  return [
    [(-degree * x * y) / (level * whole), (degree * level) / whole, (-degree * z * y) / (level * whole)],
    [(-degree * z) / (level * level), 0, (degree * x) / (level * level)],
  ];
}

function multiply(left: Float64Array, rows: number, right: Float64Array, size: number): Float64Array {
  const product = new Float64Array(rows * size);
  for (let a = 0; a < rows; a++) {
    for (let k = 0; k < size; k++) {
      const each = left[a * size + k]!;
      if (each !== 0) for (let j = 0; j < size; j++) product[a * size + j]! += each * right[k * size + j]!;
    }
  }
  return product;
}
