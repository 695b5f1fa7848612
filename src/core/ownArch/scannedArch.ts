/** A jaw fitted to a scan, in a record: how it is put there, whether it still is what was fitted, and how sure each of its numbers is. */
import type { ArchSpec, JawArchSpec, ScannedJawSpec, ScannedNumberSpec, TwoJawsSpec } from '../specs';

export interface FittedToScan extends ScannedJawSpec {
  readonly spec: JawArchSpec;
}

type Which = 'upper' | 'lower';

/** Numbers that differ by less, as a part of themselves, are the same: rounding of a file, far below what any scan tells. */
const SAME_PART = 1e-9;

/**
 * The arch with these jaws in the place of its own, known to be those of the scans kept under `id`. What was measured stays: of the other jaw, of
 * how the two meet, and of how large the mouth is. A jaw that is that of a scan already stays so; its scan is to be found under the new `id`.
 * Where the lower jaw stands stays, too.
 */
export function withScanned(arch: TwoJawsSpec, id: string, jaws: Readonly<Partial<Record<Which, FittedToScan>>>): TwoJawsSpec {
  const { scanned: _, ...bare } = arch;
  const jaw = (which: Which): JawArchSpec => jaws[which]?.spec ?? arch[which];
  const told = (which: Which): Partial<Record<Which, ScannedJawSpec>> => {
    const fitted = jaws[which];
    if (fitted !== undefined) return { [which]: { numbers: fitted.numbers, residualMm: fitted.residualMm } };
    const kept = scannedJaw(arch, which);
    return kept === null ? {} : { [which]: kept };
  };
  return { ...bare, upper: jaw('upper'), lower: jaw('lower'), scanned: { id, ...told('upper'), ...told('lower') } };
}

/** The arch with its numbers as they are, and nothing said of this jaw's scan; without `which` of neither. */
export function withoutScanned(arch: TwoJawsSpec, which?: Which): TwoJawsSpec {
  const { scanned, ...bare } = arch;
  const other = which === 'upper' ? 'lower' : 'upper';
  return scanned === undefined || which === undefined || scanned[other] === undefined ? bare : { ...bare, scanned: { id: scanned.id, [other]: scanned[other] } };
}

/** Null where the jaw was not scanned, or its numbers have been changed by hand since. */
export function scannedJaw(arch: ArchSpec, which: Which): ScannedJawSpec | null {
  const scanned = 'single' in arch ? undefined : arch.scanned?.[which];
  if (scanned === undefined || 'single' in arch) return null;
  const jaw = arch[which];
  // A tooth set out of the form by hand is a change, too.
  if ((jaw.teeth ?? []).length > 0) return null;
  return scanned.numbers.every(({ name, value }) => isSame(numberOf(jaw, name), value)) ? scanned : null;
}

export const scannedSd = (arch: ArchSpec, which: Which, name: ScannedNumberSpec['name']): number | null =>
  scannedJaw(arch, which)?.numbers.find((one) => one.name === name)?.sd ?? null;

/** Those of the form, without the profile's. */
export function formNumbersScanned(arch: ArchSpec, which: Which): readonly ScannedNumberSpec[] {
  const scanned = scannedJaw(arch, which);
  if (scanned === null || 'single' in arch) return [];
  const { form } = arch[which];
  return scanned.numbers.filter(({ name }) => name in form);
}

function numberOf({ form, profile }: JawArchSpec, name: ScannedNumberSpec['name']): number | undefined {
  const [ofForm, ofProfile] = [form, profile] as unknown as readonly [Readonly<Record<string, number>>, Readonly<Record<string, number>>];
  return ofForm[name] ?? ofProfile[name];
}

const isSame = (one: number | undefined, other: number): boolean => one !== undefined && Math.abs(one - other) <= SAME_PART * Math.abs(other);
