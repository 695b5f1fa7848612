/** A storage as the browser's small one, in memory. */
import type { NotesStorage } from '../../src/records/saved';

export function createNotesStorage(start: Readonly<Record<string, string>> = {}): NotesStorage {
  const kept = new Map(Object.entries(start));
  return {
    get length() {
      return kept.size;
    },
    key: (index) => [...kept.keys()][index] ?? null,
    getItem: (key) => kept.get(key) ?? null,
    setItem: (key, value) => void kept.set(key, value),
    removeItem: (key) => void kept.delete(key),
  };
}
