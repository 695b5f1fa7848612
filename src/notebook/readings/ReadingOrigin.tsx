import { type ReactNode, useId } from 'react';
import type { Origin } from '../../records/tracedReadings';
import { sayReadings } from '../../words/readings';
import { formatFixed } from '../numberText';

export interface ReadingOriginProps {
  readonly origin: Origin;
  onShow(): void;
}

/** Where a reading was measured, with a way back to the frame it came from; nothing for one that was typed. */
export function ReadingOrigin({ origin, onShow }: ReadingOriginProps): ReactNode {
  const words = useId();
  if (origin.kind === 'none') return null;
  if (origin.kind === 'gone') return <p className="note reading-origin">{origin.message}</p>;
  return (
    <p className="reading-origin">
      <span id={words}>{originWords(origin)}</span>{' '}
      <button type="button" aria-describedby={words} onClick={onShow}>
        {sayReadings('showIt')}
      </button>
    </p>
  );
}

/** "Measured from front.mp4 at 4.07 s (19 frames), since changed by hand." */
export function originWords({ source, frameS, frames, isChanged }: Extract<Origin, { kind: 'found' }>): string {
  return sayReadings('origin', {
    name: source.name,
    timed: frameS === null ? 'no' : 'yes',
    seconds: frameS === null ? '' : formatFixed(frameS, 2),
    counted: frames === null ? 'no' : 'yes',
    frames: frames ?? 0,
    changed: isChanged ? 'yes' : 'no',
  });
}
