import type { ReactNode } from 'react';
import type { ViewFrom } from '../../measure/marks';
import { sayMarking } from '../../words/marking';
import { markHint, markName } from './markNames';
import type { MarkId } from './marksEdits';

export interface NextStepProps {
  readonly active: MarkId | null;
  readonly view: ViewFrom;
  /** Stands behind the mark that is asked for. */
  readonly beside?: ReactNode;
  /** What is said where no mark is asked for. */
  readonly children: ReactNode;
}

/** What to do now, in one line that does not move. */
export function NextStep({ active, view, beside, children }: NextStepProps): ReactNode {
  return (
    <p className="measure__next">
      {active === null ? (
        children
      ) : (
        <>
          <strong>{sayMarking('nextMark', { mark: markName(active) })}</strong> {sayMarking('tapPicture', { hint: markHint(active, view) })}
          {beside}
        </>
      )}
    </p>
  );
}
