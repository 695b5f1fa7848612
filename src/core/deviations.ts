/**
 * What is not known exactly, by how much (one standard deviation), and how a record looks with one of them moved. Published where a
 * source is given, else our judgement; all are shown on the page and may be replaced.
 */
import { type Arcs, drawable } from './drawableArcs';
import { LEAST_CROWN_MM, ownArchMoves } from './ownArch/ownArch';
import { formNumbersScanned, scannedJaw, scannedSd } from './ownArch/scannedArch';
import { scaledForm } from './scaled';
import type { ArchSpec, JawArchSpec, JawSpec, LipSpec, PlayerRecord, ScannedNumberSpec } from './specs';
import type { ProfileUnknown, UnknownName } from './unknownName';

export interface Deviations {
  /** Front radius of the form, as a part of itself: 20 to 28 mm about 24 (derived from published widths). */
  readonly formPart: number;
  /** Labial inclination, degrees: Andrews 1972, 3.97 above and 5.79 below (values from memory). */
  readonly upperInclinationDeg: number;
  readonly lowerInclinationDeg: number;
  /** Crown and gum radius as parts of themselves, gum slope in degrees: our judgement. */
  readonly crownRadiusPart: number;
  readonly gumRadiusPart: number;
  readonly gumInclinationDeg: number;
  /** Lip thickness, mm: Arnett 1999, 1.2 to 1.8 (values from memory). */
  readonly lipThicknessMm: number;
  /** Effective modulus and force, as parts of themselves: our judgement. */
  readonly modulusPart: number;
  readonly forcePart: number;
  /** Height of the home place, mm: our judgement. */
  readonly homeUpMm: number;
  /** Opening and forward place of a jaw that was not seen at the note, mm each: docs/model.md. */
  readonly jawMm: number;
}

export const DEFAULT_DEVIATIONS: Deviations = {
  formPart: 0.08,
  upperInclinationDeg: 3.97,
  lowerInclinationDeg: 5.79,
  crownRadiusPart: 0.15,
  gumRadiusPart: 0.2,
  gumInclinationDeg: 4,
  lipThicknessMm: 1.5,
  modulusPart: 0.3,
  forcePart: 0.2,
  homeUpMm: 1,
  jawMm: 1,
};

/** One thing that is not known about the mouth, and the record with it moved by `sds` deviations. */
export interface MouthUnknown {
  readonly name: UnknownName;
  moved(record: PlayerRecord, sds: number): PlayerRecord;
}

/** Unknowns of the mouth that are the same at every note. */
export function mouthUnknowns(record: PlayerRecord, by: Deviations): MouthUnknown[] {
  const lips: MouthUnknown[] = (['upper', 'lower'] as const).flatMap((which) => [
    {
      name: `${which} lip's thickness`,
      moved: (from, sds) => withLip(from, which, (lip) => ({
        ...lip, thicknessMm: Math.max(lip.thicknessMm + sds * by.lipThicknessMm, LEAST_LIP_MM),
      })),
    },
    {
      name: `${which} lip's firmness`,
      moved: (from, sds) => withLip(from, which, (lip) => ({
        ...lip, effectiveModulusKPa: lip.effectiveModulusKPa * Math.exp(sds * by.modulusPart),
      })),
    },
  ]);
  return [...lips, ...archUnknowns(record, by)];
}

/** A jaw not seen at a note, moved by deviations of its own. */
export function movedJaw(jaw: JawSpec, openingSds: number, forwardSds: number, by: Deviations): JawSpec {
  return {
    ...jaw,
    openingMm: Math.max(0, jaw.openingMm + openingSds * by.jawMm),
    forwardMm: jaw.forwardMm + forwardSds * by.jawMm,
  };
}

/**
 * A jaw at a note, in a mouth whose own jaw stands elsewhere: carried along, since where it was seen or left is told against home's. The very
 * same where the two mouths' jaws are.
 */
export function carriedJaw(jaw: JawSpec, from: PlayerRecord, to: PlayerRecord): JawSpec {
  if ('single' in from.arch || 'single' in to.arch || from.arch.jaw === to.arch.jaw) return jaw;
  const [before, after] = [from.arch.jaw, to.arch.jaw];
  return {
    ...jaw,
    openingMm: Math.max(0, jaw.openingMm + after.openingMm - before.openingMm),
    forwardMm: jaw.forwardMm + after.forwardMm - before.forwardMm,
    hingeDeg: jaw.hingeDeg + after.hingeDeg - before.hingeDeg,
  };
}

const LEAST_LIP_MM = 1;

function archUnknowns(record: PlayerRecord, by: Deviations): MouthUnknown[] {
  if ('single' in record.arch) {
    return [
      {
        name: 'arch form',
        moved: (from, sds) =>
          'single' in from.arch
            ? { ...from, arch: { single: { ...from.arch.single, form: scaledForm(from.arch.single.form, 1 + sds * by.formPart) } } }
            : from,
      },
    ];
  }
  const own = ownArchMoves(record.arch);
  const profiles = (['upper', 'lower'] as const).flatMap((which) => {
    const { arch } = record;
    const usualInclination = which === 'upper' ? by.upperInclinationDeg : by.lowerInclinationDeg;
    const inclination = scannedSd(arch, which, 'inclinationDeg') ?? usualInclination;
    const crownRadiusPart = scannedPart(arch, which, 'crownRadiusMm') ?? by.crownRadiusPart;
    const gumRadiusPart = scannedPart(arch, which, 'gumRadiusMm') ?? by.gumRadiusPart;
    const gumInclination = scannedSd(arch, which, 'gumInclinationDeg') ?? by.gumInclinationDeg;
    const height = scannedSd(arch, which, 'crownHeightMm');
    const profile = (name: ProfileUnknown, change: (arcs: Arcs, sds: number) => Arcs): MouthUnknown => ({
      name: `${which} ${name}`,
      moved: (from, sds) =>
        withJaw(from, which, (jaw) =>
          jaw.profile.kind === 'arcs' ? { ...jaw, profile: drawable(change(jaw.profile, sds)) } : jaw,
        ),
    });
    const form: MouthUnknown = {
      name: `${which} arch form`,
      moved: (from, sds) =>
        withJaw(from, which, (jaw) => ({ ...jaw, form: scaledForm(jaw.form, Math.max(0.5, 1 + sds * by.formPart)) })),
    };
    const scannedForm = formNumbersScanned(arch, which).map(({ name, sd }, index): MouthUnknown => ({
      name: index === 0 ? `${which} arch form` : `${which} arch form further back`,
      moved: (from, sds) => withJaw(from, which, (jaw) => withNumber(jaw, name, sds * sd)),
    }));
    const isFitted = own?.some(({ of }) => of === `${which} form`) === true;
    const forms = scannedJaw(arch, which) !== null ? scannedForm : isFitted ? [] : [form];
    return [
      ...forms,
      profile('teeth\'s inclination', (arcs, sds) => ({ ...arcs, inclinationDeg: arcs.inclinationDeg + sds * inclination })),
      ...(height === null ? [] : [profile('teeth\'s height', (arcs, sds) => ({ ...arcs, crownHeightMm: Math.max(LEAST_CROWN_MM, arcs.crownHeightMm + sds * height) }))]),
      profile('crown\'s roundness', (arcs, sds) => ({ ...arcs, crownRadiusMm: arcs.crownRadiusMm * Math.exp(sds * crownRadiusPart) })),
      profile('gum\'s roundness', (arcs, sds) => ({ ...arcs, gumRadiusMm: arcs.gumRadiusMm * Math.exp(sds * gumRadiusPart) })),
      profile('gum\'s slope', (arcs, sds) => ({ ...arcs, gumInclinationDeg: arcs.gumInclinationDeg + sds * gumInclination })),
    ];
  });
  // What was measured of an arch says how sure its forms are; and of a measured or scanned one the teeth's height and how the jaws meet count too.
  const fitted = (own ?? []).map(({ name, moved }): MouthUnknown => ({ name, moved: (from, sds) => ({ ...from, arch: moved(from.arch, sds) }) }));
  return [...fitted, ...profiles];
}

function withJaw(record: PlayerRecord, which: 'upper' | 'lower', change: (jaw: JawArchSpec) => JawArchSpec): PlayerRecord {
  const { arch } = record;
  return 'single' in arch ? record : { ...record, arch: { ...arch, [which]: change(arch[which]) } };
}

/** A number of the form moved, and held above a half of itself: no form is made of less. */
function withNumber(jaw: JawArchSpec, name: ScannedNumberSpec['name'], by: number): JawArchSpec {
  const value = (jaw.form as unknown as Readonly<Record<string, number>>)[name];
  return value === undefined ? jaw : { ...jaw, form: { ...jaw.form, [name]: Math.max(value + by, value / 2) } };
}

function scannedPart(arch: ArchSpec, which: 'upper' | 'lower', name: 'crownRadiusMm' | 'gumRadiusMm'): number | null {
  const number = scannedJaw(arch, which)?.numbers.find((one) => one.name === name);
  return number === undefined ? null : number.sd / number.value;
}

function withLip(record: PlayerRecord, which: 'upper' | 'lower', change: (lip: LipSpec) => LipSpec): PlayerRecord {
  return { ...record, lips: { ...record.lips, [which]: change(record.lips[which]) } };
}
