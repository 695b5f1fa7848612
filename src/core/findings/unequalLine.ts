/**
 * The line of least weighted squared distances through points that err otherwise in up than in right. No closed form: chi-square is a
 * function of the direction alone, since the line's place follows from it as a weighted mean. docs/numerics.md §11.
 */
import { CHI_SQUARE_95 } from './distributions';

export interface UnequalPoint {
  readonly upMm: number;
  readonly rightMm: number;
  /** Of each, above 0. */
  readonly sdMm: number;
  readonly rightSdMm: number;
}

/** What an OrthogonalLine tells, for such points. */
export interface UnequalLine {
  readonly angle: number;
  readonly middleMm: { readonly upMm: number; readonly rightMm: number };
  readonly along: number;
  readonly across: number;
  readonly weight: number;
  readonly reach95: readonly [number, number] | null;
}

/** Steps of a half turn in which the least chi-square and the interval's ends are looked for before they are closed in on. */
const STEPS = 180;
const STEP = Math.PI / STEPS;
/** Halvings of a step: down to rounding. */
const HALVINGS = 50;

/** At least two points; null where all lie in one place. */
export function unequalLine(points: readonly UnequalPoint[]): UnequalLine | null {
  const total = spreadOf(points.map(({ upMm, sdMm }) => [upMm, sdMm])) + spreadOf(points.map(({ rightMm, rightSdMm }) => [rightMm, rightSdMm]));
  if (!(total > 0)) return null;
  const angle = leastAcross(points);
  const { along, off, across, weight } = lookAlong(points, angle);
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return {
    angle,
    middleMm: { upMm: along * cos - off * sin, rightMm: along * sin + off * cos },
    along: total - across,
    across,
    weight,
    reach95: reach95(points, angle),
  };
}

interface Look {
  /** Weighted means of the places along the direction and across it, mm. */
  readonly along: number;
  readonly off: number;
  /** Chi-square about the line. */
  readonly across: number;
  readonly weight: number;
  /** Minus half the slope of chi-square in the direction, and the variance it has where this is the true one. */
  readonly pull: number;
  readonly pullVariance: number;
}

/**
 * The points as seen along a direction. A place along it, less what its error has in common with the one across it, is the likeliest
 * place on the line and knows nothing of the distance from it.
 */
function lookAlong(points: readonly UnequalPoint[], angle: number): Look {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const seen = points.map(({ upMm, rightMm, sdMm, rightSdMm }) => {
    const variance = (rightSdMm * cos) ** 2 + (sdMm * sin) ** 2;
    return { along: upMm * cos + rightMm * sin, off: rightMm * cos - upMm * sin, each: 1 / variance, common: ((rightSdMm ** 2 - sdMm ** 2) * sin * cos) / variance };
  });
  const weight = seen.reduce((sum, { each }) => sum + each, 0);
  const off = seen.reduce((sum, one) => sum + one.each * one.off, 0) / weight;
  const feet = seen.map((one) => one.along - one.common * (one.off - off));
  const along = feet.reduce((sum, foot, i) => sum + seen[i]!.each * foot, 0) / weight;
  let [across, pull, pullVariance] = [0, 0, 0];
  seen.forEach((one, i) => {
    const [away, foot] = [one.off - off, feet[i]! - along];
    across += one.each * away * away;
    pull += one.each * away * foot;
    pullVariance += one.each * foot * foot;
  });
  return { along, off, across, weight, pull, pullVariance };
}

/** The direction of least chi-square, radians, within ±π/2. */
function leastAcross(points: readonly UnequalPoint[]): number {
  const coarse = Array.from({ length: STEPS }, (_, k) => ({ at: k * STEP - Math.PI / 2, across: lookAlong(points, k * STEP - Math.PI / 2).across }));
  const best = coarse.reduce((least, one) => (one.across < least.across ? one : least)).at;
  const angle = closedIn(best - STEP, best + STEP, (at) => lookAlong(points, at).pull > 0);
  return angle < -Math.PI / 2 ? angle + Math.PI : angle;
}

/**
 * Directions that the points do not contradict, as in orthogonalLine.ts: at the true one pull²/variance is chi-square with one degree
 * of freedom, exactly where all points have one ratio of their deviations, nearly so where they differ. Null where a side has no end.
 */
function reach95(points: readonly UnequalPoint[], angle: number): readonly [number, number] | null {
  const [below, above] = [-1, 1].map((side) => {
    const contradicted = (by: number): boolean => {
      const { pull, pullVariance } = lookAlong(points, angle + side * by);
      return pull * pull >= CHI_SQUARE_95 * pullVariance;
    };
    for (let by = STEP / 2; by <= Math.PI / 2; by += STEP / 2) if (contradicted(by)) return closedIn(by - STEP / 2, by, (at) => !contradicted(at));
    return null;
  });
  return below == null || above == null ? null : [below, above];
}

/** Where `isBefore` turns from true to false. */
function closedIn(low: number, high: number, isBefore: (at: number) => boolean): number {
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (isBefore(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Sum of squares about the weighted mean, in deviations. */
function spreadOf(pairs: readonly (readonly [number, number])[]): number {
  const weight = pairs.reduce((sum, [, sd]) => sum + 1 / sd ** 2, 0);
  const mean = pairs.reduce((sum, [value, sd]) => sum + value / sd ** 2, 0) / weight;
  return pairs.reduce((sum, [value, sd]) => sum + ((value - mean) / sd) ** 2, 0);
}
