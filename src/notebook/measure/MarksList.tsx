import type { ReactNode } from 'react';
import type { ViewFrom } from '../../measure/marks';
import { sayMarking } from '../../words/marking';
import { groupName, markName, shortMarkName } from './markNames';
import { type DraftMarks, type MarkId, furtherMark, markAt, marksAsked, marksPut } from './marksEdits';

export interface MarksListProps {
  readonly marks: DraftMarks;
  readonly view: ViewFrom;
  readonly active: MarkId | null;
  readonly snaps: boolean;
  onActivate(id: MarkId): void;
  onTake(id: MarkId): void;
  onSnaps(on: boolean): void;
}

/** Every mark with its state: put, next, or not yet; each can be chosen, and what is put can be taken away. */
export function MarksList({ marks, view, active, snaps, onActivate, onTake, onSnaps }: MarksListProps): ReactNode {
  const ids = [...new Set([...marksAsked(view), ...marksPut(marks)])];
  const groups = [...new Set(ids.map(groupName))].map((group) => [group, ids.filter((id) => groupName(id) === group)] as const);
  return (
    <div className="part">
      <h3>{sayMarking('marks')}</h3>
      {groups.map(([group, own]) => (
        <div key={group} className="marks-group" role="group" aria-label={group}>
          <span className="marks-group__name">
            {group} <span className="note">{sayMarking('countOf', { count: own.filter((id) => markAt(marks, id) !== null).length, of: own.length })}</span>
          </span>
          <ul className="marks-group__marks">
            {own.map((id) => (
              <MarkItem key={id} id={id} isPut={markAt(marks, id) !== null} isActive={id === active} onActivate={onActivate} onTake={onTake} />
            ))}
          </ul>
        </div>
      ))}
      <div className="button-row button-row--wraps">
        {view === 'front' ? (
          <>
            <button type="button" className="quiet" onClick={() => onActivate(furtherMark(marks, 'rim'))}>
              {sayMarking('moreRim')}
            </button>
            <button type="button" className="quiet" onClick={() => onActivate(furtherMark(marks, 'lip'))}>
              {sayMarking(marks.lipLine.length === 0 ? 'firstLip' : 'moreLip')}
            </button>
            <label className="tick">
              <input type="checkbox" checked={snaps} onChange={(event) => onSnaps(event.target.checked)} />
              {sayMarking('snaps')}
            </label>
          </>
        ) : null}
      </div>
    </div>
  );
}

type MarkItemProps = Pick<MarksListProps, 'onActivate' | 'onTake'> & { readonly id: MarkId; readonly isPut: boolean; readonly isActive: boolean };

function MarkItem({ id, isPut, isActive, onActivate, onTake }: MarkItemProps): ReactNode {
  const name = markName(id);
  return (
    <li className="mark-item" data-put={isPut}>
      <button
        type="button"
        className="mark-item__choose"
        aria-pressed={isActive}
        aria-label={sayMarking('markState', { mark: name, state: isActive ? 'next' : isPut ? 'put' : 'open' })}
        onClick={() => onActivate(id)}
      >
        {shortMarkName(id)}
      </button>
      {isPut ? (
        <button type="button" className="mark-item__take" aria-label={sayMarking('takeMark', { mark: name })} onClick={() => onTake(id)}>
          ×
        </button>
      ) : null}
    </li>
  );
}
