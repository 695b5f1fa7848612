/** Films whose measuring is gone, with its lesson or player, are forgotten when a page has been opened and nobody can put it back. */
import type { PlayerSpec } from '../core/specs';
import type { FilmShelf } from '../records/filmShelf';
import type { Shelf } from '../records/shelfTypes';
import type { MeasuringKeeping } from './measuringKeeping';

export interface StrayFilmsParts {
  readonly films: Pick<FilmShelf, 'list' | 'forgetUnreferenced'>;
  readonly shelf: Pick<Shelf, 'all' | 'lasting'>;
  readonly measuringsInUse: MeasuringKeeping['measuringsInUse'];
  /** Those on the page and in its steps back and forward. */
  open(): readonly PlayerSpec[];
  /** A player was deleted here and can be put back, or films are open that may be kept in a moment. */
  mayComeBack(): boolean;
  /** Whether no other page of this program stands open in this browser, whose steps back nobody knows here. */
  isOnlyPage(): Promise<boolean>;
}

/** True where it was looked through; false where something spoke against it, and another time will do. Never throws. */
export async function forgetStrayFilms({ films, shelf, measuringsInUse, open, mayComeBack, isOnlyPage }: StrayFilmsParts): Promise<boolean> {
  // Players that are kept nowhere for long say nothing of whose films may go.
  if (!shelf.lasting || mayComeBack()) return false;
  const kept = await films.list();
  // Reading everybody is not worth it where there is nothing to forget.
  if (kept.kind === 'failed' || kept.films.length === 0) return false;
  if (!(await isOnlyPage())) return false;
  const inUse = measuringsInUse(await shelf.all(), open());
  if (inUse === null || mayComeBack()) return false;
  return (await films.forgetUnreferenced(inUse)).kind === 'forgotten';
}

/** The part of `navigator.locks` that is used. */
export interface PageLocks {
  request(name: string, options: { readonly mode: 'shared' }, held: () => Promise<void>): Promise<unknown>;
  query(): Promise<{ readonly held?: readonly { readonly name?: string }[] }>;
}

/** From now on other pages know that this one stands open. Answers whether it is the only one; without locks nobody knows, so it is not. */
export function createPages(locks: PageLocks | undefined): { isOnlyPage(): Promise<boolean> } {
  // Never let go: the browser frees it when the page ends, however it ends.
  locks?.request(PAGE, { mode: 'shared' }, () => new Promise(() => undefined)).catch(() => undefined);
  return {
    isOnlyPage: async () => {
      try {
        const held = (await locks?.query())?.held;
        return held !== undefined && held.filter(({ name }) => name === PAGE).length === 1;
      } catch {
        return false;
      }
    },
  };
}

/** With a prefix of our own: other pages of this origin have locks too. */
const PAGE = 'rimpath page';
