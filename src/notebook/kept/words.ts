/** How lessons and days are called. */
import type { LessonSpec, PlayerSpec } from '../../core/specs';
import { counted } from '../../core/words';
import { dayWords } from '../../print/sheetText';

/** "Lesson 2, 1 March 2026": its place among the player's lessons, and its day where that was written down. */
export function lessonName(player: PlayerSpec, lesson: LessonSpec): string {
  const place = player.lessons.findIndex(({ id }) => id === lesson.id) + 1;
  return lesson.date === undefined ? `Lesson ${place}` : `Lesson ${place}, ${dayWords(lesson.date)}`;
}

/** "8 notes, travel seen at 6; 1 try-out". */
export function readingsWords({ readings, tryOuts }: LessonSpec): string {
  const notes = new Set(readings.map(({ note }) => note)).size;
  const seen = new Set(readings.filter(({ travel }) => travel !== undefined).map(({ note }) => note)).size;
  const tried = tryOuts.length === 0 ? '' : `; ${counted(tryOuts.length, 'try-out')}`;
  return `${counted(notes, 'note')}, travel seen at ${seen}${tried}`;
}
