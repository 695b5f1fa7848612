/** Between a kept player and what is analysed: one lesson looked at as a record, and a changed record put back. */
import type { LessonSpec, PlayerRecord, PlayerSpec, TryOutSpec } from './specs';

const records = new WeakMap<LessonSpec, { readonly player: PlayerSpec; readonly record: PlayerRecord }>();

/** The lesson with this id, or the last one. Throws RangeError for a player without lessons. */
export function lessonOf(player: PlayerSpec, lessonId: string): LessonSpec {
  const lesson = player.lessons.find(({ id }) => id === lessonId) ?? player.lessons.at(-1);
  if (lesson === undefined) throw new RangeError('lessons: none; allowed: at least one');
  return lesson;
}

/** A lesson as a record. The same object for as long as nothing that the record holds has changed. */
export function recordOf(player: PlayerSpec, lesson: LessonSpec): PlayerRecord {
  const known = records.get(lesson);
  if (known !== undefined && sameMouth(known.player, player)) return known.record;
  const { rim, force, home, upperLipShare, readings } = lesson;
  const record: PlayerRecord = {
    player: { label: player.label, instrument: player.instrument },
    arch: player.arch,
    rim,
    lips: player.lips,
    force,
    ...(home !== undefined && { home }),
    upperLipShare,
    readings,
  };
  records.set(lesson, { player, record });
  return record;
}

/** The player with this record in the lesson's place; the very same player where nothing differs. */
export function withRecord(player: PlayerSpec, lessonId: string, record: PlayerRecord): PlayerSpec {
  const lesson = lessonOf(player, lessonId);
  if (recordOf(player, lesson) === record) return player;
  const { rim, force, home, upperLipShare, readings } = record;
  const { home: _before, ...rest } = lesson;
  const next: LessonSpec = { ...rest, rim, force, ...(home !== undefined && { home }), upperLipShare, readings };
  const { label, instrument } = record.player;
  const changed = withLesson({ ...player, label, instrument, arch: record.arch, lips: record.lips }, next);
  // The next look at this lesson gives back the record that was put in, so that whoever holds it knows it again.
  records.set(next, { player: changed, record });
  return changed;
}

export function withLesson(player: PlayerSpec, lesson: LessonSpec): PlayerSpec {
  return { ...player, lessons: player.lessons.map((one) => (one.id === lesson.id ? lesson : one)) };
}

/** The player without this lesson; the very same one where it is the only one or there is none of that id. */
export function withoutLesson(player: PlayerSpec, lessonId: string): PlayerSpec {
  const lessons = player.lessons.filter(({ id }) => id !== lessonId);
  return lessons.length === 0 || lessons.length === player.lessons.length ? player : { ...player, lessons };
}

/** The try-out in its lesson: in the place of the one with its id, or after the others. */
export function withTryOut(player: PlayerSpec, lessonId: string, tryOut: TryOutSpec): PlayerSpec {
  const lesson = lessonOf(player, lessonId);
  const known = lesson.tryOuts.some(({ id }) => id === tryOut.id);
  const tryOuts = known ? lesson.tryOuts.map((one) => (one.id === tryOut.id ? tryOut : one)) : [...lesson.tryOuts, tryOut];
  return withLesson(player, { ...lesson, tryOuts });
}

export function withoutTryOut(player: PlayerSpec, lessonId: string, tryOutId: string): PlayerSpec {
  const lesson = lessonOf(player, lessonId);
  return withLesson(player, { ...lesson, tryOuts: lesson.tryOuts.filter(({ id }) => id !== tryOutId) });
}

function sameMouth(a: PlayerSpec, b: PlayerSpec): boolean {
  return a.arch === b.arch && a.lips === b.lips && a.label === b.label && a.instrument === b.instrument;
}
