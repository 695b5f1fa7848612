import type { ReactNode } from 'react';
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { MOST_READINGS } from '../../records/readingRanges';
import { sayReadings } from '../../words/readings';
import type { ChangeRecord } from '../props';
import { copyText } from './copyText';
import { rowAsText, tableAsText } from './pasteBlock';
import { byPitch, byTake, takeOf, takesOf, withDuplicate, withFurtherTake, withMoved, withNextNote } from './readingsEdits';

export interface RowActionsProps {
  readonly readings: readonly ReadingSpec[];
  readonly selected: number;
  readonly columns: readonly ColumnId[];
  readonly style: CellStyle;
  /** The chosen note as shown. */
  readonly noteLabel: string;
  onChange: ChangeRecord;
  onSelect(index: number): void;
  /** Goes to a cell once it is drawn. */
  onGoTo(row: number, column: ColumnId): void;
  onSay(words: string): void;
}

/** What can be done with the rows: all of it by buttons, so that no key needs to be known. */
export function RowActions(props: RowActionsProps): ReactNode {
  const { readings, selected, onSelect, onGoTo, noteLabel } = props;
  const isFull = readings.length >= MOST_READINGS;
  const takes = takesOf(readings);
  const nextTake = (takes.at(-1) ?? 0) + 1;
  const lastTake = readings.filter((reading) => takeOf(reading) === takes.at(-1));
  const edit = (change: (readings: readonly ReadingSpec[]) => readonly ReadingSpec[]): void =>
    props.onChange((record) => {
      const next = change(record.readings);
      return next === record.readings ? record : { ...record, readings: next };
    });
  const copy = (text: string, words: string): void => {
    void copyText(text).then((copied) => props.onSay(copied ? words : sayReadings('notCopied')));
  };
  const chosen = readings[selected];
  const which = chosen !== undefined && takes.length > 1 ? sayReadings('noteTake', { note: noteLabel, take: takeOf(chosen) }) : noteLabel;
  return (
    <div className="row-actions">
      <p className="row-actions__line">
        <button
          type="button"
          disabled={isFull}
          onClick={() => {
            edit((now) => withNextNote(now, now.length - 1));
            onSelect(readings.length);
            onGoTo(readings.length, 'note');
          }}
        >
          {sayReadings('addNote')}
        </button>
        <button
          type="button"
          disabled={readings.length === 0 || readings.length + lastTake.length > MOST_READINGS}
          onClick={() => {
            edit(withFurtherTake);
            onSelect(readings.length);
            onGoTo(readings.length, 'travelUp');
          }}
        >
          {sayReadings('addTake', { take: nextTake > 1 ? nextTake : 1 })}
        </button>
        <button type="button" className="quiet" disabled={readings.length < 2} onClick={() => edit(byPitch)}>
          {sayReadings('byPitch')}
        </button>
        {takes.length < 2 ? null : (
          <button type="button" className="quiet" onClick={() => edit(byTake)}>
            {sayReadings('byTake')}
          </button>
        )}
        <button
          type="button"
          className="quiet"
          disabled={readings.length === 0}
          onClick={() => copy(tableAsText(readings, props.style), sayReadings('tableCopied'))}
        >
          {sayReadings('copyTable')}
        </button>
      </p>
      {chosen === undefined ? null : (
        <p className="row-actions__line" role="group" aria-label={sayReadings('rowOf', { which })}>
          <span className="row-actions__which">{which}:</span>
          <button
            type="button"
            className="quiet"
            onClick={() => edit((now) => now.toSpliced(selected, 1))}
          >
            {sayReadings('takeOut', { note: noteLabel })}
          </button>
          <button
            type="button"
            className="quiet"
            disabled={isFull}
            onClick={() => {
              edit((now) => withDuplicate(now, selected));
              onSelect(selected + 1);
            }}
          >
            {sayReadings('duplicate')}
          </button>
          <button
            type="button"
            className="quiet"
            disabled={selected === 0}
            onClick={() => {
              edit((now) => withMoved(now, selected, -1));
              onSelect(selected - 1);
            }}
          >
            {sayReadings('moveUp')}
          </button>
          <button
            type="button"
            className="quiet"
            disabled={selected >= readings.length - 1}
            onClick={() => {
              edit((now) => withMoved(now, selected, 1));
              onSelect(selected + 1);
            }}
          >
            {sayReadings('moveDown')}
          </button>
          <button
            type="button"
            className="quiet"
            onClick={() => copy(rowAsText(chosen, props.columns, props.style), sayReadings('rowCopied', { which }))}
          >
            {sayReadings('copyRow')}
          </button>
        </p>
      )}
      {isFull ? <p className="note">{sayReadings('full', { most: MOST_READINGS })}</p> : null}
    </div>
  );
}
