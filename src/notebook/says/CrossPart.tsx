/** Over the teacher's own players: counted when it is asked for, since every kept player has to be looked at. */
import { counted } from '../../core/words';
import type { ReactNode } from 'react';
import { FEWEST_PLAYERS } from '../../core/findings/crossTable';
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
    <SaysPart id="says-cross" heading="Over your own players">
      <p className="note">
        Separate observations counted side by side, over the players kept in this browser. Invented players count only once they are kept.
      </p>
      {cross.kind === 'done' && <Counted {...cross} />}
      {cross.kind === 'failed' && <p className="says-answer says-answer--waiting">{cross.words}</p>}
      <div className="says-work">
        {/* One button throughout, so that whoever works by keys does not lose the place. */}
        <button type="button" onClick={isWorking ? onCancelCross : onCross}>
          {isWorking ? 'Cancel' : cross.kind === 'not-asked' ? 'Look at all kept players' : 'Look again'}
        </button>
        {isWorking && (
          <>
            <progress max={cross.of ?? 1} value={cross.of === null ? undefined : cross.done} aria-label="Looking at the kept players" />
            <span>{cross.of === null ? '' : `${cross.done} of ${cross.of}`}</span>
          </>
        )}
        {cross.kind === 'done' && cross.behind && <span className="note">The kept players have changed since.</span>}
      </div>
      <p className="only-heard" role="status">
        {cross.kind === 'done' ? `Looked at ${counted(cross.kept, 'kept player')}.` : ''}
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
          <p>Not counted, since nothing can be worked out for them as they are kept:</p>
          <ul className="says-left-out">
            {leftOut.map(({ id, label, words }) => (
              <li key={id}>{`${label === '' ? 'A player without a label' : label}: ${words}`}</li>
            ))}
          </ul>
        </div>
      )}
      {unreadable > 0 && <p className="note">{`${counted(unreadable, 'kept player')} cannot be read and ${unreadable === 1 ? 'is' : 'are'} not counted.`}</p>}
    </>
  );
}

/** Why there is no table; null where there is one. `players`: those of the kept ones that could be looked at. */
export function fewWords(kept: number, players: number): string | null {
  if (players >= FEWEST_PLAYERS) return null;
  const needed = `A table needs at least ${FEWEST_PLAYERS}.`;
  if (kept === 0) return `No player is kept here yet. ${needed}`;
  if (kept === 1) return `Only one player is kept here. ${needed}`;
  return `Of the ${kept} kept players, ${players === 0 ? 'none' : 'only one'} could be looked at. ${needed}`;
}
