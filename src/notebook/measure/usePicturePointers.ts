/** Pointers on the picture beside its marks: a tap puts a mark, a drag moves the picture, two fingers and the wheel make it larger or smaller. */
import { type PointerEvent, type RefObject, useEffect, useRef } from 'react';
import type { Point } from '../../measure/picture';

export interface PicturePointers {
  onTap(place: Point): void;
  onPan(by: Point): void;
  onZoom(factor: number, about: Point): void;
}

type Handler = (event: PointerEvent<HTMLDivElement>) => void;

export interface PointerHandlers {
  readonly onPointerDown: Handler;
  readonly onPointerMove: Handler;
  readonly onPointerUp: Handler;
  readonly onPointerCancel: Handler;
}

/** A press that moves less is a tap, CSS px. */
const TAP_PX = 5;
/** One notch of a usual wheel (100 px) makes the picture larger by a sixth. */
const WHEEL_PER_PX = 0.0015;

export function usePicturePointers(frame: RefObject<HTMLDivElement | null>, { onTap, onPan, onZoom }: PicturePointers): PointerHandlers {
  const down = useRef(new Map<number, Point>());
  const tap = useRef<Point | null>(null);
  const zoom = useRef(onZoom);
  useEffect(() => {
    zoom.current = onZoom;
  });
  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    // React listens to the wheel passively: the page would scroll besides.
    const onWheel = (event: WheelEvent): void => {
      event.preventDefault();
      zoom.current(Math.exp(-event.deltaY * WHEEL_PER_PX), placeIn(element, event));
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, [frame]);

  const place = (event: PointerEvent<HTMLDivElement>): Point => placeIn(event.currentTarget, event);
  return {
    onPointerDown: (event) => {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      down.current.set(event.pointerId, place(event));
      tap.current = down.current.size === 1 ? place(event) : null;
    },
    onPointerMove: (event) => {
      const before = down.current.get(event.pointerId);
      if (before === undefined) return;
      const now = place(event);
      const other = [...down.current].find(([id]) => id !== event.pointerId)?.[1];
      if (other !== undefined) {
        const [from, to] = [distance(before, other), distance(now, other)];
        if (from > 0) onZoom(to / from, middle(now, other));
        onPan({ x: (now.x - before.x) / 2, y: (now.y - before.y) / 2 });
      } else if (tap.current === null || distance(now, tap.current) > TAP_PX) {
        tap.current = null;
        onPan({ x: now.x - before.x, y: now.y - before.y });
      } else return;
      down.current.set(event.pointerId, now);
    },
    onPointerUp: (event) => {
      down.current.delete(event.pointerId);
      if (tap.current !== null) onTap(tap.current);
      tap.current = null;
    },
    onPointerCancel: (event) => {
      down.current.delete(event.pointerId);
      tap.current = null;
    },
  };
}

/** A pointer's place in an element, CSS px. */
export function placeIn(element: Element, { clientX, clientY }: { readonly clientX: number; readonly clientY: number }): Point {
  const { left, top } = element.getBoundingClientRect();
  return { x: clientX - left, y: clientY - top };
}

const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
const middle = (a: Point, b: Point): Point => ({ x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 });
