/**
 * Readings as a table in a text: files of comma-separated values, and blocks copied from a spreadsheet. A cell that cannot be
 * read is marked with its text and what is allowed there; all the others are taken.
 */
import type { NoteStyle } from '../core/noteNaming';
import type { ReadingSpec } from '../core/specs';
import { sayTables } from '../words/tables';
import { numberIn } from './cellText';
import { COLUMN_IDS, type CellStyle, type ColumnId } from './readingCell';
import { READING_COLUMNS, readingColumn } from './readingColumns';
import { MOST_READINGS } from './readingRanges';
import { noteHeader, readHeader } from './tableHeader';
import { type WrongCell, guardedText, withRows } from './tableRows';
import { type Cells, DELIMITERS, type Delimiter, cellsOf, isCommaNumbers, noTableWords, textOf } from './tableText';

export type TableReading =
  | {
      readonly kind: 'table';
      /** One for each row that is not blank; see `withRows` for a row without a note. */
      readonly readings: readonly ReadingSpec[];
      readonly wrong: readonly WrongCell[];
      /** Names in the header that are not known; their cells are not taken. */
      readonly unknownColumns: readonly string[];
      /** Cells that stand to the right of the last column; not taken. */
      readonly cellsBeyond: number;
    }
  /** One sentence; nothing was taken. */
  | { readonly kind: 'refused'; readonly message: string };

export interface TableOptions extends NoteStyle {
  readonly decimal: 'point' | 'comma';
}

export interface PasteOptions {
  readonly style: CellStyle;
  /** The columns of the table that is pasted into, in its order; absent, all. */
  readonly columns?: readonly ColumnId[] | undefined;
}

export interface FileOptions extends NoteStyle {
  /** Where a table without a header begins; absent, with the note. */
  readonly startColumn?: ColumnId | undefined;
}

/**
 * Reads a file's text. What its header says of note names goes before the options. Without a header the columns are the table's own.
 * Decimal comma and point are both read, with tabs, semicolons or commas between the cells. Never throws.
 */
export function readingsFromTable(text: string, options: FileOptions): TableReading {
  const refusal = noTableWords(text);
  if (refusal !== null) return { kind: 'refused', message: sayTables('tableRefused', { why: refusal }) };
  const { naming, transpositionSemitones, startColumn = 'note' } = options;
  const style: CellStyle = { naming, transpositionSemitones, decimal: 'point', form: 'file' };
  const places = COLUMN_IDS.slice(COLUMN_IDS.indexOf(startColumn));
  const layout = layOut(likeliest(text, places, style), places, style);
  const { most, remarks } = readable(layout.rows, layout.columns, { ...style, ...layout.said });
  if (most === 0 && remarks === 0 && layout.rows.length > 0) {
    return { kind: 'refused', message: sayTables('tableUnread') };
  }
  return filled([], 0, layout, style);
}

/**
 * A file's text: a header in words, comma or (with decimal commas) semicolon between cells, lines ended as RFC 4180 has them. Where a
 * reading was measured from is not in it (readingColumns.ts).
 */
export function tableFromReadings(readings: readonly ReadingSpec[], options: TableOptions): string {
  const style: CellStyle = { ...options, form: 'file' };
  const header = READING_COLUMNS.map((column) => (column.id === 'note' ? noteHeader(options) : column.header));
  const rows = readings.map((reading) => READING_COLUMNS.map((column) => guardedCell(column.id, column.show(reading, style))));
  // The mark at the beginning tells spreadsheets that the text is Unicode.
  return `\uFEFF${textOf([header, ...rows], options.decimal === 'comma' ? ';' : ',')}\r\n`;
}

/**
 * The cells of a copied block. Spreadsheets put tabs between them. Where there is no tab, semicolons or commas are taken for more than
 * punctuation under a header, and between figures: each line has as many cells, and half of them or more are numbers. A column of
 * decimal commas stays one column.
 */
export function cellsFromPaste(text: string): Cells {
  if (noTableWords(text) !== null) return [];
  const separated = DELIMITERS.find((delimiter) => {
    const cells = cellsOf(text, delimiter);
    if (delimiter === '\t') return cells.some((row) => row.length > 1);
    return namedColumns(cells[0] ?? []) > 1 || (!isCommaNumbers(text) && areFigures(cells));
  });
  return cellsOf(text, separated ?? '\t');
}

/**
 * Readings with a copied block put in, its first cell at the row and column given, and rows added where it reaches below the last. An
 * empty cell empties the one it is pasted on. A block with a header (two names or more) goes by its header.
 */
export function pasteInto(readings: readonly ReadingSpec[], atRow: number, atColumn: ColumnId, text: string, options: PasteOptions): TableReading {
  const refusal = noTableWords(text);
  if (refusal !== null) return { kind: 'refused', message: sayTables('pasteRefused', { why: refusal }) };
  const order = options.columns ?? COLUMN_IDS;
  if (!order.includes(atColumn)) throw new RangeError(`pasteInto: column ${atColumn}; allowed: ${order.join(', ')}`);
  if (!Number.isInteger(atRow) || atRow < 0 || atRow > readings.length) {
    throw new RangeError(`pasteInto: row ${atRow}; allowed: a whole number from 0 to ${readings.length}`);
  }
  const places = order.slice(order.indexOf(atColumn));
  const layout = layOut(cellsFromPaste(text), places);
  // On a remark, which may hold any punctuation, only tabs part the cells.
  const asText = layout.columns === places && atColumn === 'remark' ? { ...layout, rows: cellsOf(text, '\t') } : layout;
  return filled(readings, atRow, asText, options.style);
}

interface Layout {
  readonly rows: Cells;
  readonly columns: readonly (ColumnId | null)[];
  readonly unknown: readonly string[];
  readonly said: Partial<NoteStyle>;
}

/** The first row is a header where it names two columns; with a style also where it names one and none of its cells can be read. */
function layOut(cells: Cells, places: readonly ColumnId[], style: CellStyle | null = null): Layout {
  const [first = []] = cells;
  const header = readHeader(first);
  const named = namedColumns(first);
  if (header !== null && (named > 1 || (style !== null && readable([first], places, style).most === 0))) {
    return { rows: cells.slice(1), columns: header.columns, unknown: header.unknown, said: header.notes };
  }
  return { rows: cells, columns: places, unknown: [], said: {} };
}

const namedColumns = (row: readonly string[]): number => readHeader(row)?.columns.filter((id) => id !== null).length ?? 0;

function areFigures(cells: Cells): boolean {
  const rows = cells.filter((row) => row.some((text) => text.trim() !== ''));
  const texts = rows.flat().filter((text) => text.trim() !== '');
  const numbers = texts.filter((text) => numberIn(text) !== null).length;
  const width = rows[0]?.length ?? 0;
  return width > 1 && rows.every((row) => row.length === width) && 2 * numbers >= texts.length;
}

/** What is looked at to tell the delimiter: some rows, with room for long remarks. */
const TRIED_ROWS = 20;
const TRIED_CHARACTERS = 100_000;

/** The cells by that delimiter which names most columns or, without a header, gives most cells that can be read. */
function likeliest(text: string, places: readonly ColumnId[], style: CellStyle): Cells {
  if (isCommaNumbers(text)) return cellsOf(text, '\t');
  const beginning = text.slice(0, TRIED_CHARACTERS);
  let best: { readonly delimiter: Delimiter; readonly worth: number } | null = null;
  for (const delimiter of DELIMITERS) {
    const cells = cellsOf(beginning, delimiter);
    const { rows, columns, said } = layOut(cells, places, style);
    const named = namedColumns(cells[0] ?? []);
    const worth = named * 1000 + readable(rows.slice(0, TRIED_ROWS), columns, { ...style, ...said }).more;
    if (best === null || worth > best.worth) best = { delimiter, worth };
  }
  return cellsOf(text, best?.delimiter ?? ',');
}

/** Of the cells in known columns that are not blank, how many can be read, and how many more than cannot; remarks, which may be anything, apart. */
function readable(rows: Cells, columns: readonly (ColumnId | null)[], style: CellStyle): Readable {
  let [most, more, remarks] = [0, 0, 0];
  for (const row of rows) {
    columns.forEach((id, place) => {
      const text = row[place] ?? '';
      if (id === null || text.trim() === '') return;
      const isRead = readingColumn(id).read(text, style).kind === 'value';
      if (id === 'remark') remarks += isRead ? 1 : 0;
      else {
        most += isRead ? 1 : 0;
        more += isRead ? 1 : -1;
      }
    });
  }
  return { most, more, remarks };
}

interface Readable {
  readonly most: number;
  readonly more: number;
  readonly remarks: number;
}

/** Only remarks are free texts. */
const guardedCell = (id: ColumnId, text: string): string => (id === 'remark' ? guardedText(text) : text);

function filled(before: readonly ReadingSpec[], atRow: number, layout: Layout, style: CellStyle): TableReading {
  const { rows, columns, unknown, said } = layout;
  const result = withRows(before, atRow, rows, columns, { ...style, ...said });
  if (result === null) return { kind: 'refused', message: sayTables('tableTooMany', { most: MOST_READINGS }) };
  return { kind: 'table', ...result, unknownColumns: unknown };
}
