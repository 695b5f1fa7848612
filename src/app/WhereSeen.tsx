import { type ReactNode, useMemo } from 'react';
import { ReadingOrigin } from '../notebook/readings/ReadingOrigin';
import { originOf } from '../records/tracedReadings';
import { useApp, useUnhurried } from './SessionContext';
import { frameDoor } from './frameDoor';

/** Where the selected reading was measured. */
export function WhereSeen(): ReactNode {
  const lesson = useUnhurried((now) => now.lesson);
  const from = useApp((now) => now.record.readings[now.selected]?.from);
  const origin = useMemo(() => originOf(lesson, { from }), [lesson, from]);
  return (
    <ReadingOrigin
      origin={origin}
      onShow={() => {
        if (origin.kind === 'found') frameDoor.wish({ measuringId: origin.measuring.id, sourceIndex: origin.sourceIndex, frameS: origin.frameS });
      }}
    />
  );
}
