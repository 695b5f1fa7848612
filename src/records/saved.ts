/** The browser's own small storage, and the one record that earlier versions of the page kept in it. */

export const SAVED_RECORD_KEY = 'rimpath.record.1';

/** The part of `Storage` that the record of earlier versions needs. */
export type RecordStorage = Pick<Storage, 'getItem' | 'removeItem'>;

/** The part of it that notes need, which are found by their keys. */
export type NotesStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

/** Forgets the kept record; silent where there is no storage, since then nothing is kept. */
export function forgetRecord(storage: RecordStorage | null = browserStorage()): void {
  try {
    storage?.removeItem(SAVED_RECORD_KEY);
  } catch {
    // A storage that cannot be reached holds nothing of ours.
  }
}

/** Null where there is none or where even asking for it throws (blocked by the browser's settings). */
export function browserStorage(): Storage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}
