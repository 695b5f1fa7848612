import type { ReactNode } from 'react';
import type { NoteStyle } from '../../core/noteNaming';
import type { CellStyle } from '../../records/readingCell';
import { READING_COLUMNS } from '../../records/readingColumns';
import type { TableReading } from '../../records/readingsTable';
import { decimalSign } from '../../words/numbers';
import { sayReadings } from '../../words/readings';
import { tableWords } from './takenIn';

export interface TablePreviewProps {
  readonly fileName: string;
  readonly table: Extract<TableReading, { kind: 'table' }>;
  readonly notes: NoteStyle;
  readonly hasReadings: boolean;
  onReplace(): void;
  onAdd(): void;
  onLeave(): void;
}

/** What would be taken from a table, and which cells would not; nothing is changed yet. */
export function TablePreview({ fileName, table, notes, hasReadings, onReplace, onAdd, onLeave }: TablePreviewProps): ReactNode {
  const style: CellStyle = { ...notes, form: 'page', decimal: decimalSign() === ',' ? 'comma' : 'point' };
  const wrong = new Map(table.wrong.map((cell) => [`${cell.row} ${cell.column}`, cell]));
  const columns = READING_COLUMNS.filter(
    ({ id, show }) => table.readings.some((reading) => show(reading, style) !== '') || table.wrong.some((cell) => cell.column === id));
  return (
    <div className="incoming">
      <p>
        <strong>{fileName}</strong>. {tableWords('inIt', table.readings.length, table)} {sayReadings('nothingChanged')}
      </p>
      <div className="incoming__box" tabIndex={0} role="region" aria-label={sayReadings('fromFile', { file: fileName })}>
        <table className="figures">
          <thead>
            <tr>
              {columns.map(({ id, header }) => (
                <th key={id} scope="col">
                  {header}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {table.readings.map((reading, row) => (
              <tr key={row}>
                {columns.map(({ id, show }) => {
                  const cell = wrong.get(`${row} ${id}`);
                  return (
                    <td key={id} className={cell === undefined ? undefined : 'incoming__wrong'}>
                      {cell === undefined ? show(reading, style) : sayReadings('notTakenCell', { text: cell.text.trim() })}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {table.wrong.length === 0 ? null : (
        <p className="note">{sayReadings('wrongCellsCome')}</p>
      )}
      <TakeIn hasReadings={hasReadings} add={sayReadings('addTakes')} onReplace={onReplace} onAdd={onAdd} onLeave={onLeave} />
    </div>
  );
}

export interface TakeInProps {
  readonly hasReadings: boolean;
  readonly add: string;
  onReplace(): void;
  onAdd(): void;
  onLeave(): void;
}

export function TakeIn({ hasReadings, add, onReplace, onAdd, onLeave }: TakeInProps): ReactNode {
  return (
    <p className="row-actions__line">
      {hasReadings ? (
        <>
          <button type="button" onClick={onAdd}>
            {add}
          </button>
          <button type="button" onClick={onReplace}>
            {sayReadings('replace')}
          </button>
        </>
      ) : (
        <button type="button" onClick={onReplace}>
          {sayReadings('takeThem')}
        </button>
      )}
      <button type="button" className="quiet" onClick={onLeave}>
        {sayReadings('leaveIt')}
      </button>
    </p>
  );
}
