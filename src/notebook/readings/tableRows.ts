/**
 * The rows of the table: which row a reading is, and what was typed or pasted into it and could not be taken. A reading in the
 * record has no name of its own and becomes another object with every change, so a row is known by its object, by the one that
 * stood in its place before, and by the objects that the steps back and forward bring again.
 */
import type { ReadingSpec } from '../../core/specs';
import type { ColumnId } from '../../records/readingCell';

export interface WrongText {
  readonly text: string;
  /** For a sentence that begins "Allowed:". */
  readonly allowed: string;
}

export type WrongTexts = ReadonlyMap<ColumnId, WrongText>;

export interface TableRow {
  /** The same as long as it is the same row, wherever it moves. */
  readonly id: number;
  readonly reading: ReadingSpec;
  readonly wrong: WrongTexts;
}

export interface TableRows {
  /** The rows of these readings, in their order; wrong texts go on from what stood in a row before. */
  of(readings: readonly ReadingSpec[]): readonly TableRow[];
  /** Null takes the mark away. */
  mark(reading: ReadingSpec, column: ColumnId, wrong: WrongText | null): void;
  /** Counts the marks set and taken away; for React's useSyncExternalStore. */
  version(): number;
  subscribe(listener: () => void): () => void;
}

export function createTableRows(): TableRows {
  const ids = new WeakMap<ReadingSpec, number>();
  const marks = new WeakMap<ReadingSpec, WrongTexts>();
  const listeners = new Set<() => void>();
  let nextId = 0;
  let version = 0;
  let last: readonly { readonly id: number; readonly reading: ReadingSpec }[] = [];

  const identify = (readings: readonly ReadingSpec[]): readonly number[] => {
    const taken = new Set<number>();
    const found = readings.map((reading) => {
      const id = ids.get(reading);
      // One object twice in the list: the second is a row of its own.
      if (id === undefined || taken.has(id)) return null;
      taken.add(id);
      return id;
    });
    const present = new Set(readings);
    const isFree = (row: (typeof last)[number] | undefined): boolean => row !== undefined && !present.has(row.reading) && !taken.has(row.id);
    return found.map((id, index) => {
      if (id !== null) return id;
      // Changed where it stands: only then is the list as long as before.
      const before = readings.length === last.length && isFree(last[index]) ? last[index] : undefined;
      const own = before?.id ?? nextId++;
      taken.add(own);
      const reading = readings[index]!;
      if (!ids.has(reading)) ids.set(reading, own);
      if (before !== undefined && !marks.has(reading)) marks.set(reading, marks.get(before.reading) ?? NONE);
      return own;
    });
  };

  return {
    of: (readings) => {
      const rowIds = identify(readings);
      last = readings.map((reading, index) => ({ id: rowIds[index]!, reading }));
      return last.map((row) => ({ ...row, wrong: marks.get(row.reading) ?? NONE }));
    },
    mark: (reading, column, wrong) => {
      const before = marks.get(reading) ?? NONE;
      if (wrong === null && !before.has(column)) return;
      const now = new Map(before);
      if (wrong === null) now.delete(column);
      else now.set(column, wrong);
      marks.set(reading, now);
      version += 1;
      for (const listener of listeners) listener();
    },
    version: () => version,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

const NONE: WrongTexts = new Map();
