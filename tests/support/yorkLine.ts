/**
 * A straight line y = intercept + slope·x through points with errors in both coordinates, each point its own.
 * York, Evensen, López Martínez and De Basabe Delgado, Am J Phys 2004;72:367–375 (formulas from memory, held to Pearson's data with
 * York's weights and to brute force in tests/reference/fits.test.ts).
 */
import { tooTight } from '../../src/core/formChecks';

export interface PointWithErrors {
  readonly x: number;
  readonly y: number;
  /** Deviations ≥ 0, not both 0. */
  readonly sdX: number;
  readonly sdY: number;
  /** Of the two errors of this point, −1 to 1; absent, 0. */
  readonly correlation?: number | undefined;
}

export interface LineFit {
  readonly kind: 'fitted';
  readonly slope: number;
  readonly intercept: number;
  /** From the deviations as given, not scaled by the scatter. */
  readonly slopeSd: number;
  readonly interceptSd: number;
  readonly covariance: number;
  /** Sum of squared distances in deviations, and points less two. */
  readonly chi2: number;
  readonly freedom: number;
  readonly iterations: number;
}

export interface NoLineFit {
  readonly kind: 'not-fitted';
  readonly reason: 'too-few-points' | 'upright' | 'no-convergence';
  readonly iterations: number;
}

/** The slope is found when it moves by less than this part of the spread's own slope: rounding times a hundred. */
const SLOPE_REL = 1e-13;
const MOST_ITERATIONS = 500;
/** Least variance of a point across the line, a part of the points' mean: a deviation of a millionth. */
const LEAST_VARIANCE_REL = 1e-12;

/**
 * The likeliest line. Deviations are to first order: where x is uncertain by as much as it spreads, intervals from them are too narrow.
 * Not fitted: fewer than two points, no spread in x (`upright`), or no rest within the iterations.
 */
export function lineWithErrors(points: readonly PointWithErrors[]): LineFit | NoLineFit {
  points.forEach(check);
  const none = (reason: NoLineFit['reason'], iterations = 0): NoLineFit => ({ kind: 'not-fitted', reason, iterations });
  if (points.length < 2) return none('too-few-points');
  const start = plainSlope(points);
  if (start === null) return none('upright');
  const spread = Math.sqrt(sumSquares(points, (p) => p.y) / sumSquares(points, (p) => p.x));
  let slope = start;
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    const state = stateAt(points, slope);
    const next = total(state.points, (p) => p.weight * p.beta * p.v) / total(state.points, (p) => p.weight * p.beta * p.u);
    if (!Number.isFinite(next)) return none('no-convergence', iterations);
    const moved = Math.abs(next - slope);
    slope = next;
    if (moved <= SLOPE_REL * Math.max(Math.abs(slope), spread)) return answer(points, slope, iterations);
  }
  return none('no-convergence', MOST_ITERATIONS);
}

function check(point: PointWithErrors, index: number): void {
  if (!Number.isFinite(point.x) || !Number.isFinite(point.y)) {
    throw tooTight(`points[${index}]`, `(${point.x}, ${point.y})`, 'finite numbers');
  }
  const sds = point.sdX >= 0 && point.sdY >= 0 && point.sdX + point.sdY > 0 && point.sdX + point.sdY < Infinity;
  if (!sds) throw tooTight(`points[${index}] deviations`, `${point.sdX}, ${point.sdY}`, 'from 0, not both 0');
  const correlation = point.correlation ?? 0;
  if (!(Math.abs(correlation) <= 1)) throw tooTight(`points[${index}].correlation`, String(correlation), 'from -1 to 1');
}

const total = <T>(items: readonly T[], of: (item: T) => number): number => items.reduce((sum, item) => sum + of(item), 0);

function sumSquares(points: readonly PointWithErrors[], of: (point: PointWithErrors) => number): number {
  const mean = total(points, of) / points.length;
  return total(points, (p) => (of(p) - mean) ** 2);
}

/** Least squares of y on x, unweighted: where the search begins. */
function plainSlope(points: readonly PointWithErrors[]): number | null {
  const xMean = total(points, (p) => p.x) / points.length;
  const across = total(points, (p) => (p.x - xMean) ** 2);
  return across > 0 ? total(points, (p) => (p.x - xMean) * p.y) / across : null;
}

/** York's quantities at a slope: u, v from the weighted middle, beta the adjusted x from there. */
function stateAt(points: readonly PointWithErrors[], slope: number) {
  const variances = points.map((p) => p.sdY ** 2 + slope ** 2 * p.sdX ** 2 - 2 * slope * (p.correlation ?? 0) * p.sdX * p.sdY);
  // A point that errs only along the line would weigh without end and drown the others in rounding.
  const least = (LEAST_VARIANCE_REL * variances.reduce((sum, variance) => sum + variance, 0)) / variances.length;
  const weights = variances.map((variance) => 1 / Math.max(variance, least));
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  const xMiddle = points.reduce((sum, p, i) => sum + weights[i]! * p.x, 0) / whole;
  const yMiddle = points.reduce((sum, p, i) => sum + weights[i]! * p.y, 0) / whole;
  return {
    xMiddle,
    yMiddle,
    whole,
    points: points.map((p, i) => {
      const weight = weights[i]!;
      const u = p.x - xMiddle;
      const v = p.y - yMiddle;
      const shared = (p.correlation ?? 0) * p.sdX * p.sdY;
      return { weight, u, v, beta: weight * (u * p.sdY ** 2 + slope * v * p.sdX ** 2 - (slope * u + v) * shared) };
    }),
  };
}

function answer(points: readonly PointWithErrors[], slope: number, iterations: number): LineFit {
  const state = stateAt(points, slope);
  const adjustedMean = total(state.points, (p) => p.weight * p.beta) / state.whole;
  const adjustedMiddle = state.xMiddle + adjustedMean;
  const slopeVariance = 1 / total(state.points, (p) => p.weight * (p.beta - adjustedMean) ** 2);
  return {
    kind: 'fitted',
    slope,
    intercept: state.yMiddle - slope * state.xMiddle,
    slopeSd: Math.sqrt(slopeVariance),
    interceptSd: Math.sqrt(1 / state.whole + adjustedMiddle ** 2 * slopeVariance),
    covariance: -adjustedMiddle * slopeVariance,
    chi2: total(state.points, (p) => p.weight * (p.v - slope * p.u) ** 2),
    freedom: points.length - 2,
    iterations,
  };
}
