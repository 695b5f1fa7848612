/** How lessons and days are called. */
import type { LessonSpec, PlayerSpec } from '../../core/specs';
import { dayWords } from '../../words/days';
import { sayKept } from '../../words/kept';

/** "Lesson 2, 1 March 2026": its place among the player's lessons, and its day where that was written down. */
export function lessonName(player: PlayerSpec, lesson: LessonSpec): string {
  const place = player.lessons.findIndex(({ id }) => id === lesson.id) + 1;
  return lesson.date === undefined ? sayKept('lesson', { place }) : sayKept('lessonDay', { place, day: dayWords(lesson.date) });
}

/** "8 notes, travel seen at 6; 1 try-out". */
export function readingsWords({ readings, tryOuts }: Pick<LessonSpec, 'readings' | 'tryOuts'>): string {
  const notes = new Set(readings.map(({ note }) => note)).size;
  const seen = new Set(readings.filter(({ travel }) => travel !== undefined).map(({ note }) => note)).size;
  return sayKept('seenIn', { notes, seen, tried: tryOuts.length });
}
