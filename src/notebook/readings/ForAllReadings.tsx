import { type ReactNode, useId, useState } from 'react';
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { readingColumn } from '../../records/readingColumns';
import { sayNotebook } from '../../words/notebook';
import { sayReadings } from '../../words/readings';
import { Picker } from '../Choice';
import type { ChangeRecord } from '../props';
import { takesOf, withCellInAll } from './readingsEdits';

export interface ForAllReadingsProps {
  readonly readings: readonly ReadingSpec[];
  readonly style: CellStyle;
  onChange: ChangeRecord;
}

const settable = (): readonly { readonly value: ColumnId; readonly label: string }[] => [
  { value: 'method', label: sayReadings('setMethod') },
  { value: 'direction', label: sayReadings('setDirection') },
  { value: 'travelSd', label: sayReadings('setTravelSd') },
  { value: 'travelRightSd', label: sayReadings('setTravelRightSd') },
  { value: 'hornSd', label: sayReadings('setHornSd') },
  { value: 'hornRightSd', label: sayReadings('setHornRightSd') },
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
      setSaid({ kind: 'wrong', words: sayReadings('cellWrong', { text: text.trim(), name: column.label, allowed: read.allowed }) });
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
    const left = refused === 0 ? '' : ` ${sayReadings('stayed', { count: refused, what: columnId.startsWith('travel') ? 'travel' : 'angle' })}`;
    setSaid({ kind: 'done', words: `${sayReadings('wasSet', { count, of: readings.length })}${left}` });
  };
  return (
    <details className="for-all">
      <summary>{sayReadings('forAll')}</summary>
      <div className="for-all__fields">
        {takes.length < 2 ? null : (
          <Picker
            label={sayReadings('in')}
            options={[{ value: '', label: sayReadings('allReadings') }, ...takes.map((one) => ({ value: String(one), label: sayReadings('take', { take: one }) }))]}
            value={scope}
            onChange={setTake}
          />
        )}
        <Picker
          label={sayReadings('set')}
          options={settable()}
          value={columnId}
          onChange={(value) => {
            setColumnId(value as ColumnId);
            setText('');
            setSaid(null);
          }}
        />
        {column.kind === 'choice' ? (
          <Picker
            label={sayReadings('to')}
            options={[{ value: '', label: sayReadings('notSaid') }, ...column.choices.map(({ word }) => ({ value: word, label: word }))]}
            value={text}
            onChange={setText}
          />
        ) : (
          <div className="picker">
            <label htmlFor={id}>{sayReadings('to')}</label>
            <input
              id={id}
              type="text"
              inputMode="decimal"
              autoComplete="off"
              value={text}
              placeholder={sayReadings('emptyByMethod')}
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
          {sayReadings('setIn', { scope: scope === '' ? 'all' : 'take', take: scope })}
        </button>
      </div>
      <p className={said?.kind === 'wrong' ? 'number-field__wrong' : 'note'} id={`${id}-said`} role="status">
        {said?.kind === 'wrong' ? <strong>{sayNotebook('notTaken')} </strong> : null}
        {said?.words}
      </p>
    </details>
  );
}
