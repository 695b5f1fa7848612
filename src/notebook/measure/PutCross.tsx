import { type KeyboardEvent, type ReactNode, useState } from 'react';
import type { Point } from '../../measure/picture';
import { stepOf } from './keySteps';
import { nudged } from './marksEdits';
import { type Size, type Viewport, isInside, toFrame, toPicture } from './viewport';

export interface PutCrossProps {
  readonly label: string;
  readonly view: Viewport;
  readonly frame: Size;
  readonly picture: Size;
  readonly fine: boolean;
  onMoved(point: Point): void;
  onPut(point: Point): void;
}

/** One press of an arrow key moves the cross so far on the page, CSS px: with Shift ten times, with Alt a tenth. */
const STEP_PX = 10;

/** For those who go by keys: a cross that the arrow keys move over the picture; Enter puts the mark there. Seen only while it has the focus. */
export function PutCross({ label, view, frame, picture, fine, onMoved, onPut }: PutCrossProps): ReactNode {
  const [moved, setMoved] = useState<Point | null>(null);
  const middle = nudged(toPicture(view, { x: frame.width / 2, y: frame.height / 2 }), { x: 0, y: 0 }, picture);
  const at = moved !== null && isInside(moved, picture) ? moved : middle;
  const place = toFrame(view, at);
  const onKeyDown = (event: KeyboardEvent): void => {
    const step = stepOf(event, fine);
    if (step === null) return;
    event.preventDefault();
    event.stopPropagation();
    const next = nudged(at, { x: (step.x * STEP_PX) / view.scale, y: (step.y * STEP_PX) / view.scale }, picture);
    setMoved(next);
    onMoved(next);
  };
  return (
    <button
      type="button"
      className="put-cross"
      aria-label={label}
      aria-keyshortcuts="ArrowUp ArrowDown ArrowLeft ArrowRight Enter"
      style={{ left: place.x, top: place.y }}
      onKeyDown={onKeyDown}
      onClick={() => {
        setMoved(at);
        onPut(at);
      }}
    >
      <svg viewBox="-20 -20 40 40" aria-hidden="true">
        <path className="mark-halo" d="M-18 0H-4M4 0H18M0 -18V-4M0 4V18" />
        <path className="mark-line" d="M-18 0H-4M4 0H18M0 -18V-4M0 4V18" />
      </svg>
    </button>
  );
}
