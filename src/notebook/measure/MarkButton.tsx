import { type KeyboardEvent, type PointerEvent, type ReactNode, useEffect, useRef } from 'react';
import type { Point } from '../../measure/picture';
import { stepOf } from './keySteps';

export interface MarkButtonProps {
  readonly name: string;
  /** Where it lies, for a screen reader. */
  readonly said: string;
  /** In the frame, CSS px. */
  readonly at: Point;
  /** The arrow keys step by tenths without Alt too. */
  readonly fine: boolean;
  /** Pressed and let go in the same place: on a small screen the next mark may have been meant, so near to this one. */
  onTap(client: { readonly clientX: number; readonly clientY: number }): void;
  /** CSS px from where the mark was taken up. */
  onDrag(by: Point, press: number): void;
  onDrop(): void;
  /** px of the picture. */
  onNudge(step: Point): void;
  onLeft(): void;
  onFocused(): void;
  onTake(): void;
}

/** A press that moves less only takes the mark in hand, CSS px. */
const DRAG_FROM_PX = 3;

/** A mark's handle: larger than what is drawn, moved by pointer and by keys. */
export function MarkButton({ name, said, at, fine, onTap, onDrag, onDrop, onNudge, onLeft, onFocused, onTake }: MarkButtonProps): ReactNode {
  const press = useRef<{ readonly pointer: number; readonly from: Point; moved: boolean } | null>(null);
  const presses = useRef(0);
  const left = useRef(onLeft);
  useEffect(() => {
    left.current = onLeft;
  });
  const release = (event: PointerEvent): void => {
    event.stopPropagation();
    if (press.current?.pointer !== event.pointerId) return;
    if (press.current.moved) onDrop();
    else if (event.type === 'pointerup') onTap(event);
    press.current = null;
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Delete' || event.key === 'Backspace') {
      event.preventDefault();
      onTake();
      return;
    }
    const step = stepOf(event, fine);
    if (step === null) return;
    event.preventDefault();
    event.stopPropagation();
    onNudge(step);
  };
  return (
    <button
      type="button"
      className="mark-button"
      aria-label={`${name}, ${said}`}
      aria-keyshortcuts="ArrowUp ArrowDown ArrowLeft ArrowRight Delete"
      style={{ left: at.x, top: at.y }}
      onPointerDown={(event) => {
        event.stopPropagation();
        if (event.button !== 0 || press.current !== null) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        presses.current += 1;
        press.current = { pointer: event.pointerId, from: { x: event.clientX, y: event.clientY }, moved: false };
      }}
      onPointerMove={(event) => {
        const held = press.current;
        if (held?.pointer !== event.pointerId) return;
        const by = { x: event.clientX - held.from.x, y: event.clientY - held.from.y };
        held.moved ||= Math.hypot(by.x, by.y) >= DRAG_FROM_PX;
        if (held.moved) onDrag(by, presses.current);
      }}
      onPointerUp={release}
      onPointerCancel={release}
      onKeyDown={onKeyDown}
      onFocus={onFocused}
      onBlur={() => left.current()}
    />
  );
}
