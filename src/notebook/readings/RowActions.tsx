import type { ReactNode } from 'react';
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { MOST_READINGS } from '../../records/readingRanges';
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
    void copyText(text).then((copied) => props.onSay(copied ? words : 'The browser did not allow copying.'));
  };
  const chosen = readings[selected];
  const which = chosen !== undefined && takes.length > 1 ? `${noteLabel}, take ${takeOf(chosen)}` : noteLabel;
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
          Add a note
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
          Add take {nextTake > 1 ? nextTake : 1} of all notes
        </button>
        <button type="button" className="quiet" disabled={readings.length < 2} onClick={() => edit(byPitch)}>
          Order by pitch
        </button>
        {takes.length < 2 ? null : (
          <button type="button" className="quiet" onClick={() => edit(byTake)}>
            Order by take
          </button>
        )}
        <button
          type="button"
          className="quiet"
          disabled={readings.length === 0}
          onClick={() => copy(tableAsText(readings, props.style), 'The table was copied; it can be pasted into a spreadsheet.')}
        >
          Copy table
        </button>
      </p>
      {chosen === undefined ? null : (
        <p className="row-actions__line" role="group" aria-label={`The row of ${which}`}>
          <span className="row-actions__which">{which}:</span>
          <button
            type="button"
            className="quiet"
            onClick={() => edit((now) => now.toSpliced(selected, 1))}
          >
            Take {noteLabel} out
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
            Duplicate
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
            Move up
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
            Move down
          </button>
          <button
            type="button"
            className="quiet"
            onClick={() => copy(rowAsText(chosen, props.columns, props.style), `The row of ${which} was copied.`)}
          >
            Copy row
          </button>
        </p>
      )}
      {isFull ? <p className="note">A lesson holds up to {MOST_READINGS} readings.</p> : null}
    </div>
  );
}
