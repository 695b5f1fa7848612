import { useCallback, useMemo, useSyncExternalStore } from 'react';
import type { HornAngles, LiveSource } from '../../core/analysis';
import type { AnglePoint } from './props';

/**
 * A note of the chart as the live frame has it while the rim stands at that note: a hand that drags it is followed at once, whereas
 * the chart around it is drawn anew when the hand pauses. Away from the note it is as given.
 */
export function useLivePoint(live: LiveSource, point: AnglePoint, home: HornAngles | undefined): AnglePoint {
  const { midi, direction } = point;
  const seat = useSyncExternalStore(
    live.subscribe,
    useCallback(() => {
      const frame = home === undefined ? null : live.current();
      return frame !== null && frame.midi === midi && frame.direction === (direction ?? null) ? frame.follow : null;
    }, [live, midi, direction, home]),
  );
  return useMemo(() => {
    if (seat === null || home === undefined) return point;
    const { elevationDeg, lateralDeg } = seat.pose;
    return { ...point, predicted: { elevationDeg: elevationDeg - home.elevationDeg, lateralDeg: lateralDeg - home.lateralDeg } };
  }, [seat, point, home]);
}
