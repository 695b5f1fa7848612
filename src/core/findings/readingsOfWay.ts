/** Readings gathered for the findings about travel: one place for each note, each direction of playing by itself. */
import { midiOf } from '../pitch';
import { branchesOf, travelSds } from '../readings';
import type { PlayerRecord, PlayingDirection, ReadingSpec } from '../specs';
import type { Evidence } from './findings';

/** A typed deviation below this (0: "exactly") counts as this, mm: nobody sees a rim's place more closely, and 0 would weigh without end. */
const SMALLEST_SD_MM = 0.05;

export interface PlacedNote {
  readonly note: string;
  readonly midi: number;
  /** Mean of its readings by their deviations. */
  readonly upMm: number;
  readonly rightMm: number;
  /** Of `upMm`. */
  readonly sdMm: number;
  readonly rightSdMm: number;
  readonly readings: number;
}

export interface WayReadings {
  readonly direction: PlayingDirection | null;
  /** Low to high, each pitch once. */
  readonly notes: readonly PlacedNote[];
}

/**
 * Ascending and descending by themselves where readings say which; a reading that says neither stands for both. Readings whose travel
 * nobody saw are left out. The home note's own reading counts like any other, with its deviation: travel is counted from home, so an
 * error in seeing home moves all others together, and a line that need not pass through (0, 0) takes that up.
 */
export function readingsOfWays(record: PlayerRecord): WayReadings[] {
  const groups = new Map<string, { midi: number; direction: PlayingDirection | null; seen: Seen[] }>();
  for (const reading of record.readings) {
    if (!hasTravel(reading)) continue;
    const midi = midiOf(reading.note);
    const direction = reading.direction ?? null;
    const key = `${midi} ${direction ?? ''}`;
    const group = groups.get(key) ?? { midi, direction, seen: [] };
    group.seen.push(reading);
    groups.set(key, group);
  }
  const pooled = [...groups.values()];
  if (pooled.length === 0) return [];
  return branchesOf(pooled).map(({ direction, order }) => ({
    direction,
    notes: order.map((index) => place(pooled[index]!.midi, pooled[index]!.seen)),
  }));
}

/** A place's deviation along a direction, mm; the angle from straight up, + toward the right, radians. */
export function sdAlong({ sdMm, rightSdMm }: Pick<PlacedNote, 'sdMm' | 'rightSdMm'>, angle: number): number {
  return sdMm === rightSdMm ? sdMm : Math.hypot(sdMm * Math.cos(angle), rightSdMm * Math.sin(angle));
}

export const evidenceOf = (way: WayReadings): Evidence => ({
  notes: way.notes.length,
  readings: way.notes.reduce((sum, note) => sum + note.readings, 0),
});

type Seen = ReadingSpec & { readonly travel: NonNullable<ReadingSpec['travel']> };

const hasTravel = (reading: ReadingSpec): reading is Seen => reading.travel !== undefined;

function place(midi: number, seen: readonly Seen[]): PlacedNote {
  const mean = (value: 'upMm' | 'rightMm', sd: 'sdMm' | 'rightSdMm'): { value: number; sd: number } => {
    let weight = 0;
    let sum = 0;
    for (const reading of seen) {
      const each = 1 / Math.max(travelSds(reading)[sd], SMALLEST_SD_MM) ** 2;
      weight += each;
      sum += each * reading.travel[value];
    }
    return { value: sum / weight, sd: Math.sqrt(1 / weight) };
  };
  const [up, right] = [mean('upMm', 'sdMm'), mean('rightMm', 'rightSdMm')];
  return { note: seen[0]!.note, midi, upMm: up.value, rightMm: right.value, sdMm: up.sd, rightSdMm: right.sd, readings: seen.length };
}
