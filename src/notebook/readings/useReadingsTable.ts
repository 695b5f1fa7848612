import { type RefObject, useCallback, useMemo, useRef, useState, useSyncExternalStore } from 'react';
import type { PlayerRecord } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import type { ChangeRecord, EntryStyle } from '../props';
import { cellAt, goTo } from './cellPlaces';
import { cellStyleOf } from './cellStyle';
import { type TableRow, type TableRows, createTableRows } from './tableRows';
import { type TableView, shownColumns } from './tableViews';
import { takenIn } from './takenIn';
import { type Cells, useCells } from './useCells';

export interface ReadingsTableOptions {
  readonly record: PlayerRecord;
  readonly entry: EntryStyle;
  readonly firstView: TableView;
  onSelect(index: number): void;
  onChange: ChangeRecord;
  onSettle(): void;
}

export interface ReadingsTableState {
  readonly table: RefObject<HTMLTableElement | null>;
  readonly tableRows: TableRows;
  readonly rows: readonly TableRow[];
  readonly style: CellStyle;
  readonly view: TableView;
  readonly columns: readonly ColumnId[];
  readonly cells: Cells;
  /** Cells that could not be taken. */
  readonly wrongCount: number;
  /** Said politely. */
  readonly said: string;
  /** What takes in a pasted block could not be fetched, and nothing was pasted. */
  readonly isPasteMissing: boolean;
  setView(view: TableView): void;
  say(words: string): void;
  goToWrong(): void;
}

/** What a table of readings needs to be typed in: its rows with their marks, its columns, its cells, and blocks pasted into it. */
export function useReadingsTable(options: ReadingsTableOptions): ReadingsTableState {
  const { record, entry, firstView, onSelect, onChange, onSettle } = options;
  const table = useRef<HTMLTableElement>(null);
  const [view, setView] = useState<TableView>(firstView);
  const [said, setSaid] = useState('');
  const [isPasteMissing, setMissing] = useState(false);
  const [tableRows] = useState(createTableRows);
  const version = useSyncExternalStore(tableRows.subscribe, tableRows.version);
  // The version says that marks were set, which the readings themselves do not show.
  const rows = useMemo(() => (version < 0 ? [] : tableRows.of(record.readings)), [tableRows, version, record.readings]);
  const style = useMemo(() => cellStyleOf(entry, record.rim), [entry, record.rim]);
  const { columns } = shownColumns(view);
  const putBlock = useCallback(
    (row: number, column: ColumnId, text: string) => {
      import('../../records/readingsTable').then(
        ({ pasteInto }) => {
          setMissing(false);
          setSaid(takenIn(onChange, tableRows, column, columns, text, (readings) => pasteInto(readings, row, column, text, { style, columns })));
          onSettle();
        },
        () => setMissing(true),
      );
    },
    [onChange, onSettle, tableRows, style, columns],
  );
  const cells = useCells({ table, rows, tableRows, style, onSelect, onChange, onSettle, onBlock: putBlock, onSay: setSaid });
  const wrongRow = rows.findIndex(({ wrong }) => wrong.size > 0);
  return {
    table,
    tableRows,
    rows,
    style,
    view,
    columns,
    cells,
    wrongCount: rows.reduce((sum, { wrong }) => sum + wrong.size, 0),
    said,
    isPasteMissing,
    setView,
    say: setSaid,
    goToWrong: () => {
      const [column] = rows[wrongRow]?.wrong.keys() ?? [];
      if (column === undefined) return;
      if (columns.includes(column)) goTo(cellAt(table.current, wrongRow, column));
      else {
        setView('all');
        cells.goToLater(wrongRow, column);
      }
    },
  };
}
