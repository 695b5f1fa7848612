/**
 * The simpler views of the same path: one sphere, and the normal of one smooth surface, each fitted by least squares of distance
 * to what the rim can reach of both jaws at home. Both fits use the distance to a ball written with its curvature q,
 * T/(1 + √(1 + qT)) with T = q|w|² + 2n·w, which stays exact as q passes through 0 (docs/numerics.md §8).
 */
import type { Arch } from './arch';
import { type CurveScratch, FOOT_OUT, curveScratch, footOnCurve } from './curveFoot';
import type { PlaneCurve } from './planarForm';
import { solveSymmetric } from './smallSystem';
import type { JawSurface } from './surface';
import { type Vec3, normalize } from './vector';

/** A direction from mouth to bell for a rim centre at a point; null where the fitted surface has none there. */
export type AxisAt = (centre: Vec3) => Vec3 | null;

export interface FittedSphere {
  readonly axisAt: AxisAt;
  /** Radius in mm, infinite for a flat wall, negative for a hollow one. */
  readonly radiusMm: number;
  /** Root of the weighted mean square distance of the sampled faces from it, mm. */
  readonly rmsMm: number;
}

export interface FittedNormal {
  readonly axisAt: AxisAt;
  readonly rmsMm: number;
}

/** Step of the net of samples, as a part of the reach. */
const SAMPLE_STEP_PART = 1 / 10;
const ROUNDS = 40;
/** A fit has settled when no unknown moves by more than this (mm, radians, 1/mm alike). */
const SETTLED = 1e-13;

/** Points of the faces, and how much each counts in a fit. */
export interface FaceSample {
  readonly points: readonly Vec3[];
  readonly weights: readonly number[];
}

/**
 * Points of both labial faces within `reachMm` of the frontal place (x, y): what the rim can touch at home. The net's step is a part
 * of the reach, and points count less toward its end and nothing at it, so that the fits neither jump as home moves nor know the
 * mouth's size.
 */
export function facesWithin(arch: Arch, x: number, y: number, reachMm: number): FaceSample {
  const points: Vec3[] = [];
  const weights: number[] = [];
  const step = reachMm * SAMPLE_STEP_PART;
  const sample = (surface: JawSurface): void => {
    const [fromH, toH] = surface.heightRange;
    const spread = 2 * (Math.abs(x) + reachMm);
    const fromS = Math.max(surface.arcRange[0], -spread);
    const toS = Math.min(surface.arcRange[1], spread);
    for (let column = Math.ceil(fromS / step); column * step <= toS; column++) {
      if (!(surface.normalAt(column * step, 0)[2] > 0)) continue;
      for (let row = Math.ceil(fromH / step); row * step <= toH; row++) {
        const point = surface.pointAt(column * step, row * step);
        const weight = 1 - ((point[0] - x) ** 2 + (point[1] - y) ** 2) / (reachMm * reachMm);
        if (weight <= 0) continue;
        points.push(point);
        weights.push(weight);
      }
    }
  };
  sample(arch.upper);
  if (arch.lower) sample(arch.lower);
  return { points, weights };
}

/** Best sphere through points, about the frontal place (x, y); null for too few points or no settled fit. */
export function fitSphere({ points, weights }: FaceSample, x: number, y: number): FittedSphere | null {
  if (points.length < 8) return null;
  const depth = points.reduce((sum, point) => sum + point[2], 0) / points.length;
  // Unknowns: depth of the pole, its tilt (as sines), curvature.
  const fit = gaussNewton([depth, 0, 0, 1 / 40], weights, (unknowns, index, row) => {
    const [z, nx, ny, q] = unknowns as [number, number, number, number];
    const point = points[index]!;
    const nz = Math.sqrt(1 - nx * nx - ny * ny);
    const wx = point[0] - x;
    const wy = point[1] - y;
    const wz = point[2] - z;
    const square = wx * wx + wy * wy + wz * wz;
    const t = q * square + 2 * (nx * wx + ny * wy + nz * wz);
    const root = Math.sqrt(1 + q * t);
    const byT = 1 / (2 * root);
    row[0] = byT * (-2 * q * wz - 2 * nz);
    row[1] = byT * 2 * (wx - (nx / nz) * wz);
    row[2] = byT * 2 * (wy - (ny / nz) * wz);
    row[3] = byT * square - (t * t) / (2 * root * (1 + root) ** 2);
    return t / (1 + root);
  });
  if (!fit) return null;
  const [z, nx, ny, q] = fit.unknowns as [number, number, number, number];
  const nz = Math.sqrt(1 - nx * nx - ny * ny);
  return {
    radiusMm: 1 / q,
    rmsMm: fit.rms,
    axisAt: (centre) => facingForward([q * (centre[0] - x) + nx, q * (centre[1] - y) + ny, q * (centre[2] - z) + nz]),
  };
}

/** Best moulding surface with the upper form and one arc as profile; null as above. */
export function fitNormal({ points, weights }: FaceSample, curve: PlaneCurve, y: number): FittedNormal | null {
  if (points.length < 8) return null;
  const foot = new Float64Array(FOOT_OUT);
  const scratch: CurveScratch = curveScratch();
  const warm = new Float64Array(points.length).fill(NaN);
  // Unknowns: depth of the form, slope of the face at height y, curvature of the face.
  const fit = gaussNewton([0, 0, 1 / 60], weights, (unknowns, index, row) => {
    const [z, slope, q] = unknowns as [number, number, number];
    const point = points[index]!;
    warm[index] = footOnCurve(curve, point[0], point[2] - z, warm[index]!, scratch, foot);
    const e = foot[0]!;
    const h = point[1] - y;
    const square = e * e + h * h;
    const t = q * square + 2 * (e * Math.cos(slope) + h * Math.sin(slope));
    const root = Math.sqrt(1 + q * t);
    const byT = 1 / (2 * root);
    row[0] = byT * -foot[2]! * 2 * (q * e + Math.cos(slope));
    row[1] = byT * 2 * (h * Math.cos(slope) - e * Math.sin(slope));
    row[2] = byT * square - (t * t) / (2 * root * (1 + root) ** 2);
    return t / (1 + root);
  });
  if (!fit) return null;
  const [z, slope, q] = fit.unknowns as [number, number, number];
  return {
    rmsMm: fit.rms,
    axisAt: (centre) => {
      footOnCurve(curve, centre[0], centre[2] - z, NaN, scratch, foot);
      const outward = q * foot[0]! + Math.cos(slope);
      return facingForward([outward * foot[1]!, q * (centre[1] - y) + Math.sin(slope), outward * foot[2]!]);
    },
  };
}

/** A unit direction out of the mouth; null for one that is no number or points back into it (the centre lies past the fit's middle). */
const facingForward = (direction: Vec3): Vec3 | null => (direction[2] > 0 ? normalize(direction) : null);

type Residual = (unknowns: readonly number[], index: number, row: number[]) => number;

/** Gauss–Newton with halving; null where the normal equations are singular or the residuals stop being numbers. */
function gaussNewton(start: readonly number[], weights: readonly number[], residual: Residual): { unknowns: number[]; rms: number } | null {
  const size = start.length;
  let unknowns = [...start];
  let best = Infinity;
  let settled = unknowns;
  let damping = 0;
  let step = new Array<number>(size).fill(0);
  for (let round = 0; round < ROUNDS; round++) {
    const matrix = Array.from({ length: size }, () => new Array<number>(size).fill(0));
    const right = new Array<number>(size).fill(0);
    const row = new Array<number>(size).fill(0);
    let sum = 0;
    for (let index = 0; index < weights.length; index++) {
      const weight = weights[index]!;
      const miss = residual(unknowns, index, row);
      sum += weight * miss * miss;
      for (let a = 0; a < size; a++) {
        right[a]! -= weight * row[a]! * miss;
        for (let b = 0; b < size; b++) matrix[a]![b]! += weight * row[a]! * row[b]!;
      }
    }
    if (!(sum <= best * (1 + 1e-9) + 1e-28)) {
      // Too far: go back half of the last step, at most a few times.
      if (++damping > 20 || round === 0) return null;
      step = step.map((move) => move / 2);
      unknowns = unknowns.map((value, index) => value - step[index]!);
      continue;
    }
    best = Math.min(best, sum);
    damping = 0;
    settled = unknowns;
    const move = solveSymmetric(matrix, right);
    if (!move) return null;
    step = move;
    unknowns = unknowns.map((value, index) => value + step[index]!);
    if (Math.max(...step.map(Math.abs)) < SETTLED) break;
  }
  return { unknowns: settled, rms: Math.sqrt(best / weights.reduce((total, weight) => total + weight, 0)) };
}
