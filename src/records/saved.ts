/** The one record that the page keeps in the browser's own storage, so that a reload finds it again. */
import type { PlayerRecord } from '../core/specs';
import { parseRecordText } from './schema';

/** The version is that of the record's format: another version is another key, and is left alone. */
export const SAVED_RECORD_KEY = 'rimpath.record.1';

/** The part of `Storage` that is used; the argument's default is the browser's localStorage. */
export type RecordStorage = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

export type LoadedRecord =
  | { readonly kind: 'record'; readonly record: PlayerRecord }
  | { readonly kind: 'none' }
  /** Something is kept there that is no record: it is left as it is until something is saved over it. */
  | { readonly kind: 'refused'; readonly message: string }
  | { readonly kind: 'unavailable'; readonly message: string };

export type SavedRecord = { readonly kind: 'saved' } | { readonly kind: 'not-saved'; readonly message: string };

export function loadRecord(storage: RecordStorage | null = browserStorage()): LoadedRecord {
  if (storage === null) return { kind: 'unavailable', message: UNAVAILABLE };
  let json: string | null;
  try {
    json = storage.getItem(SAVED_RECORD_KEY);
  } catch {
    return { kind: 'unavailable', message: UNAVAILABLE };
  }
  if (json === null) return { kind: 'none' };
  const parsed = parseRecordText(json);
  return parsed.kind === 'record'
    ? parsed
    : { kind: 'refused', message: `The record kept in this browser cannot be read: ${parsed.message}` };
}

export function saveRecord(record: PlayerRecord, storage: RecordStorage | null = browserStorage()): SavedRecord {
  if (storage === null) return { kind: 'not-saved', message: UNAVAILABLE };
  try {
    storage.setItem(SAVED_RECORD_KEY, JSON.stringify(record));
    return { kind: 'saved' };
  } catch (error) {
    const full = error instanceof Error && /quota/i.test(error.name);
    return { kind: 'not-saved', message: full ? FULL : UNAVAILABLE };
  }
}

/** Forgets the kept record; silent where there is no storage, since then nothing is kept. */
export function forgetRecord(storage: RecordStorage | null = browserStorage()): void {
  try {
    storage?.removeItem(SAVED_RECORD_KEY);
  } catch {
    // A storage that cannot be reached holds nothing of ours.
  }
}

const UNAVAILABLE = 'This browser does not let the page keep anything, so the record will be gone after a reload.';
const FULL = 'The browser’s storage for this page is full, so the last changes will be gone after a reload.';

/** Null where there is none or where even asking for it throws (blocked by the browser's settings). */
function browserStorage(): RecordStorage | null {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
}
