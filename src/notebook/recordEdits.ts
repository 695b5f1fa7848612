/** Small changes to a record, each a new record. Nothing here decides what is allowed; fields and the schema do. */
import type { PlayerRecord, ReadingSpec, TravelSpec } from '../core/specs';

export function withReading(record: PlayerRecord, index: number, change: (reading: ReadingSpec) => ReadingSpec): PlayerRecord {
  return { ...record, readings: record.readings.map((one, at) => (at === index ? change(one) : one)) };
}

/** The reading's travel; its deviation stays, and a half that was not given is none. `null`: nobody saw it. */
export function withTravel(record: PlayerRecord, index: number, travel: Partial<TravelSpec> | null): PlayerRecord {
  return withReading(record, index, (reading) =>
    travel === null ? without(reading, 'travel') : { ...reading, travel: { upMm: 0, rightMm: 0, ...reading.travel, ...travel } });
}

/**
 * All takes of a note moved together, as a hand moves their mean: `from` is where the mean stands, `to` where it was put. Takes in which
 * nobody saw the travel stay so, unless there is no other.
 */
export function withMeanTravel(
  record: PlayerRecord,
  takes: readonly number[],
  index: number,
  from: Pick<TravelSpec, 'upMm' | 'rightMm'>,
  to: Pick<TravelSpec, 'upMm' | 'rightMm'>,
): PlayerRecord {
  const seen = takes.filter((at) => record.readings[at]?.travel !== undefined);
  if (seen.length <= 1) return withTravel(record, seen[0] ?? index, { upMm: to.upMm, rightMm: to.rightMm });
  return {
    ...record,
    readings: record.readings.map((one, at) =>
      one.travel === undefined || !seen.includes(at)
        ? one
        : { ...one, travel: { ...one.travel, upMm: tidyMm(one.travel.upMm + to.upMm - from.upMm), rightMm: tidyMm(one.travel.rightMm + to.rightMm - from.rightMm) } }),
  };
}

/** A micrometre is far below what anybody can measure, and keeps 0.1 + 0.2 from showing. */
export const tidyMm = (value: number): number => Number(value.toFixed(3));
/** A measured angle as it is kept, to hundredths of a degree; shown anywhere, it is this that is rounded. */
export const tidyDeg = (deg: number): number => Number(deg.toFixed(2));

export function withHomePlace(
  record: PlayerRecord,
  place: { readonly upMm: number; readonly rightMm: number },
): PlayerRecord {
  return { ...record, home: { ...record.home, ...place } };
}

/** A further note after `index`, of which nothing has been seen yet. */
export function withAddedReading(record: PlayerRecord, index: number, note: string): PlayerRecord {
  return { ...record, readings: record.readings.toSpliced(index + 1, 0, { note }) };
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
