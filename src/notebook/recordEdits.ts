/** Small changes to a record, each a new record. Nothing here decides what is allowed; fields and the schema do. */
import type { PlayerRecord, ReadingSpec, TravelSpec } from '../core/specs';

export function withReading(record: PlayerRecord, index: number, change: (reading: ReadingSpec) => ReadingSpec): PlayerRecord {
  return { ...record, readings: record.readings.map((one, at) => (at === index ? change(one) : one)) };
}

/** The note's travel; its deviation stays. */
export function withTravel(record: PlayerRecord, index: number, travel: Partial<TravelSpec>): PlayerRecord {
  return withReading(record, index, (reading) => ({ ...reading, travel: { ...reading.travel, ...travel } }));
}

export function withHomePlace(
  record: PlayerRecord,
  place: { readonly upMm: number; readonly rightMm: number },
): PlayerRecord {
  return { ...record, home: { ...record.home, ...place } };
}

/** A further note after `index`, at the same travel, so that nothing jumps before it is given its own. */
export function withAddedReading(record: PlayerRecord, index: number, note: string): PlayerRecord {
  const beside = record.readings[index];
  const added: ReadingSpec = { note, travel: { upMm: beside?.travel.upMm ?? 0, rightMm: beside?.travel.rightMm ?? 0 } };
  return { ...record, readings: record.readings.toSpliced(index + 1, 0, added) };
}

export function withoutReading(record: PlayerRecord, index: number): PlayerRecord {
  return { ...record, readings: record.readings.filter((_, at) => at !== index) };
}

/** The same object without the named optional fields. */
export function without<T extends object, K extends keyof T>(value: T, ...names: readonly K[]): Omit<T, K> {
  const copy = { ...value };
  for (const name of names) delete copy[name];
  return copy;
}
