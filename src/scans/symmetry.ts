/**
 * The plane in which a jaw is most nearly its own mirror picture: places of it are mirrored, and the plane is turned and shifted until they
 * lie nearest to the surface (Gauss–Newton on the distances, large ones counting less).
 */
import { toRadians } from '../core/frame';
import { solveSymmetric } from '../core/smallSystem';
import type { FrameDeviation } from './scanFrame';

export interface SymmetryFound {
  readonly kind: 'found';
  /** The plane's normal is (1, roll, −yaw), radians, at a distance from the origin, mm. */
  readonly yaw: number;
  readonly roll: number;
  readonly sidewaysMm: number;
  /** One standard deviation each. */
  readonly yawSd: number;
  readonly rollSd: number;
  readonly sidewaysSdMm: number;
  /** What is left between a place's mirror picture and the surface, root mean square, mm: how unlike the two sides are. */
  readonly residualMm: number;
  readonly iterations: number;
}

export interface SymmetryMissed {
  readonly kind: 'missed';
  readonly reason: 'too-few-places' | 'not-converged';
  readonly iterations: number;
}

/** What the clicks say of the plane. */
export const knownBefore = ({ yawDeg, rollDeg, sidewaysMm }: FrameDeviation): KnownBefore => ({
  yawSd: toRadians(yawDeg),
  rollSd: toRadians(rollDeg),
  sidewaysSdMm: sidewaysMm,
});

const LEAST_PLACES = 30;
const MOST_STEPS = 30;
/** Steps for the slopes: 0.1 mm sideways, and as much at 20 mm from the origin; wide enough that a scan's noise does not count as slope. */
const SLOPE_STEP = [0.005, 0.005, 0.1] as const;
/** The search ends at a step this short: 0.004 mm sideways, and as much at 20 mm; noise leaves the last steps as long as that. */
const SHORT_STEP = [2e-4, 2e-4, 4e-3] as const;
/** Huber's constant: 95 % as good as least squares where errors are normal (value from memory). */
const HUBER = 1.345;
/** From the median of distances to a standard deviation of normal ones. */
const FROM_MEDIAN = 1.4826;
/** Distances within this count in full however alike the sides are, mm: below it a scan says nothing. */
const LEAST_SCALE_MM = 0.01;
/** Places of one tooth err together: a jaw says as much as this many independent places, about two a tooth from first premolar to first premolar. Our judgement. */
const INDEPENDENT_PLACES = 16;

/** One standard deviation each of the plane as it is known beforehand, from clicks: radians and mm. */
export interface KnownBefore {
  readonly yawSd: number;
  readonly rollSd: number;
  readonly sidewaysSdMm: number;
}

/**
 * `places` three numbers each, mm, in a frame whose x = 0 is the plane as far as it is known before; `distanceAt` the signed distance from the
 * surface. A round front alone slides along itself, so places from all of the arch are wanted; what they leave open, `before` decides.
 */
export function findSymmetry(
  places: Float64Array, distanceAt: (x: number, y: number, z: number) => number, before: KnownBefore,
): SymmetryFound | SymmetryMissed {
  const count = places.length / 3;
  if (count < LEAST_PLACES) return { kind: 'missed', reason: 'too-few-places', iterations: 0 };
  const plane: [number, number, number] = [0, 0, 0];
  for (let iterations = 1; iterations <= MOST_STEPS; iterations++) {
    const misses = missesOf(places, plane, distanceAt);
    const slopes = plane.map((_, which) => {
      const there = (by: number): Float64Array => missesOf(places, plane.map((value, k) => (k === which ? value + by : value)), distanceAt);
      const after = there(SLOPE_STEP[which]!);
      const behind = there(-SLOPE_STEP[which]!);
      return after.map((value, i) => (value - behind[i]!) / (2 * SLOPE_STEP[which]!));
    });
    const sorted = misses.map(Math.abs).sort();
    const scale = Math.max(FROM_MEDIAN * sorted[count >> 1]!, LEAST_SCALE_MM);
    const matrix = [[0, 0, 0], [0, 0, 0], [0, 0, 0]];
    const right = [0, 0, 0];
    let squares = 0;
    for (let i = 0; i < count; i++) {
      const weight = Math.min(1, (HUBER * scale) / Math.max(Math.abs(misses[i]!), 1e-12));
      squares += weight * misses[i]! ** 2;
      for (let row = 0; row < 3; row++) {
        right[row]! -= weight * slopes[row]![i]! * misses[i]!;
        for (let column = 0; column < 3; column++) matrix[row]![column]! += weight * slopes[row]![i]! * slopes[column]![i]!;
      }
    }
    // How much a place's square weighs against a square of what was known before.
    const spread = Math.max(squares / count, LEAST_SCALE_MM ** 2) * (count / Math.min(count, INDEPENDENT_PLACES));
    [before.yawSd, before.rollSd, before.sidewaysSdMm].forEach((deviation, k) => {
      const weight = spread / deviation ** 2;
      matrix[k]![k]! += weight;
      right[k]! -= weight * plane[k]!;
    });
    const step = solveSymmetric(matrix, right);
    if (step === null) return { kind: 'missed', reason: 'not-converged', iterations };
    for (let k = 0; k < 3; k++) plane[k]! += step[k]!;
    if (!step.every((value, k) => Math.abs(value) < SHORT_STEP[k]!)) continue;
    const deviations = [0, 1, 2].map((which) => Math.sqrt(spread * solveSymmetric(matrix, [0, 1, 2].map((k) => (k === which ? 1 : 0)))![which]!));
    return {
      kind: 'found', yaw: plane[0], roll: plane[1], sidewaysMm: plane[2],
      yawSd: deviations[0]!, rollSd: deviations[1]!, sidewaysSdMm: deviations[2]!,
      residualMm: Math.sqrt(squares / count), iterations,
    };
  }
  return { kind: 'missed', reason: 'not-converged', iterations: MOST_STEPS };
}

/** Distances from the surface of the places mirrored in a plane (yaw, roll, sideways). */
function missesOf(places: Float64Array, plane: readonly number[], distanceAt: (x: number, y: number, z: number) => number): Float64Array {
  const [yaw, roll, sideways] = plane as [number, number, number];
  const length = Math.hypot(1, roll, yaw);
  const [nx, ny, nz] = [1 / length, roll / length, -yaw / length];
  const misses = new Float64Array(places.length / 3);
  for (let i = 0; i < misses.length; i++) {
    const [x, y, z] = [places[3 * i]!, places[3 * i + 1]!, places[3 * i + 2]!];
    const off = 2 * (nx * x + ny * y + nz * z - sideways);
    misses[i] = distanceAt(x - off * nx, y - off * ny, z - off * nz);
  }
  return misses;
}
