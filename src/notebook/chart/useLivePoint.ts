import { useMemo } from 'react';
import type { HornAngles, LiveSource } from '../../core/analysis';
import type { Moving } from '../Moving';
import type { AnglePoint } from './props';

/**
 * A note of the chart as the live frame has it while the rim stands at that note: a hand that drags it is followed at once, whereas
 * the chart around it is drawn anew when the hand pauses. Away from the note it is as given.
 */
export function useLivePoint(live: LiveSource, point: AnglePoint, home: HornAngles | undefined): Moving<AnglePoint> {
  return useMemo(
    () => ({
      subscribe: live.subscribe,
      current: () => {
        const frame = live.current();
        if (home === undefined || frame === null || frame.midi !== point.midi || frame.direction !== (point.direction ?? null)) return point;
        const { elevationDeg, lateralDeg } = frame.follow.pose;
        return { ...point, predicted: { elevationDeg: elevationDeg - home.elevationDeg, lateralDeg: lateralDeg - home.lateralDeg } };
      },
    }),
    [live, point, home],
  );
}
