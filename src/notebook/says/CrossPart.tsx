/** Over the teacher's own players: counted when it is asked for, since every kept player has to be looked at. */
import type { ReactNode } from 'react';
import { FEWEST_PLAYERS } from '../../core/findings/crossTable';
import { saySays } from '../../words/says';
import { CrossTable } from './CrossTable';
import { SaysPart } from './SaysPart';
import type { CrossState } from './props';

export interface CrossPartProps {
  readonly cross: CrossState;
  onCross(): void;
  onCancelCross(): void;
}

export function CrossPart({ cross, onCross, onCancelCross }: CrossPartProps): ReactNode {
  const isWorking = cross.kind === 'working';
  return (
    <SaysPart id="says-cross" heading={saySays('crossHeading')}>
      <p className="note">{saySays('crossExplained')}</p>
      {cross.kind === 'done' && <Counted {...cross} />}
      {cross.kind === 'failed' && <p className="says-answer says-answer--waiting">{cross.words}</p>}
      <div className="says-work">
        {/* One button throughout, so that whoever works by keys does not lose the place. */}
        <button type="button" onClick={isWorking ? onCancelCross : onCross}>
          {saySays(isWorking ? 'cancel' : cross.kind === 'not-asked' ? 'lookAtAll' : 'lookAgain')}
        </button>
        {isWorking && (
          <>
            <progress max={cross.of ?? 1} value={cross.of === null ? undefined : cross.done} aria-label={saySays('looking')} />
            <span>{cross.of === null ? '' : saySays('doneOf', { done: cross.done, of: cross.of })}</span>
          </>
        )}
        {cross.kind === 'done' && cross.behind && <span className="note">{saySays('keptChanged')}</span>}
      </div>
      <p className="only-heard" role="status">
        {cross.kind === 'done' ? saySays('lookedAt', { count: cross.kept }) : ''}
      </p>
    </SaysPart>
  );
}

type Done = Extract<CrossState, { kind: 'done' }>;

function Counted({ players, kept, leftOut, unreadable }: Done): ReactNode {
  const few = fewWords(kept, players.length);
  return (
    <>
      {few === null ? <CrossTable players={players} /> : <p className="says-answer says-answer--waiting">{few}</p>}
      {leftOut.length > 0 && (
        <div className="note">
          <p>{saySays('notCounted')}</p>
          <ul className="says-left-out">
            {leftOut.map(({ id, label, words }) => (
              <li key={id}>{saySays('leftOut', { named: label === '' ? 'no' : 'yes', label, why: words })}</li>
            ))}
          </ul>
        </div>
      )}
      {unreadable > 0 && <p className="note">{saySays('unreadable', { count: unreadable })}</p>}
    </>
  );
}

/** Why there is no table; null where there is one. `players`: those of the kept ones that could be looked at. */
export function fewWords(kept: number, players: number): string | null {
  if (players >= FEWEST_PLAYERS) return null;
  const fewest = FEWEST_PLAYERS;
  if (kept === 0) return saySays('noneKept', { fewest });
  if (kept === 1) return saySays('oneKept', { fewest });
  return saySays('fewSeen', { kept, seen: players === 0 ? 'none' : 'one', fewest });
}
