/** Which player and which lesson of a file are meant. Every refusal is one line: the option, its value, what is allowed. */
import type { LessonSpec, PlayerSpec } from '../core/specs';
import { oneLine, valueWords } from '../records/refusal';
import { sayCli } from '../words/cli';

export interface Wanted {
  /** A label or an id; absent, the file's one player. */
  readonly player?: string | undefined;
  /** A number from 1 or a day; absent, the last lesson. */
  readonly lesson?: string | undefined;
}

export type Chosen =
  | { readonly kind: 'chosen'; readonly player: PlayerSpec; readonly lesson: LessonSpec }
  | { readonly kind: 'refused'; readonly message: string };

export function chosenLesson(players: readonly PlayerSpec[], wanted: Wanted): Chosen {
  const named = players.filter((player) => wanted.player === undefined || player.id === wanted.player);
  const found = named.length > 0 ? named : players.filter(({ label }) => label === wanted.player);
  const [player] = found;
  if (player === undefined) return refused(sayCli('noPlayer', { value: valueWords(wanted.player), allowed: listed(players) }));
  if (found.length > 1) {
    const [count, allowed] = [found.length, listed(found)];
    return refused(wanted.player === undefined ? sayCli('playerMissing', { count, allowed }) : sayCli('playerTwice', { value: valueWords(wanted.player), count, allowed }));
  }
  return wanted.lesson === undefined ? lastLesson(player) : namedLesson(player, wanted.lesson);
}

/** More than this are counted, not listed. */
const LISTED = 8;

function listed(players: readonly PlayerSpec[]): string {
  const some = players.slice(0, LISTED).map(({ id, label }) => (label === '' ? id : `${id} (${label})`));
  return oneLine(sayCli('listed', { players: some.join(', '), more: players.length - some.length }));
}

function lastLesson(player: PlayerSpec): Chosen {
  const lesson = player.lessons.at(-1);
  return lesson === undefined ? refused(sayCli('noLesson')) : { kind: 'chosen', player, lesson };
}

function namedLesson(player: PlayerSpec, words: string): Chosen {
  const { lessons } = player;
  const none = (value: string): Chosen => {
    const hasDays = lessons.some(({ date }) => date !== undefined);
    return refused(sayCli(hasDays ? 'lessonNumberOrDay' : 'lessonNumber', { value, most: lessons.length }));
  };
  if (/^\d{1,4}$/.test(words)) {
    const lesson = lessons[Number(words) - 1];
    return lesson === undefined ? none(words) : { kind: 'chosen', player, lesson };
  }
  const found = lessons.filter(({ date }) => date === words);
  const [lesson] = found;
  if (lesson === undefined) return none(valueWords(words));
  if (found.length > 1) {
    const numbers = found.map((one) => lessons.indexOf(one) + 1).join(', ');
    return refused(sayCli('lessonDayTwice', { value: words, count: found.length, numbers }));
  }
  return { kind: 'chosen', player, lesson };
}

function refused(message: string): Chosen {
  return { kind: 'refused', message };
}
