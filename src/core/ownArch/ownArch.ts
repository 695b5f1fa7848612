/**
 * A fitted arch in a record: how it is put there, whether it still is what was fitted, and how it looks with a part of what is not known of it
 * moved, for bands. docs/model.md, "The player's own arch".
 */
import { HINGE_ARM_MM } from '../arch';
import { drawable } from '../drawableArcs';
import { toDegrees, toRadians } from '../frame';
import { lowerRoot } from '../smallSystem';
import type { ArchMeasureName, ArchSpec, FormSpec, JawArchSpec, JawSpec, MeasuredArchSpec, TwoJawsSpec } from '../specs';
import type { UnknownName } from '../unknownName';
import { type Family, familyOf } from './families';
import { type ArchUnknown, type FittedArch, type NoArchFit, fitArch } from './fitArch';
import type { SplineFit } from './fitSpline';
import { scannedJaw, scannedSd } from './scannedArch';
import { FORWARD_AT_USUAL_OVERJET_MM, OVERBITE, OVERJET } from './measures';

export type TwoJaws = TwoJawsSpec;

/** A move of what is not known of a fitted arch, by deviations of its own that are independent of the others'. */
export interface OwnArchMove {
  readonly of: ArchUnknown['of'];
  readonly name: UnknownName;
  moved(arch: ArchSpec, sds: number): ArchSpec;
}

/** One degree of the jaw's turn moves the lower edge by so much, mm: the published triangle's side (value from memory) times a degree. */
const EDGE_MM_PER_DEG = HINGE_ARM_MM * toRadians(1);
/** Numbers of a form that differ by less are the same: rounding of the fit, far below what anybody measures. */
const SAME_FORM = 1e-6;
const JAWS = ['upper', 'lower'] as const;
const NOTHING_MEASURED: MeasuredArchSpec = { family: 'sextic', measures: [] };

/**
 * The arch with its forms fitted, and what was measured kept. Crown height, overjet and overbite change it only where they were measured, or go
 * back to what is usual where the measure was taken out again; all else of the arch stays, and so does a jaw that is that of a scan. Throws
 * RangeError as `fitArch` does.
 */
export function withMeasures(arch: TwoJaws, measured: MeasuredArchSpec): { readonly kind: 'arch'; readonly arch: TwoJaws; readonly fit: FittedArch } | NoArchFit {
  const fit = fitArch(measured);
  if (fit.kind === 'not-fitted') return fit;
  const before = arch.measured?.measures ?? [];
  const told = (name: ArchMeasureName): number | null => {
    const found = fit.measures.find((one) => one.name === name)!;
    return found.measured !== null || before.some((one) => one.name === name) ? found.fittedMm : null;
  };
  const [crown, overjet, overbite] = [told('upper-crown-height'), told('overjet'), told('overbite')];
  const fitted = (jaw: 'upper' | 'lower'): JawArchSpec => (scannedJaw(arch, jaw) === null ? { ...arch[jaw], form: fit.forms[jaw] } : arch[jaw]);
  let next: TwoJaws = { ...arch, measured, upper: fitted('upper'), lower: fitted('lower') };
  if (crown !== null && !isCrownScanned(arch)) next = withCrownHeight(next, () => crown);
  if (overjet !== null) next = { ...next, jaw: { ...next.jaw, forwardMm: FORWARD_AT_USUAL_OVERJET_MM - (overjet - OVERJET.meanMm) } };
  if (overbite !== null) next = { ...next, jaw: turned(next.jaw, (overbite - OVERBITE.meanMm) / EDGE_MM_PER_DEG - next.jaw.hingeDeg) };
  return { kind: 'arch', arch: next, fit };
}

/** The fit behind an arch; null where it was not measured, or its forms have been changed by hand since. A scanned jaw's form is the scan's. */
export function fitBehind(arch: ArchSpec): FittedArch | null {
  if ('single' in arch || arch.measured === undefined) return null;
  const fit = fitArch(arch.measured);
  if (fit.kind === 'not-fitted') return null;
  const family = familyOf(fit.family);
  return JAWS.every((jaw) => scannedJaw(arch, jaw) !== null || same(family, arch[jaw].form, fit.forms[jaw])) ? fit : null;
}

/**
 * The fit that says how sure an arch is where no scan does: that behind it; of a scanned one otherwise what was measured, or is usual among people,
 * of how the jaws meet. Null for an arch that is nobody's own.
 */
export function fitCounted(arch: ArchSpec): FittedArch | null {
  const behind = fitBehind(arch);
  if (behind !== null || 'single' in arch || JAWS.every((jaw) => scannedJaw(arch, jaw) === null)) return behind;
  const fit = fitArch(arch.measured ?? NOTHING_MEASURED);
  return fit.kind === 'fitted' ? fit : null;
}

/** Which of a fit's unknowns are unknown of the arch: not those that a scan tells, nor forms that are not the fit's. Places in `fit.unknowns`. */
export function openUnknowns(arch: ArchSpec, fit: FittedArch): readonly number[] {
  const areForms = fitBehind(arch) !== null;
  return fit.unknowns.flatMap(({ of }, place) => {
    if (of === 'crown height') return isCrownScanned(arch) ? [] : [place];
    if (of === 'overjet' || of === 'overbite') return [place];
    return areForms && scannedJaw(arch, of === 'upper form' ? 'upper' : 'lower') === null ? [place] : [];
  });
}

/** Rows and columns at these places. */
export const partOfCovariance = ({ covariance }: FittedArch, places: readonly number[]): number[][] => places.map((a) => places.map((b) => covariance[a]![b]!));

/** What is not known of an own arch and no scan tells, as independent moves; null where `fitCounted` is. */
export function ownArchMoves(arch: ArchSpec): readonly OwnArchMove[] | null {
  const fit = fitCounted(arch);
  if (fit === null) return null;
  const places = openUnknowns(arch, fit);
  const root = lowerRoot(partOfCovariance(fit, places));
  if (root === null) return null;
  const unknowns = places.map((place) => fit.unknowns[place]!);
  const isFree = (jaw: 'upper' | 'lower'): boolean => fitBehind(arch) !== null && scannedJaw(arch, jaw) === null;
  return [
    ...unknowns.map((unknown, column): OwnArchMove => ({
      of: unknown.of,
      name: unknownName(unknown),
      moved: (from, sds) =>
        'single' in from ? from : unknowns.slice(column).reduce((each, moving, i) => moved(each, familyOf(fit.family), moving, root[column + i]![column]! * sds), from),
    })),
    ...JAWS.flatMap((jaw) => (isFree(jaw) ? freeMoves(jaw, fit.free[jaw]) : [])),
  ];
}

/** Of a form that follows its print freely: its knots, a column of their covariance's root at a time. */
function freeMoves(jaw: 'upper' | 'lower', free: SplineFit | undefined): OwnArchMove[] {
  const root = free === undefined ? null : lowerRoot(free.covariance);
  if (free === undefined || root === null) return [];
  return root.map((_, column) => ({
    of: `${jaw} form`,
    name: `${jaw} arch form`,
    moved: (from, sds) => {
      if ('single' in from || from[jaw].form.kind !== 'points') return from;
      const by = root.map((row, i) => (i < column ? 0 : row[column]! * sds));
      return { ...from, [jaw]: { ...from[jaw], form: free.moved(from[jaw].form, by) } };
    },
  }));
}

/** As a band's largest part is named. */
export function unknownName({ of, index }: ArchUnknown): UnknownName {
  switch (of) {
    case 'upper form':
    case 'lower form':
      return `${of === 'upper form' ? 'upper' : 'lower'} arch form${index === 0 ? '' : ' further back'}`;
    case 'crown height':
      return 'upper teeth\'s height';
    case 'overjet':
    case 'overbite':
      return of;
  }
}

function moved(arch: TwoJaws, family: Family, { of, index }: ArchUnknown, by: number): TwoJaws {
  switch (of) {
    case 'upper form':
      return { ...arch, upper: { ...arch.upper, form: movedForm(family, arch.upper.form, index, by) } };
    case 'lower form':
      return { ...arch, lower: { ...arch.lower, form: movedForm(family, arch.lower.form, index, by) } };
    case 'crown height':
      return withCrownHeight(arch, (mm) => Math.max(LEAST_CROWN_MM, mm + by));
    case 'overjet':
      return { ...arch, jaw: { ...arch.jaw, forwardMm: arch.jaw.forwardMm - by } };
    case 'overbite':
      return { ...arch, jaw: turned(arch.jaw, by / EDGE_MM_PER_DEG) };
  }
}

function movedForm(family: Family, form: FormSpec, index: number, by: number): FormSpec {
  const unknowns = family.unknownsOf(form);
  return unknowns === null ? form : family.form(unknowns.map((each, i) => (i === index ? each + by : each)));
}

const isCrownScanned = (arch: ArchSpec): boolean => scannedSd(arch, 'upper', 'crownHeightMm') !== null;

/** A crown is drawn from this height on, mm. */
export const LEAST_CROWN_MM = 3;

function withCrownHeight(arch: TwoJaws, change: (mm: number) => number): TwoJaws {
  const { profile } = arch.upper;
  if (profile.kind !== 'arcs') return arch;
  return { ...arch, upper: { ...arch.upper, profile: drawable({ ...profile, crownHeightMm: change(profile.crownHeightMm) }) } };
}

/** The jaw turned by so much, the gap between the edges kept: a deep bite has turned further before the edges are as far apart. */
function turned(jaw: JawSpec, byDeg: number): JawSpec {
  const reachMm = (jaw.hingeArmMm ?? HINGE_ARM_MM) + jaw.forwardMm;
  const [before, after] = [toRadians(jaw.hingeDeg), toRadians(jaw.hingeDeg + byDeg)];
  const gapMm = jaw.openingMm * Math.cos(before) + reachMm * Math.sin(before);
  return { ...jaw, hingeDeg: toDegrees(after), openingMm: Math.max(0, (gapMm - reachMm * Math.sin(after)) / Math.cos(after)) };
}

function same(family: Family, a: FormSpec, b: FormSpec): boolean {
  if (a.kind === 'points' && b.kind === 'points') {
    return a.points.length === b.points.length && a.points.every(([x, z], i) => Math.abs(x - b.points[i]![0]) <= SAME_FORM && Math.abs(z - b.points[i]![1]) <= SAME_FORM);
  }
  const [one, other] = [family.unknownsOf(a), family.unknownsOf(b)];
  return one !== null && other !== null && one.every((each, i) => Math.abs(each - other[i]!) <= SAME_FORM);
}

