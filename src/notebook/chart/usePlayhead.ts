import { useCallback, useEffect, useRef, type RefObject } from 'react';
import type { LiveFrame, LiveSource } from '../../core/analysis';
import { type Scale, toPixels } from './scale';

/**
 * Moves a group of the drawing with the live frame, outside React. `place` gives where it stands, in the drawing's pixels,
 * or null to hide it; it must keep its identity while nothing changed.
 */
export function usePlayhead(
  live: LiveSource,
  place: (frame: LiveFrame) => readonly [number, number] | null,
): RefObject<SVGGElement | null> {
  const group = useRef<SVGGElement>(null);
  useEffect(() => {
    const move = (): void => {
      const element = group.current;
      if (!element) return;
      const frame = live.current();
      const at = frame ? place(frame) : null;
      element.setAttribute('visibility', at ? 'visible' : 'hidden');
      if (at) element.setAttribute('transform', `translate(${at[0].toFixed(2)} ${at[1].toFixed(2)})`);
    };
    move();
    return live.subscribe(move);
  }, [live, place]);
  return group;
}

/** The playhead of a chart against pitch: along its axis, and hidden off it. `pitch` must keep its identity while nothing changed. */
export function usePitchPlayhead(live: LiveSource, pitch: Scale): RefObject<SVGGElement | null> {
  const place = useCallback(
    ({ midi }: LiveFrame) => {
      const [low, high] = pitch.from;
      return midi === null || midi < low || midi > high ? null : ([toPixels(pitch, midi), 0] as const);
    },
    [pitch],
  );
  return usePlayhead(live, place);
}
