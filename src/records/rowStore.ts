/** The few things the shelf asks of whatever keeps its rows, and the one that keeps them in memory. */

export type StoreName = 'players' | 'unfinished' | 'page';

/** Inside one transaction nothing else may be waited for. */
export interface Rows {
  get(store: StoreName, key: string): Promise<unknown>;
  all(store: StoreName): Promise<readonly (readonly [key: string, value: unknown])[]>;
  put(store: StoreName, key: string, value: unknown): Promise<void>;
  delete(store: StoreName, key: string): Promise<void>;
}

export interface RowStore {
  /** All of `work` or nothing. Rejects with StoreError. */
  transact<T>(mode: 'readonly' | 'readwrite', work: (rows: Rows) => Promise<T>): Promise<T>;
  /** Sent off before this returns, for a page that may not live to see more; whether it arrived nobody learns. */
  putAtOnce(store: StoreName, key: string, value: unknown): void;
  close(): void;
}

/** Its message is for the reader: what is wrong and what to do. */
export class StoreError extends Error {
  override readonly name = 'StoreError';
}

export function createMemoryRows(): RowStore {
  let kept: ReadonlyMap<string, unknown> = new Map();
  let last: Promise<unknown> = Promise.resolve();
  const placeOf = (store: StoreName, key: string): string => `${store} ${key}`;
  const transact = async <T>(work: (rows: Rows) => Promise<T>): Promise<T> => {
    const next = new Map(kept);
    const answer = await work({
      get: (store, key) => Promise.resolve(next.get(placeOf(store, key))),
      all: (store) => {
        const start = placeOf(store, '');
        const inside = [...next].filter(([key]) => key.startsWith(start));
        // In the order in which a database would have them.
        return Promise.resolve(inside.map(([key, value]) => [key.slice(start.length), value] as const).sort(([a], [b]) => (a < b ? -1 : 1)));
      },
      put: (store, key, value) => Promise.resolve(void next.set(placeOf(store, key), value)),
      delete: (store, key) => Promise.resolve(void next.delete(placeOf(store, key))),
    });
    kept = next;
    return answer;
  };
  return {
    transact: (_mode, work) => {
      // One after the other, as a database would.
      const answer = last.then(() => transact(work));
      last = answer.catch(() => undefined);
      return answer;
    },
    // The page's memory ends with the page.
    putAtOnce: () => undefined,
    close: () => undefined,
  };
}
