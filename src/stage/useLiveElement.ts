/** Writes the live frame to an element of the page, without rendering anything: at once, after every drawing around it, and at each new frame. */
import { useLayoutEffect, useRef, type RefObject } from 'react';
import type { LiveFrame, LiveSource } from '../core/analysis';

export function useLiveElement<E extends Element>(live: LiveSource, write: (element: E, frame: LiveFrame) => void): RefObject<E | null> {
  const element = useRef<E>(null);
  const latest = useRef(write);
  useLayoutEffect(() => {
    latest.current = write;
    const frame = live.current();
    if (element.current !== null && frame !== null) write(element.current, frame);
  });
  useLayoutEffect(
    () =>
      live.subscribe(() => {
        const frame = live.current();
        if (element.current !== null && frame !== null) latest.current(element.current, frame);
      }),
    [live],
  );
  return element;
}
