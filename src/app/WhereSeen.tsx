import { type ReactNode, useMemo } from 'react';
import { ReadingOrigin } from '../notebook/readings/ReadingOrigin';
import { originOf } from '../records/tracedReadings';
import { useUnhurried } from './SessionContext';
import { frameDoor } from './frameDoor';

/** Where the selected reading was measured. */
export function WhereSeen(): ReactNode {
  const lesson = useUnhurried((now) => now.lesson);
  const reading = useUnhurried((now) => now.record.readings[now.selected]);
  const origin = useMemo(() => originOf(lesson, reading ?? {}), [lesson, reading]);
  return (
    <ReadingOrigin
      origin={origin}
      onShow={() => {
        if (origin.kind === 'found') frameDoor.wish({ measuringId: origin.measuring.id, sourceIndex: origin.sourceIndex, frameS: origin.frameS });
      }}
    />
  );
}
