/** A measure typed, changed or taken out again: the arch is fitted anew. Pure. */
import type { NoArchFit } from '../../core/ownArch/fitArch';
import { usualSdMm } from '../../core/ownArch/measures';
import { type TwoJaws, withMeasures } from '../../core/ownArch/ownArch';
import type { ArchFamily, ArchMeasureName, ArchMeasureSpec, MeasuredArchSpec, PlayerRecord } from '../../core/specs';

export type Edited = { readonly kind: 'record'; readonly record: PlayerRecord } | NoArchFit;

export const NOTHING_MEASURED: MeasuredArchSpec = { family: 'sextic', measures: [] };

export function measuredOf(record: PlayerRecord): MeasuredArchSpec {
  return 'single' in record.arch ? NOTHING_MEASURED : (record.arch.measured ?? NOTHING_MEASURED);
}

/** `null` takes the measure out. A new one has the deviation that is usual of the tool. */
export function withMeasure(record: PlayerRecord, name: ArchMeasureName, change: Partial<Omit<ArchMeasureSpec, 'name'>> | null, by: ArchMeasureSpec['by']): Edited {
  const { measures, ...all } = measuredOf(record);
  const before = measures.find((one) => one.name === name);
  const others = measures.filter((one) => one.name !== name);
  const mm = change?.mm ?? before?.mm;
  if (change === null || mm === undefined) return fittedTo(record, { ...all, measures: others });
  const next: ArchMeasureSpec = { name, sdMm: usualSdMm(name, by), by, ...before, ...change, mm };
  return fittedTo(record, { ...all, measures: before === undefined ? [...measures, next] : measures.map((one) => (one.name === name ? next : one)) });
}

export function withFamily(record: PlayerRecord, family: ArchFamily): Edited {
  return fittedTo(record, { ...measuredOf(record), family });
}

function fittedTo(record: PlayerRecord, measured: MeasuredArchSpec): Edited {
  const made = withMeasures(record.arch as TwoJaws, measured);
  return made.kind === 'arch' ? { kind: 'record', record: { ...record, arch: made.arch } } : made;
}
