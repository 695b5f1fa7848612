import { useRef, type PointerEvent } from 'react';

export interface ScrubHandlers {
  /** The strip's own CSS zoom. */
  readonly zoom: number;
  /** The pointer was dragged to this place, px from the sheet's left edge. */
  readonly onMove: (xPx: number) => void;
  /** Pressed and let go in one place. */
  readonly onClick: (xPx: number) => void;
  /** A drag is over. */
  readonly onEnd: () => void;
}

/** Less than this is a hand that trembles, not a drag. */
const DRAG_THRESHOLD_PX = 4;

/** Pointer handlers for a strip that is clicked or dragged along; the pointer may leave the strip meanwhile. */
export function useScrub(handlers: ScrubHandlers) {
  const press = useRef<{ readonly clientX: number; dragged: boolean } | null>(null);
  const place = (event: PointerEvent<HTMLElement>): number =>
    (event.clientX - event.currentTarget.getBoundingClientRect().left) / handlers.zoom;
  return {
    onPointerDown(event: PointerEvent<HTMLElement>): void {
      if (event.button !== 0 || !event.isPrimary) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      press.current = { clientX: event.clientX, dragged: false };
    },
    onPointerMove(event: PointerEvent<HTMLElement>): void {
      if (!press.current) return;
      press.current.dragged ||= Math.abs(event.clientX - press.current.clientX) >= DRAG_THRESHOLD_PX;
      if (press.current.dragged) handlers.onMove(place(event));
    },
    onPointerUp(event: PointerEvent<HTMLElement>): void {
      const pressed = press.current;
      press.current = null;
      if (!pressed) return;
      if (pressed.dragged) handlers.onEnd();
      else handlers.onClick(place(event));
    },
    onPointerCancel(): void {
      if (press.current?.dragged) handlers.onEnd();
      press.current = null;
    },
  };
}
