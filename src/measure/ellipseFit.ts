/**
 * An ellipse through points in a picture: the direct fit (ellipseDirect.ts), then the least orthogonal distances (ellipseGeometric.ts),
 * with deviations; and the same where some points lie on something else. Formulas: docs/numerics.md §18.
 */
import { type WeightedPoints, fitDirect } from './ellipseDirect';
import { type Covariance5, type EllipseForm, axesCovariance, ellipseOf, numbersOf } from './ellipseForm';
import { ellipseDistances, fitGeometric } from './ellipseGeometric';
import type { Point } from './picture';
import type { RimEllipse } from './traces';

export interface EllipseFit {
  readonly kind: 'fitted';
  readonly ellipse: RimEllipse;
  /** Of (centre x, centre y, semi-major, semi-minor, angle), px and radians. */
  readonly covariance: Covariance5;
  /** The same ellipse in numbers that are smooth at a circle, with their covariance: for passing deviations on. */
  readonly form: EllipseForm;
  readonly formCovariance: Covariance5;
  /** Root mean square orthogonal distance of the points that were kept, px. */
  readonly rmsPx: number;
  /** Deviation of one point across the ellipse, as it went into the covariance, px. */
  readonly pointSdPx: number;
  /** 360° less the widest gap between neighbouring points as seen from the centre. */
  readonly arcDeg: number;
  /** For each point, whether the ellipse goes by it; all true for `fitEllipse`. */
  readonly kept: readonly boolean[];
  readonly iterations: number;
}

/**
 * few: under five different points. line: on a line, or so thin that it might be one. no-ellipse: a hyperbola fits at least twice as
 * well, or none of finite size fits best. short-arc: too little of it is seen to tell its size.
 */
export interface EllipseRefusal {
  readonly kind: 'refused';
  readonly reason: 'few' | 'line' | 'no-ellipse' | 'short-arc';
  /** Only with 'short-arc'. */
  readonly arcDeg?: number;
}

export interface EllipseOptions {
  /** What one point is expected to err by across the ellipse, px; default `HAND_SD_PX`. */
  readonly pointSdPx?: number;
  /** Default `LEAST_ARC_DEG`. */
  readonly leastArcDeg?: number;
}

/** One standard deviation of a point put by hand with the loupe, px: our judgement. */
export const HAND_SD_PX = 0.5;
/** Least arc of a rim that tells its size, degrees: below it the error of the size grows steeply (docs/numerics.md §18). */
export const LEAST_ARC_DEG = 200;

const UNKNOWNS = 5;
/** What was expected of a point counts as much as this many residuals do: with few marks their scatter alone says little. */
const EXPECTED_COUNTS = 10;
/** Least ratio of the axes: 0.02 is a rim seen 1° from edge on, where its edge is a line to any hand. */
const THINNEST = 0.02;
/** A free conic that is a hyperbola must fit this much better before the points are said to show no ellipse. */
const HYPERBOLA_BETTER = 0.5;
/** Coordinates beyond this are no place in a picture, px; their fourth powers still add up. */
const FARTHEST_PX = 1e6;

/** All points count alike. Throws RangeError for a coordinate that is not a number within ±1e6, or options below 0. */
export function fitEllipse(points: readonly Point[], options: EllipseOptions = {}): EllipseFit | EllipseRefusal {
  checkInput(points, options);
  if (differentPoints(points) < UNKNOWNS) return { kind: 'refused', reason: 'few' };
  return fitWeighted(points, points.map(() => 1), options);
}

/** Rounds of reweighting at most, Gauss–Newton steps in each, and a move, as a part of the width, after which it has settled. */
const REWEIGHTINGS = 30;
const STEPS_A_TURN = 2;
const SETTLED = 0.05;
/** The width of the weights from round to round: faster or slower was seen to lose no fewer. */
const NARROWER = 0.7;
/** A point this many robust deviations off lies on something else. */
const OUTLIER = 3;
/** Times the median absolute residual: the deviation of normal ones. */
const DEVIATION_OF_MEDIAN = 1.4826;
/** Cuts and fits anew until the same points stay. */
const CUTS = 5;

/**
 * The same where up to a fifth of the points lie on other edges: reweighted by Geman & McClure's function of narrowing width, then an
 * ordinary fit of the points within three robust deviations. With three tenths on one other side one fit in forty is drawn away
 * (docs/numerics.md §18): only its `kept` and `rmsPx` tell. Errors and refusals as `fitEllipse`.
 */
export function fitEllipseRobust(points: readonly Point[], options: EllipseOptions = {}): EllipseFit | EllipseRefusal {
  checkInput(points, options);
  if (differentPoints(points) < UNKNOWNS) return { kind: 'refused', reason: 'few' };
  const start = roughForm(points, (options.pointSdPx ?? HAND_SD_PX) / 2);
  if (start === null) return fitWeighted(points, points.map(() => 1), options);
  let answer: EllipseFit | EllipseRefusal = { kind: 'refused', reason: 'few' };
  let form = start.form;
  let before = '';
  for (let turn = 0; turn < CUTS; turn++) {
    const weights = distancesOf(points, form).map((distance) => (distance <= OUTLIER * start.scale ? 1 : 0));
    if (differentPoints(points.filter((_, index) => weights[index]! > 0)) < UNKNOWNS) return { kind: 'refused', reason: 'few' };
    if (weights.join('') === before) break;
    before = weights.join('');
    answer = fitWeighted(points, weights, options);
    if (answer.kind === 'refused') break;
    form = answer.form;
  }
  return answer;
}

/** The reweighted ellipse and the robust deviation of the points about it; null where none could be made. */
function roughForm(points: readonly Point[], leastScale: number): { readonly form: EllipseForm; readonly scale: number } | null {
  const { scaled, middle, size } = toSize(points, points.map(() => 1));
  const direct = size === 0 ? null : fitDirect(scaled).ellipse;
  if (direct === null) return null;
  let form = direct;
  let scale = Infinity;
  const distances = new Float64Array(points.length);
  const typical = (): number => {
    ellipseDistances(scaled, form, distances);
    return Math.max(leastScale / size, DEVIATION_OF_MEDIAN * median(Array.from(distances, Math.abs)));
  };
  for (let turn = 0; turn < REWEIGHTINGS; turn++) {
    // The width is narrowed by steps and not at once to what the median says, so that few points do not settle the ellipse too early.
    const now = typical();
    scale = turn === 0 ? now : Math.max(leastScale / size, Math.min(now, scale * NARROWER));
    for (let index = 0; index < points.length; index++) scaled.weight[index] = 1 / (1 + (distances[index]! / (2 * scale)) ** 2) ** 2;
    const next = fitGeometric(scaled, form, STEPS_A_TURN);
    if (next === null) return null;
    const moved = Math.max(...numbersOf(next.form).map((value, index) => Math.abs(value - numbersOf(form)[index]!)));
    form = next.form;
    if (moved < SETTLED * scale && scale <= leastScale / size) break;
  }
  scale = typical();
  return { form: { x: middle.x + size * form.x, y: middle.y + size * form.y, mean: size * form.mean, p: size * form.p, q: size * form.q }, scale: scale * size };
}

/** 360° less the widest gap between the directions in which the points are seen from `centre`. */
export function coveredArcDeg(points: readonly Point[], centre: Point): number {
  const directions = points.map(({ x, y }) => Math.atan2(y - centre.y, x - centre.x)).sort((one, other) => one - other);
  let widest = directions.length === 0 ? 2 * Math.PI : directions[0]! + 2 * Math.PI - directions.at(-1)!;
  for (let index = 1; index < directions.length; index++) widest = Math.max(widest, directions[index]! - directions[index - 1]!);
  return 360 - (widest * 180) / Math.PI;
}

function fitWeighted(points: readonly Point[], weights: readonly number[], options: EllipseOptions): EllipseFit | EllipseRefusal {
  const { scaled, middle, size } = toSize(points, weights);
  if (size === 0 || flatness(scaled) < THINNEST) return { kind: 'refused', reason: 'line' };
  const direct = fitDirect(scaled);
  if (direct.ellipse === null) return { kind: 'refused', reason: 'line' };
  const geometric = fitGeometric(scaled, direct.ellipse);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (geometric === null) return { kind: 'refused', reason: direct.hyperbolaRms === null ? 'line' : 'no-ellipse' };
  const rms = Math.sqrt(geometric.cost / total);
  if (direct.hyperbolaRms !== null && direct.hyperbolaRms < HYPERBOLA_BETTER * rms) return { kind: 'refused', reason: 'no-ellipse' };
  const { mean, p, q, x, y } = geometric.form;
  const form: EllipseForm = { x: middle.x + size * x, y: middle.y + size * y, mean: size * mean, p: size * p, q: size * q };
  const ellipse = ellipseOf(form);
  if (ellipse.semiMinorPx < THINNEST * ellipse.semiMajorPx) return { kind: 'refused', reason: 'line' };
  const kept = weights.map((weight) => weight > 0);
  const arcDeg = coveredArcDeg(points.filter((_, index) => kept[index]), ellipse.centre);
  if (arcDeg < (options.leastArcDeg ?? LEAST_ARC_DEG)) return { kind: 'refused', reason: 'short-arc', arcDeg };
  const expected = options.pointSdPx ?? HAND_SD_PX;
  const freedom = Math.max(0, total - UNKNOWNS);
  const variance = (EXPECTED_COUNTS * expected ** 2 + geometric.cost * size ** 2) / (EXPECTED_COUNTS + freedom);
  const formCovariance = geometric.inverse.map((row) => row.map((value) => value * variance));
  return {
    kind: 'fitted',
    ellipse,
    covariance: axesCovariance(form, formCovariance),
    form,
    formCovariance,
    rmsPx: rms * size,
    pointSdPx: Math.sqrt(variance),
    arcDeg,
    kept,
    iterations: geometric.iterations,
  };
}

/** About the weighted mean and to a root mean square distance of 1 from it, so that tolerances need no unit. */
function toSize(points: readonly Point[], weights: readonly number[]): { scaled: WeightedPoints; middle: Point; size: number } {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (value: (point: Point) => number): number => points.reduce((sum, point, index) => sum + weights[index]! * value(point), 0) / total;
  const middle = { x: mean(({ x }) => x), y: mean(({ y }) => y) };
  const size = Math.sqrt(mean(({ x, y }) => (x - middle.x) ** 2 + (y - middle.y) ** 2));
  return {
    scaled: {
      x: Float64Array.from(points, ({ x }) => (x - middle.x) / (size || 1)),
      y: Float64Array.from(points, ({ y }) => (y - middle.y) / (size || 1)),
      weight: Float64Array.from(weights),
    },
    middle,
    size,
  };
}

/** Spread across the best line as a part of that along it: for points all round an ellipse the ratio of its axes. */
function flatness({ x, y, weight }: WeightedPoints): number {
  let [xx, xy, yy] = [0, 0, 0];
  for (let index = 0; index < x.length; index++) {
    xx += weight[index]! * x[index]! ** 2;
    xy += weight[index]! * x[index]! * y[index]!;
    yy += weight[index]! * y[index]! ** 2;
  }
  const half = Math.hypot((xx - yy) / 2, xy);
  return Math.sqrt(Math.max(0, (xx + yy) / 2 - half) / ((xx + yy) / 2 + half));
}

function distancesOf(points: readonly Point[], form: EllipseForm): number[] {
  const out = new Float64Array(points.length);
  ellipseDistances({ x: Float64Array.from(points, ({ x }) => x), y: Float64Array.from(points, ({ y }) => y) }, form, out);
  return Array.from(out, Math.abs);
}

function median(values: readonly number[]): number {
  return [...values].sort((one, other) => one - other)[values.length >> 1]!;
}

const differentPoints = (points: readonly Point[]): number => new Set(points.map(({ x, y }) => `${x} ${y}`)).size;

function checkInput(points: readonly Point[], { pointSdPx = HAND_SD_PX, leastArcDeg = LEAST_ARC_DEG }: EllipseOptions): void {
  for (const { x, y } of points) {
    if (!(Math.abs(x) <= FARTHEST_PX && Math.abs(y) <= FARTHEST_PX)) {
      throw new RangeError(`point (${x}, ${y}): allowed is a place within ±${FARTHEST_PX} px`);
    }
  }
  if (!(pointSdPx >= 0 && pointSdPx < Infinity)) throw new RangeError(`pointSdPx ${pointSdPx}: allowed is 0 or more`);
  if (!(leastArcDeg >= 0 && leastArcDeg <= 360)) throw new RangeError(`leastArcDeg ${leastArcDeg}: allowed is from 0 to 360`);
}
