/** What a teacher begins with: a new player, and the next lesson of one who has been before. Nobody has seen anything yet. */
import type { LessonSpec, PlayerSpec, ReadingSpec } from '../core/specs';
import { sayKeeping } from '../words/keeping';
import { arches, defaultRim, instrumentById, instruments } from './library';

/** What lips, force and share a player has before anyone has looked: our judgement, no published source. */
const STARTING_LIPS: PlayerSpec['lips'] = {
  upper: { thicknessMm: 12, effectiveModulusKPa: 200 },
  lower: { thicknessMm: 13, effectiveModulusKPa: 200 },
  law: 'stiffening',
};
const STARTING_FORCE_N = 20;
const STARTING_SHARE = 0.6;

export interface NewPlayer {
  readonly id: string;
  readonly lessonId: string;
  /** The day of the first lesson, as in 2026-03-01; absent where it is not to be said. */
  readonly date?: string | undefined;
}

/** A new player: the instrument's rim and notes, the average arch, nothing seen. Throws on an unknown instrument. */
export function defaultPlayer(instrumentId: string, { id, lessonId, date }: NewPlayer): PlayerSpec {
  const instrument = instrumentById(instrumentId);
  const [average] = arches;
  if (instrument === undefined || average === undefined) {
    throw new RangeError(`defaultPlayer: instrument ${JSON.stringify(instrumentId)}; allowed: ${instruments.map((one) => one.id).join(', ')}`);
  }
  const homeNote = instrument.defaultNotes[Math.floor((instrument.defaultNotes.length - 1) / 2)];
  return {
    id,
    label: sayKeeping('newPlayer'),
    instrument: instrument.id,
    arch: average.arch,
    lips: STARTING_LIPS,
    lessons: [
      {
        id: lessonId,
        ...(date !== undefined && { date }),
        rim: defaultRim(instrument).rim,
        force: { newtons: STARTING_FORCE_N },
        home: { note: homeNote },
        upperLipShare: { value: STARTING_SHARE, by: 'diameter' },
        readings: instrument.defaultNotes.map((note) => ({ note })),
        tryOuts: [],
      },
    ],
  };
}

/**
 * The player with a lesson more, on the day given: rim, force, home, share and notes are those of the last lesson, without
 * anything seen. Throws RangeError for an id that the player has already and for a player without lessons.
 */
export function newLesson(player: PlayerSpec, id: string, date: string): PlayerSpec {
  const last = player.lessons.at(-1);
  if (last === undefined) throw new RangeError('lessons: none; allowed: at least one');
  if (player.lessons.some((lesson) => [lesson, ...lesson.tryOuts, ...(lesson.measurings ?? [])].some((one) => one.id === id))) {
    throw new RangeError(`id: ${JSON.stringify(id)}; allowed: one that this player does not have yet`);
  }
  const { rim, force, home, upperLipShare } = last;
  const lesson: LessonSpec = {
    id,
    date,
    rim,
    force,
    ...(home !== undefined && { home }),
    upperLipShare,
    readings: unseenNotes(last.readings),
    tryOuts: [],
  };
  return { ...player, lessons: [...player.lessons, lesson] };
}

/** Each note once for each way it was played, in the order of the readings. */
export function unseenNotes(readings: readonly ReadingSpec[]): ReadingSpec[] {
  const seen = new Set<string>();
  return readings.flatMap(({ note, direction }) => {
    const key = `${note} ${direction ?? ''}`;
    if (seen.has(key)) return [];
    seen.add(key);
    return [{ note, ...(direction !== undefined && { direction }) }];
  });
}
