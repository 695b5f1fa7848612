/** The films that are kept in this browser, as the page shows them: read again after each change. */
import { type StoreApi, createStore } from 'zustand/vanilla';
import type { FilmEntry, FilmShelf } from '../records/filmShelf';

export interface KeptFilmsState {
  /** Those of other lessons and players among them. */
  readonly films: readonly FilmEntry[];
  readonly bytes: number;
  /** Why films could not be read or forgotten, in words; null: they could. */
  readonly message: string | null;
  refresh(): Promise<void>;
  /** A sentence where it could not be kept; null: it is. */
  put: (film: Pick<FilmEntry, 'measuring' | 'source' | 'name'>, blob: Blob) => Promise<string | null>;
  /** All of a measuring's. */
  forget(measuring: string): Promise<void>;
  forgetAll(): Promise<void>;
}

export type KeptFilmsStore = StoreApi<KeptFilmsState>;

export function createKeptFilms(shelf: Pick<FilmShelf, 'list' | 'put' | 'remove' | 'removeAll'>): KeptFilmsStore {
  return createStore<KeptFilmsState>()((set, get) => {
    const after = async (work: ReturnType<FilmShelf['remove']>): Promise<void> => {
      const answer = await work;
      await get().refresh();
      if (answer.kind === 'failed') set({ message: answer.message });
    };
    return {
      films: [],
      bytes: 0,
      message: null,
      refresh: async () => {
        const answer = await shelf.list();
        // A browser that keeps no films is no fault as long as nobody wants to keep one.
        if (answer.kind === 'films') set({ films: answer.films, bytes: answer.bytes, message: null });
      },
      put: async (film, blob) => {
        const answer = await shelf.put(film, blob);
        await get().refresh();
        return answer.kind === 'failed' ? answer.message : null;
      },
      forget: (measuring) => after(shelf.remove(measuring)),
      forgetAll: () => after(shelf.removeAll()),
    };
  });
}

/** The films of one measuring, by their place in it. */
export const filmsOf = (films: readonly FilmEntry[], measuringId: string): readonly FilmEntry[] => films.filter(({ measuring }) => measuring === measuringId);
