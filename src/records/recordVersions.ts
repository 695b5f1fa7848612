/**
 * Which version of the record file players need, and what an older one is read as. 2 knows no measurings; 3 knows no method of its own for
 * pictures, and no measuring that names the note its travel counts from. Version 1: record1.ts.
 */
import type { KeptMeasuring, LessonSpec, PlayerSpec, ReadingSpec } from '../core/specs';
import { sayRecords } from '../words/records';

/** The newest. */
export const RECORD_VERSION = 4;
export const MEASURED_VERSION = 3;
/** Without kept measurings. */
export const PLAIN_VERSION = 2;
export type WrittenVersion = typeof PLAIN_VERSION | typeof MEASURED_VERSION | typeof RECORD_VERSION;

/**
 * The lowest version that says it all: an older program goes on reading players who were never measured so, and refuses the others by
 * version. Pictures ask for the newest also where a person changed the method by hand, which reading an older file would change back.
 */
export function versionFor(players: readonly PlayerSpec[]): WrittenVersion {
  if (players.some(({ lessons }) => lessons.some((lesson) => needsNewest(lesson) || (lesson.measurings ?? []).some(isOfPictures)))) return RECORD_VERSION;
  return players.some(isMeasured) ? MEASURED_VERSION : PLAIN_VERSION;
}

/** What a file that calls itself `version` may not hold: what is allowed instead; null where it holds nothing of the kind. */
export function beyondVersion(players: readonly PlayerSpec[], version: WrittenVersion): string | null {
  if (version === PLAIN_VERSION && players.some(isMeasured)) return sayRecords('measuredVersion', { measured: MEASURED_VERSION });
  if (version !== RECORD_VERSION && players.some(({ lessons }) => lessons.some(needsNewest))) {
    return sayRecords('pictureVersion', { newest: RECORD_VERSION });
  }
  return null;
}

/** Up to version 3 readings from pictures called themselves "video", for want of a word. The very same player where there is none. */
export function withPictureMethod(player: PlayerSpec): PlayerSpec {
  const lessons = player.lessons.map(lessonWithPictureMethod);
  return lessons.every((lesson, index) => lesson === player.lessons[index]) ? player : { ...player, lessons };
}

function lessonWithPictureMethod(lesson: LessonSpec): LessonSpec {
  const pictures = new Set((lesson.measurings ?? []).filter(isOfPictures).map(({ id }) => id));
  const isMisnamed = ({ method, from }: ReadingSpec): boolean => method === 'video' && from !== undefined && pictures.has(from.measuring);
  const renamed = (readings: readonly ReadingSpec[]): readonly ReadingSpec[] => readings.map((one) => (isMisnamed(one) ? { ...one, method: 'picture' } : one));
  if (!readingsOf(lesson).some(isMisnamed)) return lesson;
  return { ...lesson, readings: renamed(lesson.readings), tryOuts: lesson.tryOuts.map((tryOut) => ({ ...tryOut, readings: renamed(tryOut.readings) })) };
}

const readingsOf = ({ readings, tryOuts }: LessonSpec): readonly ReadingSpec[] => [readings, ...tryOuts.map((tryOut) => tryOut.readings)].flat();

const isMeasured = ({ lessons }: PlayerSpec): boolean =>
  lessons.some((lesson) => lesson.measurings !== undefined || readingsOf(lesson).some(({ from }) => from !== undefined));

const needsNewest = (lesson: LessonSpec): boolean => readingsOf(lesson).some(({ method }) => method === 'picture') || (lesson.measurings ?? []).some((one) => 'home' in one);

const isOfPictures = (measuring: KeptMeasuring): boolean => 'kind' in measuring && measuring.kind === 'pictures';
