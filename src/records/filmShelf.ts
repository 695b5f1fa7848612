/**
 * Films and pictures, kept only where the person asks for it: in a database of their own, so that forgetting them touches no player and
 * a full store stops no lesson from being saved. Nothing here throws: what went wrong is an answer with words for the reader.
 */
import type { IDBPDatabase } from 'idb';
import { type DatabasePlan, NotOpenedError, type Timers } from './connection';
import { filmFailureWords, filmsNotOpenedWords, noFilmStoreWords } from './filmWords';
import { NoStoreError, createLateDatabase } from './lateDatabase';

/** One film or picture: `source` is its place among the measuring's sources, from 0. */
export interface FilmEntry {
  readonly measuring: string;
  readonly source: number;
  /** Name of the file, for people. */
  readonly name: string;
  readonly bytes: number;
}

export interface FilmFailed {
  readonly kind: 'failed';
  readonly message: string;
}

export type FilmGot = (FilmEntry & { readonly kind: 'film'; readonly blob: Blob }) | { readonly kind: 'none' } | FilmFailed;
export type FilmList = { readonly kind: 'films'; readonly films: readonly FilmEntry[]; readonly bytes: number } | FilmFailed;
/** What was forgotten: how many films, and how much room they took. */
export type FilmsForgotten = { readonly kind: 'forgotten'; readonly films: number; readonly bytes: number } | FilmFailed;

export interface FilmShelf {
  /** In the place of what is kept under the same measuring and source. All of it or nothing. */
  put(film: Pick<FilmEntry, 'measuring' | 'source' | 'name'>, blob: Blob): Promise<{ readonly kind: 'kept' } | FilmFailed>;
  get(measuring: string, source: number): Promise<FilmGot>;
  /** Without the films themselves; by measuring and source. */
  list(): Promise<FilmList>;
  /** One of a measuring's films or, without `source`, all of them. Copies of a player share their measurings' names, and so their films. */
  remove(measuring: string, source?: number): Promise<FilmsForgotten>;
  removeAll(): Promise<FilmsForgotten>;
  /**
   * Forgets the films of measurings that are not among these: those of every kept player and of all that can still be undone or put
   * back (`measuringsInUse`). Easiest asked when a page has just been opened, since then nothing can. A film should be put only when
   * its measuring is kept, or another tab may take it for one that nobody needs.
   */
  forgetUnreferenced(idsInUse: ReadonlySet<string>): Promise<FilmsForgotten>;
  close(): void;
}

export interface FilmSurroundings {
  readonly factory: IDBFactory | undefined;
  readonly timers: Timers;
}

export const FILMS_DATABASE_NAME = 'rimpath-films';
const STORE = 'films';
const PLAN: DatabasePlan = {
  name: FILMS_DATABASE_NAME,
  upgrades: [(database) => void database.createObjectStore(STORE)],
  stores: [STORE],
};

export function createFilmShelf({ factory, timers }: FilmSurroundings = browserSurroundings()): FilmShelf {
  const database = createLateDatabase(factory, timers, PLAN);
  const answered = async <T>(mode: IDBTransactionMode, work: (store: Films) => Promise<T>): Promise<T | FilmFailed> => {
    try {
      return await database.within((opened) => runOn(opened, mode, work));
    } catch (error) {
      return { kind: 'failed', message: wordsOf(error) };
    }
  };
  /** A row that cannot be read is known by its key alone. */
  const forget = (isForgotten: (film: FilmEntry | null, key: IDBValidKey) => boolean): Promise<FilmsForgotten> =>
    answered('readwrite', async (store) => {
      const gone = (await store.all()).filter(({ film, key }) => isForgotten(film, key));
      for (const { key } of gone) await store.delete(key);
      const films = gone.flatMap(({ film }) => film ?? []);
      return { kind: 'forgotten', films: films.length, bytes: bytesOf(films) };
    });
  return {
    put: ({ measuring, source, name }, blob) =>
      answered('readwrite', async (store) => {
        await store.put(keyOf(measuring, source), { measuring, source, name, bytes: blob.size, blob });
        return { kind: 'kept' };
      }),
    get: (measuring, source) =>
      answered('readonly', async (store): Promise<FilmGot> => {
        const row = await store.get(keyOf(measuring, source));
        return isRow(row) ? { kind: 'film', ...row } : { kind: 'none' };
      }),
    list: () =>
      answered('readonly', async (store): Promise<FilmList> => {
        const films = (await store.all()).flatMap(({ film }) => film ?? []);
        return { kind: 'films', films, bytes: bytesOf(films) };
      }),
    remove: (measuring, source) =>
      forget((_, key) => Array.isArray(key) && key[0] === measuring && (source === undefined || key[1] === source)),
    removeAll: () => forget(() => true),
    forgetUnreferenced: (idsInUse) => forget((film) => film === null || !idsInUse.has(film.measuring)),
    close: database.close,
  };
}

interface Films {
  get(key: IDBValidKey): Promise<unknown>;
  /** `film` is null where something else stands there, which only another program can have put. */
  all(): Promise<readonly { readonly key: IDBValidKey; readonly film: FilmEntry | null }[]>;
  put(key: IDBValidKey, row: FilmRow): Promise<void>;
  delete(key: IDBValidKey): Promise<void>;
}

/** The browser keeps a blob beside its row and reads it only when somebody reads it. */
type FilmRow = FilmEntry & { readonly blob: Blob };

const keyOf = (measuring: string, source: number): IDBValidKey => [measuring, source];

async function runOn<T>(database: IDBPDatabase, mode: IDBTransactionMode, work: (store: Films) => Promise<T>): Promise<T> {
  const transaction = database.transaction(STORE, mode);
  const { done } = transaction;
  // Heard below as well; without this a failed request would count as unheard.
  done.catch(() => undefined);
  const { store } = transaction;
  try {
    const answer = await work({
      get: (key) => store.get(key),
      all: async () => {
        const [keys, rows] = await Promise.all([store.getAllKeys(), store.getAll() as Promise<unknown[]>]);
        return keys.map((key, at) => ({ key, film: entryOf(rows[at]) }));
      },
      put: async (key, row) => void (await store.put?.(row, key)),
      delete: async (key) => void (await store.delete?.(key)),
    });
    // A store that is full says so only now.
    await done;
    return answer;
  } catch (error) {
    try {
      transaction.abort();
    } catch {
      // Already aborted.
    }
    throw error;
  }
}

function isRow(row: unknown): row is FilmRow {
  const { measuring, source, name, bytes, blob } = (typeof row === 'object' && row !== null ? row : {}) as Partial<Record<keyof FilmRow, unknown>>;
  return typeof measuring === 'string' && typeof source === 'number' && typeof name === 'string' && typeof bytes === 'number' && blob instanceof Blob;
}

function entryOf(row: unknown): FilmEntry | null {
  if (!isRow(row)) return null;
  const { measuring, source, name, bytes } = row;
  return { measuring, source, name, bytes };
}

const bytesOf = (films: readonly FilmEntry[]): number => films.reduce((sum, { bytes }) => sum + bytes, 0);

function wordsOf(error: unknown): string {
  if (error instanceof NoStoreError) return noFilmStoreWords();
  return error instanceof NotOpenedError ? filmsNotOpenedWords(error.why) : filmFailureWords(error);
}

function browserSurroundings(): FilmSurroundings {
  return { factory: browserFactory(), timers: globalThis };
}

/** Some browsers throw even when asked whether they have one. */
function browserFactory(): IDBFactory | undefined {
  try {
    return globalThis.indexedDB ?? undefined;
  } catch {
    return undefined;
  }
}
