/** The invented players as records that are analysed: all of their travel was seen. */
import type { Opened } from '../../src/app/store';
import type { LessonSpec, PlayerRecord, PlayerSpec, ReadingSpec, TravelSpec } from '../../src/core/specs';
import { demoPlayers as kept } from '../../src/records/library';

export type SeenReading = ReadingSpec & { readonly travel: TravelSpec };
export type SeenRecord = Omit<PlayerRecord, 'readings'> & { readonly readings: readonly SeenReading[] };

export const demoPlayers: readonly { readonly id: string; readonly name: string; readonly source: string; readonly record: SeenRecord }[] = kept.map(
  ({ id, name, source, record }) => ({ id, name, source, record: seen(record) }),
);

/** Throws where a reading has no travel. */
export function seen(record: PlayerRecord): SeenRecord {
  return {
    ...record,
    readings: record.readings.map((reading) => {
      if (reading.travel === undefined) throw new RangeError(`readings: ${reading.note} without travel; allowed: only seen ones`);
      return { ...reading, travel: reading.travel };
    }),
  };
}

/** A record as the one lesson of a player, opened on the page. */
export function openedOf({ player, arch, lips, ...rest }: PlayerRecord): Opened {
  const lesson: LessonSpec = { id: 'lesson-1', ...rest, tryOuts: [] };
  const spec: PlayerSpec = { id: 'player-1', ...player, arch, lips, lessons: [lesson] };
  return { player: spec, lessonId: lesson.id };
}
