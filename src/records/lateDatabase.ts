/** A database that is opened with the first question, since most pages never ask one. */
import type { IDBPDatabase } from 'idb';
import { type DatabasePlan, type Timers, connect, isClosed } from './connection';

/** There is nothing in this browser that keeps anything. */
export class NoStoreError extends Error {
  override readonly name = 'NoStoreError';
}

export interface LateDatabase {
  /** Once more where the browser has closed the database meanwhile. Throws NoStoreError, NotOpenedError, or what `work` throws. */
  within<T>(work: (database: IDBPDatabase) => Promise<T>): Promise<T>;
  /** Asked again, it opens once more. */
  close(): void;
}

export function createLateDatabase(factory: IDBFactory | undefined, timers: Timers, plan: DatabasePlan): LateDatabase {
  let opening: Promise<IDBPDatabase> | null = null;
  const leave = (database: IDBPDatabase): void => {
    opening = null;
    database.close();
  };
  const open = async (): Promise<IDBPDatabase> => {
    if (factory === undefined) throw new NoStoreError();
    opening ??= connect(factory, timers, plan).then(
      (database) => {
        // Another tab's newer page must not wait for this one, nor hold on to what the browser has closed.
        database.addEventListener('versionchange', () => leave(database));
        database.addEventListener('close', () => leave(database));
        return database;
      },
      (error: unknown) => {
        opening = null;
        throw error;
      },
    );
    return opening;
  };
  return {
    within: async (work) => {
      const database = await open();
      try {
        return await work(database);
      } catch (error) {
        if (!isClosed(error)) throw error;
        leave(database);
        return work(await open());
      }
    },
    close: () => {
      void opening?.then((database) => database.close(), () => undefined);
      opening = null;
    },
  };
}
