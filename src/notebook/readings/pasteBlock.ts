/** Blocks of cells that come and go by the clipboard. */
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { READING_COLUMNS, readingColumn } from '../../records/readingColumns';

/** True where a pasted text is more than one cell. */
export function isBlock(text: string): boolean {
  return /[\t\r\n]/.test(text.replace(/\r?\n$/, ''));
}

/** All that is known of the readings as the page shows it, in every digit and with a heading in words, as spreadsheets take it. */
export function tableAsText(readings: readonly ReadingSpec[], style: CellStyle): string {
  const exact: CellStyle = { ...style, form: 'file' };
  const heading = READING_COLUMNS.map(({ header, group }) =>
    // Without a unit where it is not the one that the heading names.
    group === 'Travel' && style.travelUnit !== undefined ? header.replace(/ \(.*\)$/, '') : header);
  return lines([heading, ...readings.map((reading) => READING_COLUMNS.map((column) => column.show(reading, exact)))]);
}

/** One reading's cells, in the order of the columns shown, and empty where the page's are: no deviation beside a number says that it was not seen. */
export function rowAsText(reading: ReadingSpec, columns: readonly ColumnId[], style: CellStyle): string {
  return lines([
    columns.map((id) => {
      const { show } = readingColumn(id);
      return show(reading, { ...style, form: 'page' }) === '' ? '' : show(reading, { ...style, form: 'file' });
    }),
  ]);
}

const lines = (cells: readonly (readonly string[])[]): string => cells.map((row) => row.map(quoted).join('\t')).join('\n');

/** As spreadsheets write a cell with a tab, a line break or a quotation mark in it. */
const quoted = (cell: string): string => (/["\t\r\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
