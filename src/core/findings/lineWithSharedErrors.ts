/**
 * A straight line y = intercept + slope·x where x errs in two ways: as it was observed (each point by itself), and as the model behind
 * it is off (point by point, and for all points together). York's slope, and an interval by an exact test. docs/numerics.md §12.
 */
import { tooTight } from '../formChecks';
import { CHI_SQUARE_95 } from './distributions';

export interface SharedErrorsPoint {
  readonly x: number;
  readonly y: number;
  /** Of y, above 0. */
  readonly sdY: number;
  /** The observed x is the true one and this: an error of seeing. */
  readonly seenSdX: number;
  /** The true x is the model's and this, by itself at each point. */
  readonly modelSdX: number;
  /** The same for all points together: how x moves with one deviation of each thing that is not known; as long at every point. */
  readonly sharedX: readonly number[];
}

export interface SharedErrorsFit {
  readonly kind: 'fitted';
  readonly slope: number;
  /** To first order at that slope. */
  readonly sd: number;
  /** 95 % interval; ±Infinity where it reaches beyond the steepest slope looked at. */
  readonly low: number;
  readonly high: number;
  readonly intercept: number;
  /** Sum of squares left over, in deviations, and points less two: with the points' own errors only, which alone scatter them. */
  readonly chi2: number;
  readonly freedom: number;
  readonly iterations: number;
}

export interface NoSharedErrorsFit {
  readonly kind: 'not-fitted';
  readonly reason: 'upright' | 'no-convergence';
  readonly iterations: number;
}

/** The slope is found when it moves by less than this, or this part of itself. */
const SLOPE_TOLERANCE = 1e-12;
const MOST_ITERATIONS = 500;
/** The interval's ends are looked for in steps of angle (radians, two degrees), then halved down to the second. */
const ANGLE_STEP = Math.PI / 90;
const ANGLE_TOLERANCE = 1e-8;

/**
 * At a slope r the misfit e = y − intercept − r·x has variance V = sdY² + r²·(seenSdX² + modelSdX²), and the place on the line that goes
 * with it, X = x + r·seenSdX²·e/V, is independent of e. So T = Σ e·(X − mean)/V has mean 0 and variance Σ (X − mean)²/V at the true
 * slope, and what is shared adds r²·Σₖ(Σ sharedXₖ·(X − mean)/V)². The fit is where T = 0 (York's line where nothing is the model's); the
 * interval is every slope around it, up to `steepest`, with T² ≤ 1.96² times that variance. Throws RangeError below three points.
 */
export function lineWithSharedErrors(points: readonly SharedErrorsPoint[], steepest: number): SharedErrorsFit | NoSharedErrorsFit {
  points.forEach(check);
  if (points.length < 3) throw tooTight('points', `${points.length}`, 'at least 3');
  let slope = plainSlope(points);
  if (slope === null) return { kind: 'not-fitted', reason: 'upright', iterations: 0 };
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    const { next } = atSlope(points, slope);
    const moved = Math.abs(next - slope);
    if (!Number.isFinite(next)) return { kind: 'not-fitted', reason: 'no-convergence', iterations };
    slope = next;
    if (moved > SLOPE_TOLERANCE * Math.max(1, Math.abs(slope))) continue;
    const { chi2, intercept, ownVariance, sharedVariance, spread } = atSlope(points, slope);
    return {
      kind: 'fitted',
      slope,
      sd: Math.sqrt(ownVariance + sharedVariance) / spread,
      low: endOf(points, slope, -1, steepest),
      high: endOf(points, slope, 1, steepest),
      intercept,
      chi2,
      freedom: points.length - 2,
      iterations,
    };
  }
  return { kind: 'not-fitted', reason: 'no-convergence', iterations: MOST_ITERATIONS };
}

function check(point: SharedErrorsPoint, index: number): void {
  const numbers = [point.x, point.y, point.sdY, point.seenSdX, point.modelSdX, ...point.sharedX];
  if (!numbers.every(Number.isFinite)) throw tooTight(`points[${index}]`, numbers.join(', '), 'finite numbers');
  if (!(point.sdY > 0)) throw tooTight(`points[${index}].sdY`, String(point.sdY), 'above 0');
}

/** Least squares of y on x by y's deviations: where the search begins. */
function plainSlope(points: readonly SharedErrorsPoint[]): number | null {
  const weights = points.map(({ sdY }) => 1 / sdY ** 2);
  const middle = weightedMean(weights, points.map(({ x }) => x));
  const spread = points.reduce((sum, { x }, i) => sum + weights[i]! * (x - middle) ** 2, 0);
  return spread > 0 ? points.reduce((sum, { x, y }, i) => sum + weights[i]! * (x - middle) * y, 0) / spread : null;
}

interface AtSlope {
  readonly test: number;
  readonly ownVariance: number;
  readonly sharedVariance: number;
  /** Σ (X − mean)·x/V. */
  readonly spread: number;
  /** The slope that the same weights and places give. */
  readonly next: number;
  readonly chi2: number;
  readonly intercept: number;
}

function atSlope(points: readonly SharedErrorsPoint[], slope: number): AtSlope {
  const weights = points.map(({ sdY, seenSdX, modelSdX }) => 1 / (sdY ** 2 + slope ** 2 * (seenSdX ** 2 + modelSdX ** 2)));
  const intercept = weightedMean(weights, points.map(({ x, y }) => y - slope * x));
  const misfits = points.map(({ x, y }) => y - slope * x - intercept);
  const places = points.map(({ x, seenSdX }, i) => x + slope * seenSdX ** 2 * weights[i]! * misfits[i]!);
  const middle = weightedMean(weights, places);
  const along = places.map((place, i) => weights[i]! * (place - middle));
  const over = (of: (point: SharedErrorsPoint) => number): number => points.reduce((sum, point, i) => sum + along[i]! * of(point), 0);
  const spread = over(({ x }) => x);
  let sharedVariance = 0;
  for (let k = 0; k < points[0]!.sharedX.length; k++) {
    let moved = 0;
    for (let i = 0; i < points.length; i++) moved += along[i]! * points[i]!.sharedX[k]!;
    sharedVariance += (slope * moved) ** 2;
  }
  return {
    test: along.reduce((sum, each, i) => sum + each * misfits[i]!, 0),
    ownVariance: along.reduce((sum, each, i) => sum + (each * each) / weights[i]!, 0),
    sharedVariance,
    spread,
    next: over(({ y }) => y) / spread,
    chi2: misfits.reduce((sum, misfit, i) => sum + weights[i]! * misfit * misfit, 0),
    intercept,
  };
}

function weightedMean(weights: readonly number[], values: readonly number[]): number {
  const whole = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.reduce((sum, weight, i) => sum + weight * values[i]!, 0) / whole;
}

/** The end of the interval on one side of the fitted slope. */
function endOf(points: readonly SharedErrorsPoint[], slope: number, side: 1 | -1, steepest: number): number {
  const within = (angle: number): boolean => {
    const { test, ownVariance, sharedVariance } = atSlope(points, Math.tan(angle));
    return test * test <= CHI_SQUARE_95 * (ownVariance + sharedVariance);
  };
  const last = side * Math.atan(steepest);
  let inside = Math.atan(slope);
  let outside = inside + side * ANGLE_STEP;
  while (side * outside < side * last && within(outside)) {
    inside = outside;
    outside += side * ANGLE_STEP;
  }
  if (side * outside >= side * last) return side * Infinity;
  while (Math.abs(outside - inside) > ANGLE_TOLERANCE) {
    const middle = (inside + outside) / 2;
    if (within(middle)) inside = middle;
    else outside = middle;
  }
  return Math.tan((inside + outside) / 2);
}
