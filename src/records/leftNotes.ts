/**
 * What pages put down as they were left, in the browser's own small storage: it takes a text before the page goes on, whereas a
 * transaction that is begun in the last moment does not always arrive (in Chromium one of some twenty was missing after a reload).
 */
import type { NotesStorage } from './saved';

export interface LeftNotes {
  /** Silent where it cannot be put down: then it is in the store's own place, if it arrives there. */
  put(id: string, row: { readonly changedAt: number }): void;
  /** What was put down up to `at`, milliseconds since 1970, is kept now; what is newer stays. */
  forget(id: string, at: number): void;
  /** What cannot be read is left where it is. */
  all(): (readonly [id: string, row: unknown])[];
}

const PREFIX = 'rimpath.left.';

export function createLeftNotes(storage: NotesStorage | null): LeftNotes {
  const read = (id: string): unknown => {
    try {
      return JSON.parse(storage?.getItem(PREFIX + id) ?? 'null') as unknown;
    } catch {
      return null;
    }
  };
  return {
    put: (id, row) => {
      try {
        storage?.setItem(PREFIX + id, JSON.stringify(row));
      } catch {
        // Full or blocked.
      }
    },
    forget: (id, at) => {
      const row = read(id);
      if (!isRow(row) || row.changedAt > at) return;
      try {
        storage?.removeItem(PREFIX + id);
      } catch {
        // A storage that cannot be reached holds nothing of ours.
      }
    },
    all: () => {
      try {
        const ids = Array.from({ length: storage?.length ?? 0 }, (_, index) => storage?.key(index) ?? '').flatMap((key) =>
          key.startsWith(PREFIX) ? [key.slice(PREFIX.length)] : []);
        return ids.map((id) => [id, read(id)] as const).filter(([, row]) => isRow(row));
      } catch {
        return [];
      }
    },
  };
}

function isRow(row: unknown): row is { readonly changedAt: number } {
  return typeof row === 'object' && row !== null && typeof (row as { changedAt?: unknown }).changedAt === 'number';
}
