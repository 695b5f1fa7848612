/**
 * A free form through the points of a bite print, for arches whose sides differ: a C2 spline whose few knots stand off a fitted form, each by a
 * length of its own. docs/numerics.md §25.
 */
import { createArcLength } from '../arcLength';
import { FOOT_OUT, curveScratch, footOnCurve } from '../curveFoot';
import { CURVE_OUT, type PlaneCurve, buildCurve } from '../planarForm';
import type { BitePrintSpec, FormSpec } from '../specs';
import { aiccFitted } from './aicc';
import { fitCurve } from './dampedLeastSquares';
import { type PrintFit, type PrintPlace, printSdMm, spreadOf } from './fitPrint';

export type PointsForm = Extract<FormSpec, { readonly kind: 'points' }>;

export interface SplineFit {
  readonly kind: 'fitted';
  readonly form: PointsForm;
  /** Of the free knots' lengths, mm². */
  readonly covariance: readonly (readonly number[])[];
  /** The form with its free knots moved outward by these lengths, mm, its front where it was. */
  moved(form: PointsForm, byMm: readonly number[]): PointsForm;
  /** About the spline, in its own frame. */
  readonly places: readonly PrintPlace[];
  /** Where its front lies in the frame of the form it stands off, mm. */
  readonly frontAt: { readonly xMm: number; readonly zMm: number };
  readonly rmsMm: number;
  readonly aicc: number;
}

/** Knots that are free: one near the midline, three on each side. */
const KNOTS = 7;
/** Stretches between two free knots. */
const BETWEEN = 4;
/** Beyond the outermost points it goes on beside the form it stands off, to this arc length, mm, with knots this far apart. */
const ON_TO_MM = 52;
const APART_MM = 5;

const known = new WeakMap<PrintFit, SplineFit | null>();

/** Off `base`, a fit of the same print; null where the points are too few for it or make none. The same object for the same fit. */
export function fitSpline(print: BitePrintSpec, base: PrintFit): SplineFit | null {
  const before = known.get(base);
  if (before !== undefined) return before;
  const fit = fitted(print, base);
  known.set(base, fit);
  return fit;
}

/** A knot on the form it stands off: its place, the normal outward, and how much of each free length moves it. */
interface Knot {
  readonly x: number;
  readonly z: number;
  readonly outX: number;
  readonly outZ: number;
  readonly weights: readonly number[];
}

function fitted(print: BitePrintSpec, base: PrintFit): SplineFit | null {
  const { points } = print;
  // Fewer leave nothing to judge by: AICc needs two more than unknowns.
  if (points.length < KNOTS + 3) return null;
  const knots = knotsOf(base);
  const shaped = (lengths: readonly number[]): PointsForm => ({
    kind: 'points',
    points: knots.map((knot) => movedKnot(knot.x, knot.z, knot, lengths)),
  });
  const scratch = curveScratch();
  const foot = new Float64Array(FOOT_OUT);
  const offs = (lengths: readonly number[]): number[] | null => {
    if (!lengths.every((mm) => Math.abs(mm) < APART_MM)) return null;
    const curve = curveOrNull(shaped(lengths));
    return curve && base.places.map(({ xMm, zMm }) => {
      footOnCurve(curve, xMm, zMm, NaN, scratch, foot);
      return foot[0]!;
    });
  };
  const fit = fitCurve((v) => offs(v)?.map((off, at) => off / printSdMm(points[at]!)) ?? null, new Array<number>(KNOTS).fill(0), new Array<number>(KNOTS).fill(1));
  if (fit.kind === 'not-fitted') return null;
  const off = offs(fit.unknowns)!;
  // Larger by a part, each knot moves outward by that part of how far it stands out from the front.
  const grown = fit.unknowns.map((_, free) => {
    const { x, z, outX, outZ } = knots.find(({ weights }) => weights[free] === 1)!;
    return x * outX + z * outZ;
  });
  const marked = points.findIndex(({ tooth }) => tooth === 'midline');
  const placed = brought(shaped(fit.unknowns), marked < 0 ? 0 : base.places[marked]!.xMm);
  if (placed === null || placed.form.points.some(([x], at, all) => at > 0 && !(x > all[at - 1]![0]))) return null;
  const { zMm } = placed;
  const xMm = marked < 0 ? 0 : base.places[marked]!.xMm;
  const form: PointsForm = { ...placed.form, points: placed.form.points.map(([x, z]) => [rounded(x), rounded(z)] as const) };
  return {
    kind: 'fitted',
    form,
    covariance: fit.covariance.map((row, i) => row.map((each, j) => spreadOf(fit, points.length) * each + print.scalePart ** 2 * grown[i]! * grown[j]!)),
    moved: (from, byMm) => {
      const points = from.points.map(([x, z], at) => movedKnot(x, z, knots[at]!, byMm));
      // Where the front stands is how the jaws meet, which is counted by itself.
      return brought({ ...from, points }, 0)?.form ?? from;
    },
    places: base.places.map((place, at) => ({ xMm: place.xMm - xMm, zMm: place.zMm - zMm, offMm: off[at]!, beyondMm: 0 })),
    frontAt: { xMm, zMm },
    rmsMm: Math.sqrt(off.reduce((sum, each) => sum + each * each, 0) / off.length),
    aicc: aiccFitted(fit.chi2, KNOTS + 1, points.length),
  };
}

function movedKnot(x: number, z: number, { outX, outZ, weights }: Knot, lengths: readonly number[]): readonly [number, number] {
  const by = weights.reduce((sum, weight, free) => sum + weight * lengths[free]!, 0);
  return [x + outX * by, z + outZ * by];
}

/**
 * From the player's right to the left: the free ones evenly between the outermost points; between them `BETWEEN` others, moved smoothly with
 * their neighbours, for a spline's curvature is only as good as its knots are near; those beyond moved with the last of them.
 */
function knotsOf({ form, places }: PrintFit): Knot[] {
  const curve = buildCurve(form);
  const length = createArcLength(curve);
  const scratch = curveScratch();
  const foot = new Float64Array(FOOT_OUT);
  const along = places.map(({ xMm, zMm }) => length.lengthAt(footOnCurve(curve, xMm, zMm, NaN, scratch, foot)));
  const [first, last] = [Math.min(...along), Math.max(...along)];
  const out = new Float64Array(CURVE_OUT);
  const at = (arcMm: number, part: number): Knot => {
    curve.exact(length.parameterAt(arcMm), out);
    const speed = Math.hypot(out[2]!, out[3]!);
    return { x: out[0]!, z: out[1]!, outX: -out[3]! / speed, outZ: out[2]! / speed, weights: weightsAt(part) };
  };
  const on = (from: number, end: number): number[] => {
    const more = Math.floor((end - from) / APART_MM);
    return Array.from({ length: Math.max(0, more) }, (_, step) => from + APART_MM * (step + 1));
  };
  const [low, high] = length.range;
  const inner = Array.from({ length: BETWEEN * (KNOTS - 1) + 1 }, (_, step) => at(first + ((last - first) * step) / (BETWEEN * (KNOTS - 1)), step / BETWEEN));
  const right = on(-first, Math.min(ON_TO_MM, -low)).map((arcMm) => at(-arcMm, 0));
  const left = on(last, Math.min(ON_TO_MM, high)).map((arcMm) => at(arcMm, KNOTS - 1));
  // Where the form runs straight back, no further: a record's points run from right to left.
  const outward = (knots: readonly Knot[], from: Knot): Knot[] => {
    const end = knots.findIndex(({ x }, step) => !(Math.abs(x) > Math.abs((knots[step - 1] ?? from).x) + LEAST_RISE_MM));
    return knots.slice(0, end < 0 ? knots.length : end);
  };
  return [...outward(right, inner[0]!).reverse(), ...inner, ...outward(left, inner.at(-1)!)];
}

/** Two points of a record's form in a row stand so far apart across the mouth, mm, at least. */
const LEAST_RISE_MM = 0.2;

/** How much of each free length moves a knot `part` of the way along, 0 to `KNOTS` − 1: Catmull and Rom's cubic (1974, from memory). */
function weightsAt(part: number): number[] {
  const before = Math.min(Math.floor(part), KNOTS - 2);
  const t = part - before;
  const four = [(-t + 2 * t * t - t ** 3) / 2, (2 - 5 * t * t + 3 * t ** 3) / 2, (t + 4 * t * t - 3 * t ** 3) / 2, (t ** 3 - t * t) / 2];
  const weights = new Array<number>(KNOTS).fill(0);
  four.forEach((weight, i) => (weights[Math.min(Math.max(before - 1 + i, 0), KNOTS - 1)]! += weight));
  return weights;
}

/** Moved so that it passes through (0, 0) where its midline lies at `xMm`; null where it does not reach there. */
function brought(form: PointsForm, xMm: number): { readonly form: PointsForm; readonly zMm: number } | null {
  const curve = curveOrNull(form);
  if (curve === null) return null;
  const out = new Float64Array(CURVE_OUT);
  let [low, high] = [curve.low, curve.high];
  const xAt = (u: number): number => {
    curve.exact(u, out);
    return out[0]!;
  };
  if (!(xAt(low) < xMm && xAt(high) > xMm)) return null;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (xAt(middle) < xMm) low = middle;
    else high = middle;
  }
  xAt(low);
  const zMm = out[1]!;
  return { form: { ...form, points: form.points.map(([x, z]) => [x - xMm, z - zMm] as const) }, zMm };
}

/** Null where the points make no curve: too near to each other, as of a print a few mm wide, or not in order. */
function curveOrNull(form: PointsForm): PlaneCurve | null {
  try {
    return buildCurve(form);
  } catch (trouble) {
    if (trouble instanceof RangeError) return null;
    throw trouble;
  }
}

/** To a tenth of a micrometre, as a record is to hold them. */
const rounded = (mm: number): number => Number(mm.toFixed(4));
