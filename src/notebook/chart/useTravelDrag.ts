import { useRef, useState } from 'react';
import type { Travel, TravelPoint } from './props';
import { movedTravel } from './travelEdit';

interface TravelDragOptions<Frozen> {
  readonly limitMm: number;
  readonly selected: number | null;
  readonly onSelect: (readingIndex: number) => void;
  readonly onTravel: (readingIndex: number, travel: Travel) => void;
  readonly onTravelEnd: (() => void) | undefined;
  /** The scales of this moment: they stay as they are while a point is dragged, or it would run from the pointer. */
  readonly scales: Frozen;
}

/** The course of a drag: where it began, what it froze, and what it reports. */
export function useTravelDrag<Frozen>(options: TravelDragOptions<Frozen>) {
  const [frozen, setFrozen] = useState<Frozen | null>(null);
  const begun = useRef<Travel | null>(null);
  const report = (point: TravelPoint, from: Travel, change: Partial<Travel>): void => {
    const travel = movedTravel(from, change, options.limitMm);
    if (travel.upMm !== point.upMm || travel.rightMm !== point.rightMm) options.onTravel(point.readingIndex, travel);
  };
  const select = (point: TravelPoint): void => {
    if (point.readingIndex !== options.selected) options.onSelect(point.readingIndex);
  };
  return {
    scales: frozen ?? options.scales,
    select,
    start(point: TravelPoint): void {
      begun.current = { upMm: point.upMm, rightMm: point.rightMm };
      select(point);
    },
    drag(point: TravelPoint, change: Partial<Travel>): void {
      if (!begun.current) return;
      if (frozen === null) setFrozen(() => options.scales);
      report(point, begun.current, change);
    },
    end(): void {
      begun.current = null;
      setFrozen(null);
      options.onTravelEnd?.();
    },
    nudge(point: TravelPoint, change: Partial<Travel>): void {
      select(point);
      report(point, point, change);
      options.onTravelEnd?.();
    },
  };
}
