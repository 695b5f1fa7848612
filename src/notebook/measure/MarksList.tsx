import type { ReactNode } from 'react';
import type { ViewFrom } from '../../measure/marks';
import { groupName, markName } from './markNames';
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
      <h3>Marks</h3>
      {groups.map(([group, own]) => (
        <div key={group} className="marks-group" role="group" aria-label={group}>
          <span className="marks-group__name">
            {group} <span className="note">{`${own.filter((id) => markAt(marks, id) !== null).length} of ${own.length}`}</span>
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
              One more point on the rim
            </button>
            <button type="button" className="quiet" onClick={() => onActivate(furtherMark(marks, 'lip'))}>
              {marks.lipLine.length === 0 ? 'Mark the lip line (clear rim)' : 'One more point on the lip line'}
            </button>
            <label className="tick">
              <input type="checkbox" checked={snaps} onChange={(event) => onSnaps(event.target.checked)} />
              rim points snap to the edge
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
        aria-label={`${name}, ${isActive ? 'next' : isPut ? 'put' : 'not yet put'}`}
        onClick={() => onActivate(id)}
      >
        {shortName(name)}
      </button>
      {isPut ? (
        <button type="button" className="mark-item__take" aria-label={`Take away: ${name}`} onClick={() => onTake(id)}>
          ×
        </button>
      ) : null}
    </li>
  );
}

/** Within a group that has a name already: "point 3", "near the rim". */
function shortName(name: string): string {
  const parts = name.split(', ');
  const short = parts.at(-1)!;
  return parts.length > 1 ? short.replace(/^point /, '') : short;
}
