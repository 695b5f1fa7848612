/**
 * What is not known exactly, by how much (one standard deviation), and how a record looks with one of them moved. Published where a
 * source is given, else our judgement; all are shown on the page and may be replaced.
 */
import type { JawArchSpec, JawSpec, LipSpec, PlayerRecord, ProfileSpec } from './specs';
import { scaledForm } from './scaled';

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

/** By what each thing that is not known goes; `unknownWords` says it. */
export type UnknownName =
  | 'arch form' | 'force' | 'home place' | 'travel up' | 'travel to the side' | "jaw's opening" | 'jaw forward or back'
  | `${'upper' | 'lower'} ${"lip's thickness" | "lip's firmness" | 'arch form' | ProfileUnknown}`;

type ProfileUnknown = "teeth's inclination" | "crown's roundness" | "gum's roundness" | "gum's slope";

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

const LEAST_LIP_MM = 1;
/** Keeps a gum held to the neck's slope on the drawable side of rounding, degrees. */
const NECK_MARGIN_DEG = 1e-6;

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
  return (['upper', 'lower'] as const).flatMap((which) => {
    const inclination = which === 'upper' ? by.upperInclinationDeg : by.lowerInclinationDeg;
    const profile = (name: ProfileUnknown, change: (arcs: Arcs, sds: number) => Arcs): MouthUnknown => ({
      name: `${which} ${name}`,
      moved: (from, sds) =>
        withJaw(from, which, (jaw) =>
          jaw.profile.kind === 'arcs' ? { ...jaw, profile: drawable(change(jaw.profile, sds)) } : jaw,
        ),
    });
    return [
      {
        name: `${which} arch form`,
        moved: (from, sds) =>
          withJaw(from, which, (jaw) => ({ ...jaw, form: scaledForm(jaw.form, Math.max(0.5, 1 + sds * by.formPart)) })),
      },
      profile('teeth\'s inclination', (arcs, sds) => ({ ...arcs, inclinationDeg: arcs.inclinationDeg + sds * inclination })),
      profile('crown\'s roundness', (arcs, sds) => ({ ...arcs, crownRadiusMm: arcs.crownRadiusMm * Math.exp(sds * by.crownRadiusPart) })),
      profile('gum\'s roundness', (arcs, sds) => ({ ...arcs, gumRadiusMm: arcs.gumRadiusMm * Math.exp(sds * by.gumRadiusPart) })),
      profile('gum\'s slope', (arcs, sds) => ({ ...arcs, gumInclinationDeg: arcs.gumInclinationDeg + sds * by.gumInclinationDeg })),
    ];
  });
}

type Arcs = Extract<ProfileSpec, { kind: 'arcs' }>;

/** Holds moved arcs to what can be drawn: a crown within its radius, a gum no steeper than the neck. */
export function drawable(arcs: Arcs): Arcs {
  const middle = Math.sin((arcs.inclinationDeg * Math.PI) / 180);
  const crownRadiusMm = Math.max(arcs.crownRadiusMm, (arcs.crownHeightMm / 2 / (1 - Math.abs(middle))) * 1.02);
  const neckDeg = (Math.asin(middle + arcs.crownHeightMm / (2 * crownRadiusMm)) * 180) / Math.PI;
  return { ...arcs, crownRadiusMm, gumInclinationDeg: Math.min(arcs.gumInclinationDeg, neckDeg - NECK_MARGIN_DEG) };
}

function withJaw(record: PlayerRecord, which: 'upper' | 'lower', change: (jaw: JawArchSpec) => JawArchSpec): PlayerRecord {
  const { arch } = record;
  return 'single' in arch ? record : { ...record, arch: { ...arch, [which]: change(arch[which]) } };
}

function withLip(record: PlayerRecord, which: 'upper' | 'lower', change: (lip: LipSpec) => LipSpec): PlayerRecord {
  return { ...record, lips: { ...record.lips, [which]: change(record.lips[which]) } };
}
