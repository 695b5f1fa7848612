/**
 * What happens in the cells of the table: one visit after another, of which each is typed live into the record, joined into one step to be
 * undone, and either taken or marked when the cell is left. The keys are a spreadsheet's; they are listed in docs/guide.md.
 */
import {
  type ChangeEvent,
  type ClipboardEvent,
  type FocusEvent,
  type KeyboardEvent,
  type MouseEvent,
  type PointerEvent,
  type RefObject,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
} from 'react';
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { READING_COLUMNS, readingColumn, withCell } from '../../records/readingColumns';
import { MOST_READINGS } from '../../records/readingRanges';
import { sayReadings } from '../../words/readings';
import type { ChangeRecord } from '../props';
import { withReading } from '../recordEdits';
import { cellAt, cellBeside, cellFrom, cellsOfRow, goTo, rowOf, type CellElement } from './cellPlaces';
import { choiceForKey } from './choiceKeys';
import { isBlock } from './pasteBlock';
import { withMoved, withNextNote } from './readingsEdits';
import type { TableRow, TableRows } from './tableRows';

export interface CellsOptions {
  readonly table: RefObject<HTMLTableElement | null>;
  readonly rows: readonly TableRow[];
  readonly tableRows: TableRows;
  readonly style: CellStyle;
  onSelect(index: number): void;
  onChange: ChangeRecord;
  onSettle(): void;
  /** A copied block of cells is to be put in from this cell on. */
  onBlock(row: number, column: ColumnId, text: string): void;
  /** Said politely. */
  onSay(words: string): void;
}

/** The cell that the keys go to. */
export interface CellVisit {
  readonly rowId: number;
  readonly column: ColumnId;
  /** Null as long as nothing was typed. */
  readonly typed: string | null;
  /** The left and right arrow keys belong to the text; an emptied cell has none. */
  readonly editing: boolean;
}

export interface CellEvents {
  onFocus(event: FocusEvent<HTMLElement>): void;
  onBlur(event: FocusEvent<HTMLElement>): void;
  onKeyDown(event: KeyboardEvent<HTMLElement>): void;
  onPaste(event: ClipboardEvent<HTMLElement>): void;
  onPointerDown(event: PointerEvent<HTMLElement>): void;
  onClick(event: MouseEvent<HTMLElement>): void;
}

export interface Cells {
  readonly visit: CellVisit | null;
  /** For the table's body, where they come from all cells. */
  readonly events: CellEvents;
  /** For each cell; always the same. */
  onType(event: ChangeEvent<CellElement>): void;
  /** Goes to a cell once it is drawn. */
  goToLater(row: number, column: ColumnId): void;
}

interface Visit extends CellVisit {
  readonly key: string;
  /** The reading before this visit changed it, and what the visit last made of it. */
  readonly before: ReadingSpec | null;
  readonly made: ReadingSpec | null;
}

export function useCells(options: CellsOptions): Cells {
  const latest = useRef(options);
  const current = useRef<Visit | null>(null);
  const [visit, setVisit] = useState<CellVisit | null>(null);
  const later = useRef<{ readonly row: number; readonly column: ColumnId } | null>(null);
  useLayoutEffect(() => {
    latest.current = options;
    const { table } = options;
    const wished = later.current;
    if (wished !== null && goTo(cellAt(table.current, wished.row, wished.column))) later.current = null;
    // A value that changed under the cursor would leave the cursor behind it, and typing would go on instead of replacing.
    const cell = document.activeElement;
    if (current.current?.editing === false && cell instanceof HTMLInputElement && table.current?.contains(cell) === true) cell.select();
  });
  const { events, onType, goToLater } = useMemo(
    () =>
      createHandlers(
        () => latest.current,
        current,
        (next) => {
          current.current = next;
          setVisit(next);
        },
        later,
      ),
    [],
  );
  return { visit, events, onType, goToLater };
}

type Held<T> = { current: T };

function createHandlers(
  get: () => CellsOptions,
  current: Held<Visit | null>,
  update: (visit: Visit | null) => void,
  later: Held<{ readonly row: number; readonly column: ColumnId } | null>,
): Pick<Cells, 'events' | 'onType' | 'goToLater'> {
  let visits = 0;
  /** The cell a pointer has just gone to. */
  let pressed: CellElement | null = null;
  /** Where a run of Tabs began: Enter goes on below it. */
  let runFrom: ColumnId | null = null;

  const rowOfVisit = (visit: Visit): { readonly row: TableRow; readonly index: number } | null => {
    const { rows } = get();
    const index = rows.findIndex(({ id }) => id === visit.rowId);
    return index < 0 ? null : { row: rows[index]!, index };
  };

  /** The record with the text in the cell, joined to the step of this visit; what it made is remembered. */
  const put = (visit: Visit, index: number, text: string): ReadingSpec | null => {
    const { onChange, style } = get();
    let made: ReadingSpec | null = null;
    onChange((record) => {
      const reading = record.readings[index];
      const edit = reading === undefined ? null : withCell(reading, visit.column, text, style);
      if (edit?.kind !== 'reading' || saysTheSame(reading!, edit.reading, style)) return record;
      made = edit.reading;
      return withReading(record, index, () => edit.reading);
    }, visit.key);
    return made;
  };

  /** Nothing of what was typed in this visit stays in the record. */
  const putBack = (visit: Visit, index: number): void => {
    const { before, made } = visit;
    if (before === null || made === null) return;
    get().onChange((record) => (record.readings[index] === made ? withReading(record, index, () => before) : record), visit.key);
  };

  const type = (text: string): void => {
    const visit = current.current;
    const at = visit && rowOfVisit(visit);
    if (!visit || !at) return;
    const { reading } = at.row;
    // What is typed takes the place of what could not be taken before.
    get().tableRows.mark(reading, visit.column, null);
    const { kind } = readingColumn(visit.column);
    // Half a note's name is no note, and a number emptied to be typed anew takes nothing away.
    const waits = kind === 'note' || (kind === 'number' && text.trim() === '');
    const made = waits ? null : put(visit, at.index, text);
    update({ ...visit, typed: text, editing: text !== '', before: visit.before ?? reading, made: made ?? visit.made });
  };

  const choose = (column: ColumnId, text: string): void => {
    const visit = current.current;
    const at = visit && rowOfVisit(visit);
    if (!visit || !at || visit.column !== column) return;
    get().tableRows.mark(at.row.reading, column, null);
    put(visit, at.index, text);
  };

  /** The cell is left: what was typed is in the record or marked. */
  const finish = (): void => {
    const visit = current.current;
    const at = visit && rowOfVisit(visit);
    if (!visit) return;
    const { typed, column } = visit;
    if (typed !== null && at) {
      const { style, tableRows, onSay } = get();
      const edit = withCell(at.row.reading, column, typed, style);
      if (edit.kind === 'reading') put(visit, at.index, typed);
      // A note that was emptied and left is the one it was.
      else if (column !== 'note' || typed.trim() !== '') {
        putBack(visit, at.index);
        tableRows.mark(visit.made === null || visit.before === null ? at.row.reading : visit.before, column, edit);
        onSay(sayReadings('cellNotTaken', { text: typed.trim(), allowed: edit.allowed }));
      }
    }
    update({ ...visit, typed: null, editing: false, before: null, made: null });
    get().onSettle();
  };

  const takeBack = (): boolean => {
    const visit = current.current;
    const at = visit && rowOfVisit(visit);
    if (!visit || !at) return false;
    const isMarked = at.row.wrong.has(visit.column);
    if (visit.typed === null && !isMarked && !visit.editing) return false;
    putBack(visit, at.index);
    get().tableRows.mark(visit.before ?? at.row.reading, visit.column, null);
    update({ ...visit, typed: null, editing: false, before: null, made: null });
    return true;
  };

  const goBelow = (cell: CellElement, by: -1 | 1): void => {
    const { rows, table, onChange } = get();
    const column = cell.dataset['cell'] as ColumnId;
    const row = rowOf(cell);
    const target = runFrom ?? column;
    const addsRows = column === 'note' || runFrom !== null;
    const saysMore = current.current?.typed !== null || isMoreThanNote(rows[row]?.reading) || (rows[row]?.wrong.size ?? 0) > 0;
    finish();
    if (goTo(cellAt(table.current, row + by, target) ?? cellAt(table.current, row + by, 'note'))) return;
    if (by < 0 || !addsRows || !saysMore || rows.length >= MOST_READINGS) return;
    later.current = { row: row + 1, column: 'note' };
    onChange((record) => ({ ...record, readings: withNextNote(record.readings, row) }));
  };

  const moveRow = (cell: CellElement, by: -1 | 1): void => {
    const row = rowOf(cell);
    if (get().rows[row + by] === undefined) return;
    finish();
    later.current = { row: row + by, column: cell.dataset['cell'] as ColumnId };
    get().onChange((record) => ({ ...record, readings: withMoved(record.readings, row, by) }));
    get().onSelect(row + by);
  };

  const onKey = (event: KeyboardEvent<HTMLElement>, cell: CellElement): boolean => {
    const { key, shiftKey, altKey } = event;
    const { table, rows } = get();
    const column = cell.dataset['cell'] as ColumnId;
    const row = rowOf(cell);
    const editing = current.current?.editing === true;
    const up = key === 'ArrowUp';
    if (up || key === 'ArrowDown') {
      if (altKey && shiftKey) moveRow(cell, up ? -1 : 1);
      else if (altKey || event.ctrlKey || event.metaKey) return false;
      else {
        runFrom = null;
        goTo(cellAt(table.current, row + (up ? -1 : 1), column));
      }
      return true;
    }
    if (key === 'Tab') {
      if (!shiftKey) runFrom ??= column;
      return false;
    }
    if (key === 'Enter' && !altKey) {
      goBelow(cell, shiftKey ? -1 : 1);
      return true;
    }
    if (key === 'Escape') return takeBack();
    if (key === 'F2') {
      edit(cell);
      return true;
    }
    if (editing) return false;
    if (key === 'ArrowLeft' || key === 'ArrowRight') {
      if (altKey || event.ctrlKey || event.metaKey || shiftKey) return false;
      runFrom = null;
      goTo(cellBeside(cell, key === 'ArrowLeft' ? -1 : 1));
      return true;
    }
    if (key === 'Home' || key === 'End') {
      if (shiftKey) return false;
      runFrom = null;
      const end = key === 'Home' ? 0 : -1;
      goTo(event.ctrlKey || event.metaKey ? cellAt(table.current, key === 'Home' ? 0 : rows.length - 1, column) : (cellsOfRow(cell).at(end) ?? null));
      return true;
    }
    return cell instanceof HTMLSelectElement && onChoiceKey(event, cell, column);
  };

  const onChoiceKey = (event: KeyboardEvent<HTMLElement>, cell: HTMLSelectElement, column: ColumnId): boolean => {
    if (event.ctrlKey || event.metaKey || event.altKey) return false;
    if (event.key === 'Delete' || event.key === 'Backspace') {
      choose(column, '');
      return true;
    }
    if (event.key.length !== 1 || event.key === ' ') return false;
    const word = choiceForKey(readingColumn(column), event.key, cell.value, get().style);
    if (word !== null) choose(column, word);
    return true;
  };

  const edit = (cell: CellElement): void => {
    const visit = current.current;
    if (cell instanceof HTMLSelectElement) {
      // Not in every browser; there the space bar opens the list.
      if ('showPicker' in cell) cell.showPicker();
    } else if (visit) {
      update({ ...visit, editing: true });
      cell.setSelectionRange(cell.value.length, cell.value.length);
    }
  };

  return {
    goToLater: (row, column) => {
      later.current = { row, column };
    },
    onType: (event) => {
      const cell = event.currentTarget;
      if (cell instanceof HTMLSelectElement) choose(cell.dataset['cell'] as ColumnId, cell.value);
      else type(cell.value);
    },
    events: {
      onFocus: (event) => {
        const cell = cellFrom(event.target);
        const row = cell === null ? undefined : get().rows[rowOf(cell)];
        if (cell === null || row === undefined) return;
        const column = cell.dataset['cell'] as ColumnId;
        visits += 1;
        update({ rowId: row.id, column, typed: null, editing: pressed === cell, key: `cell:${row.id}:${column}:${visits}`, before: null, made: null });
        get().onSelect(rowOf(cell));
        if (cell instanceof HTMLInputElement) cell.select();
      },
      onBlur: (event) => {
        if (cellFrom(event.target) === null) return;
        finish();
        update(null);
        if (event.relatedTarget === null || cellFrom(event.relatedTarget) === null) runFrom = null;
      },
      onKeyDown: (event) => {
        const cell = cellFrom(event.target);
        if (cell === null || event.nativeEvent.isComposing) return;
        if (onKey(event, cell)) event.preventDefault();
      },
      onPaste: (event) => {
        const cell = cellFrom(event.target);
        if (cell === null) return;
        const text = event.clipboardData.getData('text/plain');
        const column = cell.dataset['cell'] as ColumnId;
        if (!isBlock(text) && cell instanceof HTMLInputElement) return;
        event.preventDefault();
        finish();
        get().onBlock(rowOf(cell), column, text);
      },
      onPointerDown: (event) => {
        const cell = cellFrom(event.target);
        if (cell === null) return;
        runFrom = null;
        const visit = current.current;
        if (document.activeElement !== cell) pressed = cell;
        else if (visit !== null && cell instanceof HTMLInputElement) update({ ...visit, editing: true });
      },
      onClick: (event) => {
        const cell = cellFrom(event.target);
        // The click that went to a cell has put the cursor between two letters.
        if (cell instanceof HTMLInputElement && cell === pressed && cell.selectionStart === cell.selectionEnd) cell.select();
        pressed = null;
      },
    },
  };
}

function saysTheSame(before: ReadingSpec, now: ReadingSpec, style: CellStyle): boolean {
  // A number that was not seen and the same number seen differ in the page only, and a deviation may be that of the other angle.
  return (['file', 'page'] as const).every((form) =>
    READING_COLUMNS.every(({ show }) => show(before, { ...style, form }) === show(now, { ...style, form })));
}

function isMoreThanNote(reading: ReadingSpec | undefined): boolean {
  const { note: _note, take: _take, direction: _direction, method: _method, ...seen } = reading ?? { note: '' };
  return Object.keys(seen).length > 0;
}
