/**
 * The ellipse with the least sum of squared orthogonal distances, by Gauss–Newton from a near one, damped where a step would not help
 * (Gander, Golub & Strebel, BIT 34, 1994, 558–578, pose the problem; the numbers are those of ellipseForm.ts).
 */
import { solveSymmetric } from '../core/smallSystem';
import type { WeightedPoints } from './ellipseDirect';
import { type Covariance5, type EllipseForm, eccentricFoot, ellipseOf, formFrom, numbersOf } from './ellipseForm';

export interface GeometricFit {
  readonly form: EllipseForm;
  /** Sum of weighted squared distances. */
  readonly cost: number;
  /** (JᵀWJ)⁻¹: times the variance of one distance it is the covariance of the form. */
  readonly inverse: Covariance5;
  readonly iterations: number;
}

/** Steps; far points on a bad ellipse were seen to need about sixty. */
const STEPS = 200;
/** A step this small as a part of the ellipse's size is rounding. */
const STEP_DONE = 1e-13;
/** A fall of the cost this small, as a part, moves the ellipse by less than a millionth of its own deviation. */
const COST_STILL = 1e-13;
/** A cost this small as a part of the size squared is rounding. */
const COST_DONE = 1e-30;
/** Damping: where it begins, by what it shrinks and grows, and where no direction helps any more. */
const DAMPING = { first: 1e-6, shrink: 0.1, grow: 10, most: 1e12 };
/** The axes of an ellipse that has run away, as parts of the size of the points, which is 1. */
const SMALLEST = 1e-6;
const LARGEST = 1e4;

/** null: ran away to a line or to infinity. `steps` fewer than usual where the weights will change anyway. */
export function fitGeometric(points: WeightedPoints, start: EllipseForm, steps = STEPS): GeometricFit | null {
  let form = start;
  let sums = distanceSums(points, form);
  let damping = DAMPING.first;
  let iterations = 0;
  while (iterations < steps && sums.cost > COST_DONE) {
    iterations++;
    const damped = sums.normal.map((row, i) => row.map((value, j) => (i === j ? value * (1 + damping) : value)));
    const move = solveSymmetric(damped, sums.right);
    const next = move === null ? null : formFrom(numbersOf(form).map((value, i) => value - move[i]!));
    const there = next === null || !sane(next) ? null : distanceSums(points, next);
    if (next !== null && there !== null && there.cost <= sums.cost) {
      const still = sums.cost - there.cost < COST_STILL * sums.cost;
      form = next;
      sums = there;
      damping *= DAMPING.shrink;
      if (still || Math.max(...move!.map(Math.abs)) < STEP_DONE * form.mean) break;
    } else {
      damping *= DAMPING.grow;
      if (damping > DAMPING.most) break;
    }
  }
  const inverse = invert(sums.normal);
  return inverse === null || !sane(form) ? null : { form, cost: sums.cost, inverse, iterations };
}

/** Signed distances of the points to an ellipse, outward positive, into `out`. */
export function ellipseDistances(points: Pick<WeightedPoints, 'x' | 'y'>, form: EllipseForm, out: Float64Array): void {
  const { semiMajorPx: a, semiMinorPx: b, angleRad } = ellipseOf(form);
  const [turnX, turnY] = [Math.cos(angleRad), Math.sin(angleRad)];
  for (let index = 0; index < points.x.length; index++) {
    const [dx, dy] = [points.x[index]! - form.x, points.y[index]! - form.y];
    const [u, v] = [turnX * dx + turnY * dy, turnX * dy - turnY * dx];
    const foot = eccentricFoot(a, b, u, v);
    const size = Math.hypot(b * foot.cosine, a * foot.sine);
    out[index] = ((u - a * foot.cosine) * b * foot.cosine + (v - b * foot.sine) * a * foot.sine) / size;
  }
}

interface Sums {
  readonly cost: number;
  readonly normal: number[][];
  readonly right: number[];
}

/** JᵀWJ and JᵀWd. A distance changes by minus the outward shift of the ellipse at its foot: where the foot slides to does not matter. */
function distanceSums(points: WeightedPoints, form: EllipseForm): Sums {
  const { semiMajorPx: a, semiMinorPx: b, angleRad } = ellipseOf(form);
  const [turnX, turnY] = [Math.cos(angleRad), Math.sin(angleRad)];
  const sums = new Float64Array(25);
  const right = new Float64Array(5);
  const gradient = new Float64Array(5);
  let cost = 0;
  for (let index = 0; index < points.x.length; index++) {
    const weight = points.weight[index]!;
    if (weight === 0) continue;
    const dx = points.x[index]! - form.x;
    const dy = points.y[index]! - form.y;
    const u = turnX * dx + turnY * dy;
    const v = turnX * dy - turnY * dx;
    const { cosine, sine } = eccentricFoot(a, b, u, v);
    const size = Math.sqrt((b * cosine) ** 2 + (a * sine) ** 2);
    const normalU = (b * cosine) / size;
    const normalV = (a * sine) / size;
    const distance = (u - a * cosine) * normalU + (v - b * sine) * normalV;
    const nx = turnX * normalU - turnY * normalV;
    const ny = turnY * normalU + turnX * normalV;
    const ex = turnX * cosine - turnY * sine;
    const ey = turnY * cosine + turnX * sine;
    gradient[0] = -nx;
    gradient[1] = -ny;
    gradient[2] = -(nx * ex + ny * ey);
    gradient[3] = -(nx * ex - ny * ey);
    gradient[4] = -(nx * ey + ny * ex);
    cost += weight * distance * distance;
    for (let i = 0; i < 5; i++) {
      const weighted = weight * gradient[i]!;
      right[i]! += weighted * distance;
      for (let j = 0; j <= i; j++) sums[5 * i + j]! += weighted * gradient[j]!;
    }
  }
  const normal = [0, 1, 2, 3, 4].map((i) => [0, 1, 2, 3, 4].map((j) => sums[5 * Math.max(i, j) + Math.min(i, j)]!));
  return { cost, normal, right: Array.from(right) };
}

function sane(form: EllipseForm): boolean {
  const half = Math.hypot(form.p, form.q);
  return form.mean - half > SMALLEST && form.mean + half < LARGEST && Math.hypot(form.x, form.y) < LARGEST;
}

function invert(matrix: readonly (readonly number[])[]): number[][] | null {
  const columns = matrix.map((_, index) => solveSymmetric(matrix, matrix.map((__, row) => (row === index ? 1 : 0))));
  return columns.some((column) => column === null) ? null : (columns as number[][]);
}
