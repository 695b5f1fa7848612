/** Rows of cells put into readings: every cell that can be read is taken, every other is marked. */
import type { ReadingSpec } from '../core/specs';
import { COLUMN_IDS, type CellStyle, type ColumnId } from './readingCell';
import { readingColumn, withCell } from './readingColumns';
import { MOST_READINGS } from './readingRanges';
import type { Cells } from './tableText';

export interface WrongCell {
  /** Which of the readings, from 0. */
  readonly row: number;
  readonly column: ColumnId;
  /** As it stood; empty where a row has no note. */
  readonly text: string;
  /** For a sentence that begins "Allowed:". */
  readonly allowed: string;
}

export interface FilledRows {
  readonly readings: readonly ReadingSpec[];
  readonly wrong: readonly WrongCell[];
  readonly cellsBeyond: number;
}

/**
 * `before` with the rows put in from `atRow` on, readings added where they reach below the last; null where that would be more than
 * MOST_READINGS. `columns` says by place what a cell is, null for one that is not taken. A blank row empties the reading that it falls
 * on and adds none. A reading that is added without a note that can be read stands at the note of the reading above it (of the one
 * below, or middle C, where there is none), and its note is marked.
 */
export function withRows(
  before: readonly ReadingSpec[],
  atRow: number,
  rows: Cells,
  columns: readonly (ColumnId | null)[],
  style: CellStyle,
): FilledRows | null {
  const readings = [...before];
  const wrong: WrongCell[] = [];
  const unnamed = new Set<number>();
  let cellsBeyond = 0;
  let row = atRow;
  for (const cells of rows) {
    const isNew = row >= readings.length;
    if (isNew && cells.every((text) => text.trim() === '')) continue;
    if (row >= MOST_READINGS) return null;
    const start = isNew ? { note: STAND_IN_NOTE } : readings[row]!;
    const taken = withRow(start, row, byColumn(cells, columns), style, isNew);
    if (!taken.isNamed) unnamed.add(row);
    readings[row] = taken.reading;
    wrong.push(...taken.wrong);
    cellsBeyond += cells.slice(columns.length).filter((text) => text.trim() !== '').length;
    row++;
  }
  return { readings: named(readings, unnamed), wrong, cellsBeyond };
}

/** A cell's text that a spreadsheet would run as a formula gets an apostrophe before it. */
export function guardedText(text: string): string {
  return GUARDED.test(text) ? `'${text}` : text;
}

/** The text that `guardedText` was given. */
function unguardedText(text: string): string {
  return text.startsWith("'") && GUARDED.test(text) ? text.slice(1) : text;
}

/** A formula's first sign, also behind spaces and letters that are not seen, which some spreadsheets pass over. */
const GUARDED = /^'*(?:[\s\p{Cf}]*[=+\-@＝＋－＠]|[\t\r\n])/u;

const STAND_IN_NOTE = 'C4';

interface Cell {
  readonly id: ColumnId;
  readonly text: string;
}

/** In the table's own order, so that a deviation comes after the number it belongs to. */
function byColumn(cells: readonly string[], columns: readonly (ColumnId | null)[]): Cell[] {
  return columns
    .flatMap((id, place) => (id === null || cells[place] === undefined ? [] : [{ id, text: cells[place] }]))
    .sort((a, b) => COLUMN_IDS.indexOf(a.id) - COLUMN_IDS.indexOf(b.id));
}

function withRow(start: ReadingSpec, row: number, cells: readonly Cell[], style: CellStyle, isNew: boolean) {
  let reading = start;
  const wrong: WrongCell[] = [];
  let isNamed = !isNew;
  const isEmpty = ({ id, text }: Cell): boolean => (id === 'remark' ? text === '' : text.trim() === '');
  // First what is emptied: else a pair's second number, left empty, would take away the 0 that stands in its first.
  for (const { id } of cells.filter(isEmpty)) reading = readingColumn(id).set(reading, null);
  for (const { id, text } of cells.filter((cell) => !isEmpty(cell))) {
    const edit = withCell(reading, id, id === 'remark' ? unguardedText(text) : text, style);
    if (edit.kind === 'reading') {
      reading = edit.reading;
      isNamed ||= id === 'note';
    } else wrong.push({ row, column: id, text, allowed: edit.allowed });
  }
  if (!isNamed && !wrong.some(({ column }) => column === 'note')) {
    wrong.unshift({ row, column: 'note', text: '', allowed: readingColumn('note').allowed(style) });
  }
  return { reading, wrong, isNamed };
}

function named(readings: readonly ReadingSpec[], unnamed: ReadonlySet<number>): ReadingSpec[] {
  let note = readings.find((_, index) => !unnamed.has(index))?.note ?? STAND_IN_NOTE;
  return readings.map((reading, index) => {
    if (unnamed.has(index)) return { ...reading, note };
    note = reading.note;
    return reading;
  });
}
