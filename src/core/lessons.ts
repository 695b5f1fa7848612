/** Between a kept player and what is analysed: one lesson looked at as a record, and a changed record put back. */
import type { KeptMeasuring, LessonSpec, PlayerRecord, PlayerSpec, ReadingSpec, TryOutSpec } from './specs';

interface Known {
  readonly player: PlayerSpec;
  readonly lesson: LessonSpec;
  readonly record: PlayerRecord;
}

const records = new WeakMap<LessonSpec, Known>();
/** The last look at each list of readings: a lesson changed in what no record holds keeps its list, and so its record. */
const byReadings = new WeakMap<readonly ReadingSpec[], Known>();

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
  const alike = byReadings.get(lesson.readings);
  if (alike !== undefined && sameMouth(alike.player, player) && sameSeen(alike.lesson, lesson)) {
    remember({ player, lesson, record: alike.record });
    return alike.record;
  }
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
  remember({ player, lesson, record });
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
  remember({ player: changed, lesson: next, record });
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

/** The measuring in its lesson: in the place of the one with its id, or after the others. Readings stay as they are. */
export function withMeasuring(player: PlayerSpec, lessonId: string, measuring: KeptMeasuring): PlayerSpec {
  const lesson = lessonOf(player, lessonId);
  const before = lesson.measurings ?? [];
  const known = before.some(({ id }) => id === measuring.id);
  const measurings = known ? before.map((one) => (one.id === measuring.id ? measuring : one)) : [...before, measuring];
  return withLesson(player, { ...lesson, measurings });
}

/**
 * Under which id a measuring goes into a lesson: the wished one, or one of its own where another lesson of the player has that already
 * (the same films, accepted in both). An id stands once within a player, or the player could not be kept.
 */
export function measuringIdIn({ lessons }: PlayerSpec, lessonId: string, wished: string, newId: () => string): string {
  const isTaken = lessons.some(({ id, measurings = [] }) => id !== lessonId && measurings.some((one) => one.id === wished));
  return isTaken ? newId() : wished;
}

/**
 * The player without this measuring; the very same one where there is none of that id. Its readings stay, and what they came from is
 * not found any more.
 */
export function withoutMeasuring(player: PlayerSpec, lessonId: string, measuringId: string): PlayerSpec {
  const lesson = lessonOf(player, lessonId);
  const { measurings: before = [], ...rest } = lesson;
  const measurings = before.filter(({ id }) => id !== measuringId);
  if (measurings.length === before.length) return player;
  return withLesson(player, { ...rest, ...(measurings.length > 0 && { measurings }) });
}

function remember(known: Known): void {
  records.set(known.lesson, known);
  byReadings.set(known.lesson.readings, known);
}

/** Whether the two lessons hold the very same parts of a record. */
function sameSeen(a: LessonSpec, b: LessonSpec): boolean {
  return a.readings === b.readings && a.rim === b.rim && a.force === b.force && a.home === b.home && a.upperLipShare === b.upperLipShare;
}

function sameMouth(a: PlayerSpec, b: PlayerSpec): boolean {
  return a.arch === b.arch && a.lips === b.lips && a.label === b.label && a.instrument === b.instrument;
}
