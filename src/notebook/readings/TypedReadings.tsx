import type { ReactNode } from 'react';
import type { Analysis } from '../../core/analysis';
import type { PlayerRecord } from '../../core/specs';
import { sayReadings } from '../../words/readings';
import type { EntryStyle } from '../props';
import { ReadingsTable } from './ReadingsTable';
import type { ReadingsTableState } from './useReadingsTable';

export interface TypedReadingsProps {
  readonly state: ReadingsTableState;
  readonly record: PlayerRecord;
  readonly analysis: Analysis | null;
  readonly hasSwing: boolean;
  readonly entry: EntryStyle;
  readonly selected: number;
  onSelect(index: number): void;
}

/** The table, what is said of it, and the way to a cell that could not be taken. */
export function TypedReadings({ state, record, analysis, hasSwing, entry, selected, onSelect }: TypedReadingsProps): ReactNode {
  const { table, rows, view, style, cells, said, isPasteMissing, wrongCount, goToWrong } = state;
  return (
    <>
      <ReadingsTable
        table={table}
        record={record}
        analysis={analysis}
        hasSwing={hasSwing}
        rows={rows}
        view={view}
        style={style}
        entry={entry}
        selected={selected}
        cells={cells}
        onSelect={onSelect}
      />
      <p className="only-heard" role="status">
        {said}
      </p>
      {isPasteMissing ? (
        <p className="number-field__wrong" role="alert">
          {sayReadings('pasteMissing')}
        </p>
      ) : null}
      {wrongCount === 0 ? null : (
        <p className="readings-wrong">
          {sayReadings('cellsMarked', { count: wrongCount })}{' '}
          <button type="button" className="quiet" onClick={goToWrong}>
            {sayReadings('goToWrong', { count: wrongCount })}
          </button>
        </p>
      )}
    </>
  );
}
