/** The marked tooth edges one by one: which of them are the midline and the canines, and which is to go. */
import type { ReactNode } from 'react';
import { sayOwnArch } from '../../../words/ownArch';
import { Picker } from '../../Choice';
import type { PrintTooth, ToothMark } from './printMarks';
import { toothOptions } from './printWords';

export interface TeethListProps {
  readonly teeth: readonly ToothMark[];
  onName(at: number, tooth: PrintTooth | null): void;
  onTake(at: number): void;
  onExchange(): void;
}

export function TeethList({ teeth, onName, onTake, onExchange }: TeethListProps): ReactNode {
  const summary = sayOwnArch('printPoints', { count: teeth.length });
  if (teeth.length === 0) return <p className="note">{summary}</p>;
  return (
    <>
      <details>
        <summary>{summary}</summary>
        <ol className="print-teeth">
          {teeth.map(({ tooth }, at) => (
            <li key={at}>
              <Picker
                label={sayOwnArch('printTooth', { number: at + 1 })}
                options={toothOptions()}
                value={tooth ?? ''}
                onChange={(name) => onName(at, name === '' ? null : (name as PrintTooth))}
              />
              <button type="button" className="quiet" aria-label={sayOwnArch('printTake', { number: at + 1 })} onClick={() => onTake(at)}>
                ×
              </button>
            </li>
          ))}
        </ol>
      </details>
      {teeth.length < 2 ? null : (
        <div className="button-row">
          <button type="button" className="quiet" onClick={onExchange}>
            {sayOwnArch('printExchange')}
          </button>
        </div>
      )}
    </>
  );
}
