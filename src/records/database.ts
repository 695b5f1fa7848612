/** The one owner of IndexedDB: opens the page's database, brings it up to date and runs transactions on it. */
import { type IDBPDatabase, wrap } from 'idb';
import { type RowStore, type Rows, type StoreName, StoreError } from './rowStore';
import { CANNOT_KEEP, MISSING, NEWER_DATABASE, NO_ANSWER, OTHER_TAB_OLD, TAKEN_BY_NEWER, failureWords } from './shelfWords';

export const DATABASE_NAME = 'rimpath';

/** Step n brings a database of version n to n + 1. Steps are added, never changed: somebody's database stands at each of them. */
const UPGRADES: readonly ((database: IDBDatabase) => void)[] = [
  (database) => {
    for (const name of STORES) database.createObjectStore(name);
  },
];
export const DATABASE_VERSION = UPGRADES.length;

const STORES: readonly StoreName[] = ['players', 'unfinished', 'page'];

/** A store that has not answered by then is taken for one that does not; milliseconds. A slow disk takes some hundreds. */
const OPEN_WITHIN_MS = 4000;

export interface Timers {
  setTimeout(work: () => void, ms: number): unknown;
  clearTimeout(timer: never): void;
}

/** Rejects with StoreError, and never keeps anybody waiting. A database made by a newer program is left as it is. */
export async function openDatabase(factory: IDBFactory | undefined, timers: Timers): Promise<RowStore> {
  if (factory === undefined) throw new StoreError(MISSING);
  let gone: string | null = null;
  let database: IDBPDatabase | null = null;
  const connect = async (): Promise<IDBPDatabase> => {
    const opened = await connected(factory, timers);
    // A newer page in another tab must not wait for this one.
    opened.addEventListener('versionchange', () => {
      gone = TAKEN_BY_NEWER;
      opened.close();
    });
    opened.addEventListener('close', () => {
      if (database === opened) database = null;
    });
    database = opened;
    return opened;
  };
  await connect();

  const attempt = async <T>(mode: IDBTransactionMode, work: (rows: Rows) => Promise<T>): Promise<T> => {
    if (gone !== null) throw new StoreError(gone);
    return runOn(database ?? (await connect()), mode, work);
  };
  return {
    transact: async (mode, work) => {
      try {
        return await attempt(mode, work).catch((error: unknown) => {
          // The browser closed the database by itself; what it no longer holds is opened once more.
          if (gone !== null || !isClosed(error)) throw error;
          database = null;
          return attempt(mode, work);
        });
      } catch (error) {
        throw gone === null && error instanceof StoreError ? error : new StoreError(gone ?? failureWords(error));
      }
    },
    putAtOnce: (store, key, value) => {
      try {
        const transaction = database?.transaction(store, 'readwrite');
        transaction?.done.catch(() => undefined);
        transaction?.objectStore(store).put?.(value, key).catch(() => undefined);
        transaction?.commit();
      } catch {
        // The page is being left: there is nobody to tell, and a usual save was begun beside this.
      }
    },
    close: () => {
      gone = CANNOT_KEEP;
      database?.close();
    },
  };
}

function connected(factory: IDBFactory, timers: Timers): Promise<IDBPDatabase> {
  return new Promise((resolve, reject) => {
    let late = false;
    let words = NO_ANSWER;
    let request: IDBOpenDBRequest;
    try {
      request = factory.open(DATABASE_NAME, DATABASE_VERSION);
    } catch {
      reject(new StoreError(CANNOT_KEEP));
      return;
    }
    const timer = timers.setTimeout(() => {
      late = true;
      reject(new StoreError(words));
    }, OPEN_WITHIN_MS);
    request.onblocked = () => {
      words = OTHER_TAB_OLD;
    };
    request.onupgradeneeded = ({ oldVersion }) => {
      if (late) request.transaction?.abort();
      else for (const upgrade of UPGRADES.slice(oldVersion)) upgrade(request.result);
    };
    request.onerror = () => {
      timers.clearTimeout(timer as never);
      const { error } = request;
      reject(new StoreError(error?.name === 'VersionError' ? NEWER_DATABASE : error?.name === 'QuotaExceededError' ? failureWords(error) : CANNOT_KEEP));
    };
    request.onsuccess = () => {
      timers.clearTimeout(timer as never);
      const complete = STORES.every((name) => request.result.objectStoreNames.contains(name));
      if (late || !complete) {
        request.result.close();
        reject(new StoreError(CANNOT_KEEP));
      } else resolve(wrap(request.result));
    };
  });
}

async function runOn<T>(database: IDBPDatabase, mode: IDBTransactionMode, work: (rows: Rows) => Promise<T>): Promise<T> {
  // Strict: kept means that it outlasts a power cut, not only a closed tab.
  const transaction = database.transaction([...STORES], mode, { durability: 'strict' });
  const done = transaction.done;
  // Heard below as well; without this a failed request would count as unheard.
  done.catch(() => undefined);
  const rows: Rows = {
    get: (store, key) => transaction.objectStore(store).get(key),
    all: async (store) => {
      const source = transaction.objectStore(store);
      const [keys, values] = await Promise.all([source.getAllKeys(), source.getAll()]);
      return keys.map((key, index) => [typeof key === 'string' ? key : JSON.stringify(key), values[index] as unknown] as const);
    },
    put: async (store, key, value) => void (await transaction.objectStore(store).put?.(value, key)),
    delete: async (store, key) => void (await transaction.objectStore(store).delete?.(key)),
  };
  let answer: T;
  try {
    answer = await work(rows);
  } catch (error) {
    // What the browser gave up by itself cannot be given up again.
    try {
      transaction.abort();
    } catch {
      // Already aborted.
    }
    throw error;
  }
  await done;
  return answer;
}

function isClosed(error: unknown): boolean {
  return error instanceof Error && (error.name === 'InvalidStateError' || error.name === 'UnknownError');
}
