import { type ReactElement, useMemo } from 'react';
import type { LiveSource } from '../../core/analysis';
import { MovingText } from '../../notebook/Moving';
import type { Follower } from '../follower';
import { sayBeside } from '../../words/beside';

interface CaptionProps {
  readonly name: string;
  /** What is said of this player; '' while there is nothing to say. */
  readonly said?: string;
  readonly follower: Follower;
  /** The other player, who has the note that this one lacks. */
  readonly driver: LiveSource | undefined;
  readonly noteName: (midi: number) => string;
}

/** Over a picture of two: who is seen, and where the other goes on without them. */
export function Caption({ name, said = '', follower, driver, noteName }: CaptionProps): ReactElement {
  const missing = useMemo(
    () => ({
      current: () => {
        const midi = driver?.current()?.midi ?? null;
        return follower.hasNote() || midi === null ? '' : sayBeside('hasNoNote', { note: noteName(Math.round(midi)) });
      },
      subscribe: (listener: () => void) => {
        const stops = [follower.subscribe(listener), driver?.subscribe(listener)];
        return () => {
          for (const stop of stops) stop?.();
        };
      },
    }),
    [follower, driver, noteName],
  );
  return (
    <div className="stage-caption">
      <p>
        <strong>{name}</strong> <MovingText className="stage-caption__missing" of={missing} words={asIs} />
      </p>
      {said === '' ? null : <p className="stage-caption__said">{said}</p>}
    </div>
  );
}

const asIs = (words: string): string => words;
