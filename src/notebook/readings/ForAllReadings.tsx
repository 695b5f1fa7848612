import { type ReactNode, useId, useState } from 'react';
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { readingColumn } from '../../records/readingColumns';
import { Picker } from '../Choice';
import type { ChangeRecord } from '../props';
import { takesOf, withCellInAll } from './readingsEdits';

export interface ForAllReadingsProps {
  readonly readings: readonly ReadingSpec[];
  readonly style: CellStyle;
  onChange: ChangeRecord;
}

const SETTABLE: readonly { readonly value: ColumnId; readonly label: string }[] = [
  { value: 'method', label: 'measured' },
  { value: 'direction', label: 'direction' },
  { value: 'travelSd', label: 'travel deviation, mm' },
  { value: 'hornSd', label: 'horn deviation, °' },
  { value: 'hornRightSd', label: 'horn deviation to the right, °' },
];

/** One value for all readings at once: how they were measured, which way, how sure. One step, undone as one. */
export function ForAllReadings({ readings, style, onChange }: ForAllReadingsProps): ReactNode {
  const id = useId();
  const [columnId, setColumnId] = useState<ColumnId>('method');
  const [text, setText] = useState('');
  const [take, setTake] = useState('');
  const [said, setSaid] = useState<{ readonly kind: 'wrong' | 'done'; readonly words: string } | null>(null);
  const column = readingColumn(columnId);
  const takes = takesOf(readings);
  const scope = takes.includes(Number(take)) ? take : '';
  const set = (): void => {
    const read = column.read(text, style);
    if (read.kind === 'wrong') {
      setSaid({ kind: 'wrong', words: `“${text.trim()}” as ${column.label}. Allowed: ${read.allowed}.` });
      return;
    }
    const chosen = scope === '' ? null : Number(scope);
    let refused = 0;
    let count = 0;
    onChange((record) => {
      const result = withCellInAll(record.readings, columnId, text, style, chosen);
      refused = result.refused;
      count = result.readings.filter((reading, index) => reading !== record.readings[index]).length;
      return { ...record, readings: result.readings };
    });
    const left = refused === 0 ? '' : ` ${refused} had no ${columnId === 'travelSd' ? 'travel' : 'such horn angle'} and stayed as ${refused === 1 ? 'it was' : 'they were'}.`;
    setSaid({ kind: 'done', words: `Set in ${count} of ${readings.length} readings.${left}` });
  };
  return (
    <details className="for-all">
      <summary>One value for all readings: how measured, direction, deviation</summary>
      <div className="for-all__fields">
        {takes.length < 2 ? null : (
          <Picker
            label="In"
            options={[{ value: '', label: 'all readings' }, ...takes.map((one) => ({ value: String(one), label: `take ${one}` }))]}
            value={scope}
            onChange={setTake}
          />
        )}
        <Picker
          label="Set"
          options={SETTABLE}
          value={columnId}
          onChange={(value) => {
            setColumnId(value as ColumnId);
            setText('');
            setSaid(null);
          }}
        />
        {column.kind === 'choice' ? (
          <Picker
            label="to"
            options={[{ value: '', label: 'not said' }, ...column.choices.map(({ word }) => ({ value: word, label: word }))]}
            value={text}
            onChange={setText}
          />
        ) : (
          <div className="picker">
            <label htmlFor={id}>to</label>
            <input
              id={id}
              type="text"
              inputMode="decimal"
              autoComplete="off"
              value={text}
              placeholder="empty: by the method"
              aria-invalid={said?.kind === 'wrong' || undefined}
              aria-describedby={said?.kind === 'wrong' ? `${id}-said` : undefined}
              onChange={(event) => {
                setText(event.target.value);
                setSaid(null);
              }}
              onKeyDown={(event) => {
                if (event.key === 'Enter') set();
              }}
            />
          </div>
        )}
        <button type="button" disabled={readings.length === 0} onClick={set}>
          Set in {scope === '' ? 'all readings' : `take ${scope}`}
        </button>
      </div>
      <p className={said?.kind === 'wrong' ? 'number-field__wrong' : 'note'} id={`${id}-said`} role="status">
        {said?.kind === 'wrong' ? <strong>Not taken. </strong> : null}
        {said?.words}
      </p>
    </details>
  );
}
