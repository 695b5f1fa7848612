/** The players' database: opened when the page is, and transactions on it. */
import type { IDBPDatabase } from 'idb';
import { type DatabasePlan, NotOpenedError, type Timers, connect, isClosed } from './connection';
import { type RowStore, type Rows, type StoreName, StoreError } from './rowStore';
import { sayKeeping } from '../words/keeping';
import { failureWords, notOpenedWords } from './shelfWords';

export const DATABASE_NAME = 'rimpath';

const UPGRADES: readonly ((database: IDBDatabase) => void)[] = [
  (database) => {
    for (const name of STORES) database.createObjectStore(name);
  },
];
export const DATABASE_VERSION = UPGRADES.length;

const STORES: readonly StoreName[] = ['players', 'unfinished', 'page'];

const PLAN: DatabasePlan = { name: DATABASE_NAME, upgrades: UPGRADES, stores: STORES };

/** Rejects with StoreError, and never keeps anybody waiting. A database made by a newer program is left as it is. */
export async function openDatabase(factory: IDBFactory | undefined, timers: Timers): Promise<RowStore> {
  if (factory === undefined) throw new StoreError(sayKeeping('missing'));
  let gone: string | null = null;
  let database: IDBPDatabase | null = null;
  const open = async (): Promise<IDBPDatabase> => {
    const next = await opened(factory, timers);
    // A newer page in another tab must not wait for this one.
    next.addEventListener('versionchange', () => {
      gone = sayKeeping('takenByNewer');
      next.close();
    });
    next.addEventListener('close', () => {
      if (database === next) database = null;
    });
    database = next;
    return next;
  };
  await open();

  const attempt = async <T>(mode: IDBTransactionMode, work: (rows: Rows) => Promise<T>): Promise<T> => {
    if (gone !== null) throw new StoreError(gone);
    return runOn(database ?? (await open()), mode, work);
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
      gone = sayKeeping('cannotKeep');
      database?.close();
    },
  };
}

async function opened(factory: IDBFactory, timers: Timers): Promise<IDBPDatabase> {
  try {
    return await connect(factory, timers, PLAN);
  } catch (error) {
    throw new StoreError(error instanceof NotOpenedError ? notOpenedWords(error.why) : sayKeeping('cannotKeep'));
  }
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
