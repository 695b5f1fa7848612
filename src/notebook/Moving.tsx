/**
 * What moves with the hand that drags the rim: written into the page as it moves, without rendering anything. The chapters themselves are
 * drawn anew when the hand pauses.
 */
import { type ReactNode, type RefObject, useLayoutEffect, useRef } from 'react';

/** A value that changes faster than the page is drawn; undefined while there is none, which leaves what was last shown. */
export interface Moving<T> {
  current(): T | undefined;
  subscribe(listener: () => void): () => void;
}

interface MovingTextProps<T> {
  readonly of: Moving<T>;
  readonly words: (value: T) => string;
  readonly className?: string;
}

/** Words made of a moving value. */
export function MovingText<T>({ of, words, className }: MovingTextProps<T>): ReactNode {
  const shown = useRef('');
  const text = useMoving<HTMLSpanElement, T>(of, (element, value) => {
    const now = words(value);
    // Kept here, as to ask the page is slower. Nobody else writes in this element.
    if (shown.current === now) return;
    shown.current = now;
    const { firstChild } = element;
    if (firstChild instanceof Text) firstChild.data = now;
    else element.textContent = now;
  });
  return <span className={className} ref={text} />;
}

/** Writes a moving value to an element: at once, after every drawing of the page around it, and whenever it moves. */
export function useMoving<E extends Element, T>(of: Moving<T> | undefined, write: (element: E, value: T) => void): RefObject<E | null> {
  const element = useRef<E>(null);
  const latest = useRef(write);
  useLayoutEffect(() => {
    latest.current = write;
    const value = of?.current();
    if (element.current !== null && value !== undefined) write(element.current, value);
  });
  useLayoutEffect(
    () =>
      of?.subscribe(() => {
        const value = of.current();
        if (element.current !== null && value !== undefined) latest.current(element.current, value);
      }),
    [of],
  );
  return element;
}
