/** One value put into a reading or taken out of it; what is left empty is not kept. */
import type { ReadingSpec } from '../core/specs';

/** The reading with this field, or without it where the value is null. */
export function withValue<K extends keyof ReadingSpec>(reading: ReadingSpec, field: K, value: ReadingSpec[K] | null): ReadingSpec {
  const { [field]: _before, ...rest } = reading;
  return (value === null ? rest : { ...rest, [field]: value }) as ReadingSpec;
}

const PAIRS = { travel: ['upMm', 'rightMm'], horn: ['elevationDeg', 'lateralDeg'] } as const;

type Pair = Readonly<Record<string, number | undefined>>;

/** One number of travel or horn; see readingColumns.ts for what an empty one does to the pair. */
export function withPair<P extends keyof typeof PAIRS>(
  reading: ReadingSpec,
  pair: P,
  field: (typeof PAIRS)[P][number],
  value: number | null,
): ReadingSpec {
  const before = reading[pair] as Pair | undefined;
  const [first, second] = PAIRS[pair];
  const other = field === first ? second : first;
  if (value === null && (before?.[other] ?? 0) === 0) return withValue(reading, pair, null);
  const now = { [first]: 0, [second]: 0, ...before, [field]: value ?? 0 };
  return { ...reading, [pair]: now };
}

/** The deviation of a pair that is there; nothing where there is none. */
export function withSd(reading: ReadingSpec, pair: keyof typeof PAIRS, field: 'sdMm' | 'sdDeg', value: number | null): ReadingSpec {
  const before = reading[pair] as Pair | undefined;
  if (before === undefined) return reading;
  const { [field]: _before, ...rest } = before;
  return { ...reading, [pair]: value === null ? rest : { ...rest, [field]: value } };
}

export function withJaw(reading: ReadingSpec, field: 'openingMm' | 'forwardMm' | 'hingeDeg', value: number | null): ReadingSpec {
  const { [field]: _before, ...rest } = reading.jaw ?? {};
  const jaw = value === null ? rest : { ...rest, [field]: value };
  return withValue(reading, 'jaw', Object.keys(jaw).length === 0 ? null : jaw);
}
