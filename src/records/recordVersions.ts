/**
 * Which version of the record file players need, and what an older one is read as. 2 knows no measurings; 3 knows no method of its own for
 * pictures, and no measuring that names the note its travel counts from; 4 knows one deviation of a travel, and no arch that was measured or
 * scanned. Version 1: record1.ts.
 */
import type { KeptMeasuring, LessonSpec, PlayerSpec, ReadingSpec } from '../core/specs';
import { sayRecords } from '../words/records';

/** The newest: a travel's deviations up and to the right, an arch that was measured or scanned. */
export const RECORD_VERSION = 5;
/** Pictures as a method of their own. */
export const PICTURE_VERSION = 4;
export const MEASURED_VERSION = 3;
/** Without kept measurings. */
export const PLAIN_VERSION = 2;
export const WRITTEN_VERSIONS = [PLAIN_VERSION, MEASURED_VERSION, PICTURE_VERSION, RECORD_VERSION] as const;
export type WrittenVersion = (typeof WRITTEN_VERSIONS)[number];

/**
 * The lowest version that says it all: an older program goes on reading players who were never measured so, and refuses the others by
 * version. Pictures ask for theirs also where a person changed the method by hand, which reading an older file would change back.
 */
export function versionFor(players: readonly PlayerSpec[]): WrittenVersion {
  if (players.some(hasTravelSds) || players.some(isOfOwnArch)) return RECORD_VERSION;
  if (players.some(({ lessons }) => lessons.some((lesson) => needsPictures(lesson) || (lesson.measurings ?? []).some(isOfPictures)))) return PICTURE_VERSION;
  return players.some(isMeasured) ? MEASURED_VERSION : PLAIN_VERSION;
}

/** What a file that calls itself `version` may not hold: what is allowed instead; null where it holds nothing of the kind. */
export function beyondVersion(players: readonly PlayerSpec[], version: WrittenVersion): string | null {
  if (version < MEASURED_VERSION && players.some(isMeasured)) return sayRecords('measuredVersion', { measured: MEASURED_VERSION });
  if (version < PICTURE_VERSION && players.some(({ lessons }) => lessons.some(needsPictures))) return sayRecords('pictureVersion', { picture: PICTURE_VERSION });
  if (version < RECORD_VERSION && players.some(hasTravelSds)) return sayRecords('travelSdsVersion', { newest: RECORD_VERSION });
  if (version < RECORD_VERSION && players.some(isOfOwnArch)) return sayRecords('ownArchVersion', { newest: RECORD_VERSION });
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

const needsPictures = (lesson: LessonSpec): boolean => readingsOf(lesson).some(({ method }) => method === 'picture') || (lesson.measurings ?? []).some((one) => 'home' in one);

const hasTravelSds = ({ lessons }: PlayerSpec): boolean =>
  lessons.some((lesson) => readingsOf(lesson).some(hasTwoSds) || (lesson.measurings ?? []).some((one) => 'accepted' in one && (one.accepted as readonly Pick<ReadingSpec, 'travel'>[]).some(hasTwoSds)));

const hasTwoSds = ({ travel }: Pick<ReadingSpec, 'travel'>): boolean => travel?.rightSdMm !== undefined;
const isOfOwnArch = ({ arch }: PlayerSpec): boolean => 'measured' in arch || 'scanned' in arch;

const isOfPictures = (measuring: KeptMeasuring): boolean => 'kind' in measuring && measuring.kind === 'pictures';
