/** Films kept with a lesson or a player are forgotten as soon as these are deleted: whoever deletes them does not mean to keep the film. */
import type { LessonSpec, PlayerSpec } from '../core/specs';
import type { FilmShelf } from '../records/filmShelf';
import type { Shelf } from '../records/shelfTypes';
import type { MeasuringKeeping } from './measuringKeeping';

export interface LeftFilmsParts {
  readonly films: Pick<FilmShelf, 'list' | 'remove'>;
  readonly shelf: Pick<Shelf, 'all'>;
  readonly measuringsInUse: MeasuringKeeping['measuringsInUse'];
  /** Who is on the page. */
  open(): PlayerSpec;
}

/** `unsure`: somebody who is kept cannot be read, so that nobody knows whether they need the films too, or the films cannot be reached. */
export type LeftFilms = 'forgotten' | 'none' | 'unsure';

/** `gone`: the measurings of what was deleted. What another player or lesson needs, such as a copy, stays. Never throws. */
export async function forgetLeftFilms(gone: Iterable<string>, { films, shelf, measuringsInUse, open }: LeftFilmsParts): Promise<LeftFilms> {
  const listed = await films.list();
  // A browser that keeps no films has none to forget.
  if (listed.kind === 'failed') return 'none';
  const left = new Set(gone);
  const own = new Set(listed.films.flatMap(({ measuring }) => (left.has(measuring) ? [measuring] : [])));
  if (own.size === 0) return 'none';
  const inUse = measuringsInUse(await shelf.all(), [open()]);
  if (inUse === null) return 'unsure';
  const free = [...own].filter((id) => !inUse.has(id));
  const answers = await Promise.all(free.map((id) => films.remove(id)));
  return answers.some(({ kind }) => kind === 'failed') ? 'unsure' : free.length > 0 ? 'forgotten' : 'none';
}

export const measuringsOf = (lessons: readonly LessonSpec[]): readonly string[] => lessons.flatMap(({ measurings = [] }) => measurings.map(({ id }) => id));

/** The measurings of lessons that the same player had and has no more; none where another player came onto the page. */
export function leftWith(before: PlayerSpec, now: PlayerSpec): readonly string[] {
  if (now.id !== before.id || now.lessons.length >= before.lessons.length) return [];
  const stay = new Set(now.lessons.map(({ id }) => id));
  return measuringsOf(before.lessons.filter(({ id }) => !stay.has(id)));
}
