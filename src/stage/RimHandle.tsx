/** The rim's handle: an invisible shape over the drawn rim with a small grip; pointer, touch and arrow keys move the rim. */
import { useEffect, useRef, type KeyboardEvent, type PointerEvent, type RefObject } from 'react';
import { travelFromFrontal } from '../core/frame';
import type { LiveSource } from '../core/analysis';
import type { StageWords, Travel } from './props';

interface HandleProps {
  readonly live: LiveSource;
  readonly words: StageWords;
  readonly handle: RefObject<HTMLButtonElement | null>;
  /** Frontal position under a pointer (client px) in the plane through a point; null when there is none. */
  readonly pointUnder: (clientX: number, clientY: number, through: readonly [number, number, number]) => { x: number; y: number } | null;
  /** Which way the right arrow moves the rim so that it goes right in the picture: + to the player's right, − to the left. */
  readonly arrowRight: () => 1 | -1;
  readonly onDragStart: () => void;
  readonly onDragTravel: (travel: Travel) => void;
  readonly onDragEnd: () => void;
  readonly onNudge: (step: Travel) => void;
}

export const NUDGE_MM = 0.1;
export const SHIFT_NUDGE_MM = 1;

/**
 * A drag under way. Each move counts from the pointer's last place, and both are looked up as the picture lies now: a picture that
 * takes another size or place under the hand moves nothing, and one pixel of the hand stays one pixel of the rim.
 */
interface Grab {
  readonly pointer: number;
  readonly clientX: number;
  readonly clientY: number;
  readonly through: readonly [number, number, number];
  readonly travel: Travel;
}

export function RimHandle(props: HandleProps) {
  const { live, words, handle, pointUnder, arrowRight, onDragStart, onDragTravel, onDragEnd, onNudge } = props;
  const grab = useRef<Grab | null>(null);
  const wanted = useRef<Travel | null>(null);
  const asked = useRef(0);
  useEffect(() => () => cancelAnimationFrame(asked.current), []);

  const send = (): void => {
    asked.current = 0;
    if (wanted.current) onDragTravel(wanted.current);
    wanted.current = null;
  };
  const press = (event: PointerEvent<HTMLButtonElement>): void => {
    const frame = live.current();
    // A second finger does not take the rim from the first.
    if (!frame || event.button !== 0 || grab.current) return;
    const { clientX, clientY, pointerId: pointer } = event;
    const through = frame.shown.rimCentreMm;
    if (!pointUnder(clientX, clientY, through)) return;
    // No mouse events besides, which would cost as much again at every move, and no selecting of text. Focus, for the arrow keys, it has to be
    // given then; the ring is for those who come by keys.
    event.preventDefault();
    event.currentTarget.focus(QUIETLY);
    event.currentTarget.setPointerCapture(pointer);
    grab.current = { pointer, clientX, clientY, through, travel: frame.travel };
    onDragStart();
  };
  const move = (event: PointerEvent<HTMLButtonElement>): void => {
    const held = grab.current;
    if (!held || held.pointer !== event.pointerId) return;
    const { clientX, clientY } = event;
    const from = pointUnder(held.clientX, held.clientY, held.through);
    const to = pointUnder(clientX, clientY, held.through);
    if (!from || !to) return;
    const moved = travelFromFrontal(to.x - from.x, to.y - from.y);
    const travel = { upMm: held.travel.upMm + moved.upMm, rightMm: held.travel.rightMm + moved.rightMm };
    grab.current = { ...held, clientX, clientY, travel };
    wanted.current = travel;
    // One answer a frame, however many moves the pointer reports.
    if (!asked.current) asked.current = requestAnimationFrame(send);
  };
  const release = (event: PointerEvent<HTMLButtonElement>): void => {
    if (grab.current?.pointer !== event.pointerId) return;
    grab.current = null;
    cancelAnimationFrame(asked.current);
    send();
    onDragEnd();
  };
  const keys = (event: KeyboardEvent): void => {
    const step = event.shiftKey ? SHIFT_NUDGE_MM : NUDGE_MM;
    const { x, y } = ARROWS[event.key] ?? { x: 0, y: 0 };
    if (x === 0 && y === 0) return;
    event.preventDefault();
    event.stopPropagation();
    onNudge({ upMm: y * step, rightMm: x * arrowRight() * step });
  };
  return (
    <button
      ref={handle}
      type="button"
      className="stage-handle"
      aria-label={words.handle}
      aria-keyshortcuts="ArrowUp ArrowDown ArrowLeft ArrowRight"
      onPointerDown={press}
      onPointerMove={move}
      onPointerUp={release}
      onPointerCancel={release}
      onLostPointerCapture={release}
      onKeyDown={keys}
    >
      <span className="stage-grip" aria-hidden="true">
        <svg viewBox="0 0 24 24" width="18" height="18">
          <path d="M12 3v18M3 12h18M12 3l-3 3M12 3l3 3M12 21l-3-3M12 21l3-3M3 12l3-3M3 12l3 3M21 12l-3-3M21 12l-3 3" fill="none" stroke="currentColor" strokeWidth="1.8" strokeLinecap="round" strokeLinejoin="round" />
        </svg>
      </span>
    </button>
  );
}

/** `focusVisible` is in the HTML standard and not yet in TypeScript's types. */
const QUIETLY: FocusOptions & { readonly focusVisible: boolean } = { preventScroll: true, focusVisible: false };

const ARROWS: Readonly<Record<string, { readonly x: number; readonly y: number }>> = {
  ArrowUp: { x: 0, y: 1 },
  ArrowDown: { x: 0, y: -1 },
  ArrowRight: { x: 1, y: 0 },
  ArrowLeft: { x: -1, y: 0 },
};
