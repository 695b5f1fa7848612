import type { ReadingSpec } from '../../core/specs';
import type { ColumnId } from '../../records/readingCell';
import type { TableReading } from '../../records/readingsTable';
import { sayReadings } from '../../words/readings';
import type { ChangeRecord } from '../props';
import type { TableRows } from './tableRows';

type Readings = readonly ReadingSpec[];

/** A pasted block put into the record in one step, its wrong cells marked; answers what happened, in words. */
export function takenIn(
  onChange: ChangeRecord,
  tableRows: TableRows,
  at: ColumnId,
  columns: readonly ColumnId[],
  text: string,
  read: (readings: Readings) => TableReading,
): string {
  let result: TableReading = { kind: 'refused', message: '' };
  let before: Readings = [];
  let now: Readings = [];
  onChange((record) => {
    result = read(record.readings);
    if (result.kind === 'refused') return record;
    before = record.readings;
    now = ownRows(result);
    return { ...record, readings: now };
  });
  const read_ = result as TableReading;
  if (read_.kind === 'refused') return sayReadings('nothingPasted', { why: read_.message });
  const start = columns.indexOf(at);
  const pasted = columns.slice(start, start + widthOf(text));
  // Marks go on from the rows before, except in cells that were pasted over.
  for (const { reading } of tableRows.of(now)) {
    if (!before.includes(reading)) for (const column of pasted) tableRows.mark(reading, column, null);
  }
  markWrong(tableRows, now, read_);
  return tableWords('pasted', now.filter((reading) => !before.includes(reading)).length, read_);
}

/** Rows with a wrong cell become objects of their own: undoing the step then takes the mark away too. */
export function ownRows({ readings, wrong }: Extract<TableReading, { kind: 'table' }>): Readings {
  const marked = new Set(wrong.map(({ row }) => row));
  return readings.map((reading, index) => (marked.has(index) ? { ...reading } : reading));
}

export function markWrong(tableRows: TableRows, readings: Readings, { wrong }: Extract<TableReading, { kind: 'table' }>): void {
  for (const { row, column, text, allowed } of wrong) {
    const reading = readings[row];
    if (reading !== undefined) tableRows.mark(reading, column, { text, allowed });
  }
}

/** "Pasted: 4 readings. 1 cell could not be taken. Not known: “Valve”." */
export function tableWords(done: 'pasted' | 'inIt' | 'added' | 'replaced', count: number, { wrong, unknownColumns, cellsBeyond }: Extract<TableReading, { kind: 'table' }>): string {
  const words = [sayReadings('tableDone', { done, count })];
  if (wrong.length > 0) words.push(sayReadings('cellsNotTaken', { count: wrong.length }));
  if (unknownColumns.length > 0) words.push(sayReadings('columnsLeftOut', { names: unknownColumns.map((text) => sayReadings('quoted', { text })).join(', ') }));
  if (cellsBeyond > 0) words.push(sayReadings('cellsBeyond', { count: cellsBeyond }));
  return words.join(' ');
}

const widthOf = (text: string): number => Math.max(...text.split(/\r?\n/).map((line) => line.split('\t').length));
