import { useRef, type HTMLAttributes, type KeyboardEvent, type PointerEvent } from 'react';

export interface DragHandleProps {
  /** CSS zoom of what the handle lies in. */
  readonly zoom: number;
  readonly xPx: number;
  readonly yPx: number;
  /** The selected point's handle lies above its neighbours'. */
  readonly onTop: boolean;
  readonly tabIndex: 0 | -1;
  /** Role, name and values for a screen reader. */
  readonly spoken: HTMLAttributes<HTMLDivElement>;
  readonly onStart: () => void;
  /** Pixels from where the pointer went down: across to the right, down. */
  readonly onDrag: (acrossPx: number, downPx: number) => void;
  readonly onEnd: () => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLDivElement>) => void;
}

/** A press that moves less selects without moving the point. */
const DRAG_THRESHOLD_PX = 3;

/** The part of a point that can be taken hold of: larger than the mark, by pointer and by keys. */
export function DragHandle(props: DragHandleProps) {
  const press = useRef<{ readonly x: number; readonly y: number; moved: boolean } | null>(null);
  const finish = (): void => {
    if (press.current?.moved) props.onEnd();
    press.current = null;
  };
  return (
    <div
      className="chart-handle"
      tabIndex={props.tabIndex}
      {...props.spoken}
      style={{ left: props.xPx, top: props.yPx, zIndex: props.onTop ? 2 : 1 }}
      onKeyDown={props.onKeyDown}
      onPointerDown={(event: PointerEvent<HTMLDivElement>) => {
        if (event.button !== 0 || !event.isPrimary) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        press.current = { x: event.clientX, y: event.clientY, moved: false };
        props.onStart();
      }}
      onPointerMove={(event) => {
        if (!press.current) return;
        const [across, down] = [event.clientX - press.current.x, event.clientY - press.current.y];
        press.current.moved ||= Math.hypot(across, down) >= DRAG_THRESHOLD_PX;
        if (press.current.moved) props.onDrag(across / props.zoom, down / props.zoom);
      }}
      onPointerUp={finish}
      onPointerCancel={finish}
    />
  );
}
