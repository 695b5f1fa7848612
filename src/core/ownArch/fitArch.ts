/**
 * Two jaws fitted to whatever was measured, with what is usual among people as prior: the most likely arch, how sure each of its numbers is, and
 * which measures contradict the others. With no measure it is the prior. Normal errors; docs/numerics.md §24, docs/decisions/0028.
 */
import type { ArchFamily, ArchMeasureName, ArchMeasureSpec, BitePrintSpec, FormSpec, MeasuredArchSpec } from '../specs';
import { sayCore } from '../../words/core';
import { tooTight } from '../formChecks';
import { lowerRoot, solveLower } from '../smallSystem';
import { type NoCurveFit, fitCurve } from './dampedLeastSquares';
import { type Family, type Place, familyOf } from './families';
import { type PrintFit, fitPrint, shapeOf } from './fitPrint';
import { type SplineFit, fitSpline } from './fitSpline';
import { CROWN_HEIGHT, FRONT_RADIUS_PART, OVERBITE, OVERJET, POPULATION, SIZE_PART, type Spread, measureKind } from './measures';

/** A measure beside what the fit makes of it. */
export interface FittedMeasure {
  readonly name: ArchMeasureName;
  /** What the fitted arch has there, measured or not, mm. */
  readonly fittedMm: number;
  /** How sure that is, one deviation, mm. */
  readonly sdMm: number;
  readonly measured: ArchMeasureSpec | null;
  /**
   * How far the measure lies from what all others and the prior say, in deviations of that difference; null where it was not measured. Over
   * `CONTRADICTS_SDS` it is named.
   */
  readonly apartSds: number | null;
}

/** Part of what is not known of the fitted arch, which bands are made from: the order of `FittedArch.covariance`. */
export interface ArchUnknown {
  readonly of: 'upper form' | 'lower form' | 'crown height' | 'overjet' | 'overbite';
  /** Of a form: which of its family's unknowns. */
  readonly index: number;
}

export interface FittedArch {
  readonly kind: 'fitted';
  readonly family: ArchFamily;
  readonly forms: Readonly<Record<'upper' | 'lower', FormSpec>>;
  readonly frontRadiiMm: Readonly<Record<'upper' | 'lower', number>>;
  /** Deviation of the upper front radius as a part of it. */
  readonly frontRadiusPart: number;
  readonly measures: readonly FittedMeasure[];
  readonly contradicting: readonly ArchMeasureName[];
  /** Each print as it lies about this family's form by itself. */
  readonly prints: readonly PrintFit[];
  /** Of a jaw that follows its print freely: its form, which is none of the family, and how sure that is. */
  readonly free: Readonly<Partial<Record<JawName, SplineFit>>>;
  /** Of a free form none. */
  readonly unknowns: readonly ArchUnknown[];
  readonly values: readonly number[];
  readonly covariance: readonly (readonly number[])[];
  /** Covariance of each measure's fitted value (rows in the order of `measures`) with the unknowns. */
  readonly withMeasures: readonly (readonly number[])[];
  /** Over the prior and the measures, in deviations. */
  readonly chi2: number;
  readonly iterations: number;
}

export interface NoArchFit extends Omit<NoCurveFit, 'reason'> {
  /** `no-mouth`: the form that comes nearest is none of a mouth. `no-print`: a print tells nothing of this form. */
  readonly reason: NoCurveFit['reason'] | 'no-mouth' | 'no-print';
}

/** Front radii that a mouth may have, mm: half of the narrowest and four times the broadest ready-made arch's. */
const FRONT_RADIUS_MM = [10, 120] as const;

/** A measure so far from what all others and the prior say happens once in 370 times by chance. */
const CONTRADICTS_SDS = 3;

const JAWS = ['upper', 'lower'] as const;
type JawName = (typeof JAWS)[number];

const fits = new WeakMap<MeasuredArchSpec, FittedArch | NoArchFit>();

/**
 * The most likely arch. Throws RangeError for a measure out of its range, a deviation that is not above 0, or a name that stands twice; `not-fitted`
 * where no form of the family comes near the numbers. The same object for the same `measured`.
 */
export function fitArch(measured: MeasuredArchSpec): FittedArch | NoArchFit {
  const known = fits.get(measured);
  if (known) return known;
  const fit = fitted(measured);
  fits.set(measured, fit);
  return fit;
}

function fitted({ family: id, measures, prints = [] }: MeasuredArchSpec): FittedArch | NoArchFit {
  measures.forEach(checked);
  measures.forEach(({ name }, i) => {
    if (measures.findIndex((one) => one.name === name) < i) throw tooTight('measures', name, sayCore('once'));
  });
  prints.forEach(({ jaw }, i) => {
    if (prints.findIndex((one) => one.jaw === jaw) < i) throw tooTight('prints', jaw, sayCore('oncePrint'));
  });
  const family = familyOf(id);
  const printed = prints.map((print) => toldBy(print, id));
  if (!printed.every((one) => one !== null)) return { kind: 'not-fitted', reason: 'no-print', chi2: NaN, iterations: 0 };
  const layout = layoutOf(family);
  const predict = (v: readonly number[]): Record<ArchMeasureName, number> | null => predictions(family, layout, v);
  const misfits = (v: readonly number[]): number[] | null => {
    const told = predict(v);
    return told && [...usual(family, layout, v, told), ...measures.map(({ name, mm, sdMm }) => (told[name] - mm) / sdMm), ...printed.flatMap((one) => one.misfits(layout.formOf(v, one.jaw)))];
  };
  const fit = fitCurve(misfits, layout.start, layout.scales);
  if (fit.kind === 'not-fitted') return fit;
  const { unknowns: at, covariance } = fit;
  const free: Partial<Record<JawName, SplineFit>> = {};
  for (const { jaw, fit: own, print } of printed) {
    if (print.isFree !== true) continue;
    const spline = fitSpline(print, own);
    if (spline === null) return { kind: 'not-fitted', reason: 'no-print', chi2: fit.chi2, iterations: fit.iterations };
    free[jaw] = spline;
  }
  const shown = layout.shown.filter(({ unknown }) => !JAWS.some((jaw) => free[jaw] !== undefined && unknown.of === `${jaw} form`));
  const frontRadiiMm = { upper: family.frontRadiusMm(layout.formOf(at, 'upper')), lower: family.frontRadiusMm(layout.formOf(at, 'lower')) };
  if (JAWS.some((jaw) => !(frontRadiiMm[jaw] >= FRONT_RADIUS_MM[0] && frontRadiiMm[jaw] <= FRONT_RADIUS_MM[1]))) {
    return { kind: 'not-fitted', reason: 'no-mouth', chi2: fit.chi2, iterations: fit.iterations };
  }
  const told = predict(at)!;
  const slopes = measureSlopes(predict, at, layout.scales);
  const names = Object.keys(told) as ArchMeasureName[];
  const across = names.map((name) => at.map((_, j) => slopes[name].reduce((sum, each, k) => sum + each * covariance[k]![j]!, 0)));
  const all = names.map((name, i): FittedMeasure => {
    const variance = across[i]!.reduce((sum, each, k) => sum + each * slopes[name][k]!, 0);
    const own = measures.find((one) => one.name === name) ?? null;
    // What is left, by what would be left of a measure that had no say: the same as leaving it out and asking the others.
    const freed = own && own.sdMm ** 2 - variance;
    const apartSds = own && freed !== null && freed > 0 ? (own.mm - told[name]) / Math.sqrt(freed) : own && 0;
    return { name, fittedMm: told[name], sdMm: Math.sqrt(Math.max(0, variance)), measured: own, apartSds };
  });
  return {
    kind: 'fitted',
    family: id,
    forms: { upper: free.upper?.form ?? family.form(layout.formOf(at, 'upper')), lower: free.lower?.form ?? family.form(layout.formOf(at, 'lower')) },
    frontRadiiMm,
    frontRadiusPart: radiusPart(family, layout.formOf(at, 'upper'), covariance, layout.shown),
    measures: all,
    contradicting: all.filter(({ apartSds }) => Math.abs(apartSds ?? 0) > CONTRADICTS_SDS).map(({ name }) => name),
    prints: printed.map(({ fit: own }) => own),
    free,
    unknowns: shown.map(({ unknown }) => unknown),
    values: shown.map(({ place }) => at[place]!),
    covariance: shown.map(({ place: a }) => shown.map(({ place: b }) => covariance[a]![b]!)),
    withMeasures: across.map((row) => shown.map(({ place }) => row[place]!)),
    chi2: fit.chi2,
    iterations: fit.iterations,
  };
}

/** What a print tells of its jaw's form, as misfits in deviations of their own; null where the points make no form of this family. */
function toldBy(print: BitePrintSpec, id: ArchFamily): { readonly jaw: JawName; readonly print: BitePrintSpec; readonly fit: PrintFit; misfits(form: readonly number[]): number[] } | null {
  const fit = fitPrint(print, id);
  const root = fit.kind === 'fitted' ? lowerRoot(fit.covariance) : null;
  if (fit.kind !== 'fitted' || root === null) return null;
  return { jaw: print.jaw, print, fit, misfits: (form) => solveLower(root, shapeOf(id, form).map((each, i) => each - fit.shape[i]!)) };
}

/** Where each unknown stands in the vector that is fitted: size, then each jaw's canine and molar place and its form, then the three single ones. */
interface Layout {
  readonly start: readonly number[];
  readonly scales: readonly number[];
  readonly single: { readonly crown: number; readonly overjet: number; readonly overbite: number };
  readonly shown: readonly { readonly unknown: ArchUnknown; readonly place: number }[];
  formOf(v: readonly number[], jaw: JawName): readonly number[];
  /** The family's t of a canine and of a first molar. */
  teethOf(v: readonly number[], jaw: JawName): readonly [canine: number, molar: number];
}

function layoutOf(family: Family): Layout {
  const start: number[] = [0];
  const scales: number[] = [SIZE_PART];
  const places: Partial<Record<JawName, readonly number[]>> = {};
  const forms: Partial<Record<JawName, readonly number[]>> = {};
  const shown: { unknown: ArchUnknown; place: number }[] = [];
  for (const jaw of JAWS) {
    const { canine, molar } = usualPlaces(jaw);
    const form = family.start(canine, molar);
    const teeth = family.molarT === null ? [canine, molar] : [canine];
    places[jaw] = teeth.map((_, index) => start.length + index);
    start.push(...teeth.map((place) => family.tOf(form, place)));
    forms[jaw] = form.map((_, index) => start.length + index);
    form.forEach((_, index) => shown.push({ unknown: { of: `${jaw} form`, index }, place: start.length + index }));
    start.push(...form);
    scales.push(...[...teeth, ...form].map(() => 1));
  }
  const single = { crown: start.length, overjet: start.length + 1, overbite: start.length + 2 };
  start.push(CROWN_HEIGHT.meanMm, OVERJET.meanMm, OVERBITE.meanMm);
  scales.push(1, 1, 1);
  shown.push(
    { unknown: { of: 'crown height', index: 0 }, place: single.crown },
    { unknown: { of: 'overjet', index: 0 }, place: single.overjet },
    { unknown: { of: 'overbite', index: 0 }, place: single.overbite },
  );
  return {
    start,
    scales,
    single,
    shown,
    formOf: (v, jaw) => forms[jaw]!.map((place) => v[place]!),
    teethOf: (v, jaw) => {
      const [canine, molar] = places[jaw]!;
      return [v[canine!]!, family.molarT ?? v[molar!]!];
    },
  };
}

/** About where the teeth stand: a canine's depth from the front radius, and a sixth power's share of it. */
function usualPlaces(jaw: JawName): { readonly canine: Place; readonly molar: Place } {
  const { canineWidth, molarWidth, molarDepth, frontRadiusMm } = POPULATION[jaw];
  const [near, far] = [canineWidth.meanMm / 2, molarWidth.meanMm / 2];
  const behind = molarDepth.meanMm - far ** 2 / (2 * frontRadiusMm);
  return { canine: { xMm: near, depthMm: near ** 2 / (2 * frontRadiusMm) + behind * (near / far) ** 6 }, molar: { xMm: far, depthMm: molarDepth.meanMm } };
}

function predictions(family: Family, layout: Layout, v: readonly number[]): Record<ArchMeasureName, number> | null {
  const placed = JAWS.map((jaw) => {
    const form = layout.formOf(v, jaw);
    const [canine, molar] = layout.teethOf(v, jaw).map((t) => family.placeAt(form, t));
    return canine && molar && { canine, molar };
  });
  const [upper, lower] = placed;
  if (!upper || !lower) return null;
  return {
    'upper-canine-width': 2 * upper.canine.xMm,
    'upper-canine-depth': upper.canine.depthMm,
    'upper-molar-width': 2 * upper.molar.xMm,
    'upper-molar-depth': upper.molar.depthMm,
    'lower-canine-width': 2 * lower.canine.xMm,
    'lower-canine-depth': lower.canine.depthMm,
    'lower-molar-width': 2 * lower.molar.xMm,
    'lower-molar-depth': lower.molar.depthMm,
    overjet: v[layout.single.overjet]!,
    overbite: v[layout.single.overbite]!,
    'upper-crown-height': v[layout.single.crown]!,
  };
}

/** The prior as misfits: what is usual, of a mouth of this size. */
function usual(family: Family, layout: Layout, v: readonly number[], told: Readonly<Record<ArchMeasureName, number>>): number[] {
  const size = v[0]!;
  const sized = (mm: number, { meanMm, sdMm }: Spread): number => (mm - meanMm * (1 + size)) / Math.sqrt(sdMm ** 2 - (SIZE_PART * meanMm) ** 2);
  const apart = (mm: number, { meanMm, sdMm }: Spread): number => (mm - meanMm) / sdMm;
  return [
    size / SIZE_PART,
    ...JAWS.flatMap((jaw) => {
      const { canineWidth, molarWidth, molarDepth, frontRadiusMm } = POPULATION[jaw];
      const radius = family.frontRadiusMm(layout.formOf(v, jaw));
      return [
        sized(told[`${jaw}-canine-width`], canineWidth),
        sized(told[`${jaw}-molar-width`], molarWidth),
        sized(told[`${jaw}-molar-depth`], molarDepth),
        (Math.log(radius / frontRadiusMm) - size) / Math.sqrt(FRONT_RADIUS_PART ** 2 - SIZE_PART ** 2),
      ];
    }),
    apart(told['upper-crown-height'], CROWN_HEIGHT),
    apart(told.overjet, OVERJET),
    apart(told.overbite, OVERBITE),
  ];
}

/** By the radius' slopes in the upper form's unknowns. */
function radiusPart(family: Family, form: readonly number[], covariance: readonly (readonly number[])[], shown: Layout['shown']): number {
  const places = shown.filter(({ unknown }) => unknown.of === 'upper form').map(({ place }) => place);
  const log = (unknowns: readonly number[]): number => Math.log(family.frontRadiusMm(unknowns));
  const slopes = form.map((_, i) => {
    const at = (by: number): number => log(form.map((each, j) => (i === j ? each + by : each)));
    return (at(SLOPE_STEP) - at(-SLOPE_STEP)) / (2 * SLOPE_STEP);
  });
  return Math.sqrt(slopes.reduce((sum, a, i) => sum + slopes.reduce((row, b, j) => row + a * b * covariance[places[i]!]![places[j]!]!, 0), 0));
}

/** Step of the differences by which a measure's slopes are taken, as a part of an unknown's scale. */
const SLOPE_STEP = 1e-5;

function measureSlopes(
  predict: (v: readonly number[]) => Record<ArchMeasureName, number> | null, at: readonly number[], scales: readonly number[],
): Record<ArchMeasureName, number[]> {
  const here = predict(at)!;
  const slopes = Object.fromEntries(Object.keys(here).map((name) => [name, [] as number[]])) as Record<ArchMeasureName, number[]>;
  at.forEach((each, i) => {
    const by = SLOPE_STEP * Math.max(scales[i]!, Math.abs(each));
    const [high, low] = [each + by, each - by].map((value) => predict(at.map((one, j) => (i === j ? value : one))));
    for (const name of Object.keys(here) as ArchMeasureName[]) slopes[name].push(((high ?? here)[name] - (low ?? here)[name]) / (high && low ? 2 * by : by));
  });
  return slopes;
}

function checked({ name, mm, sdMm }: ArchMeasureSpec): void {
  const [least, most] = measureKind(name).rangeMm;
  if (!(mm >= least && mm <= most)) throw tooTight(`measures ${name}`, `${mm} mm`, sayCore('fromToMm', { low: least, high: most }));
  if (!(sdMm > 0 && sdMm < Infinity)) throw tooTight(`measures ${name} sdMm`, String(sdMm), sayCore('above', { low: 0 }));
}
