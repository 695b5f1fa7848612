/**
 * How finely the picture is drawn, in canvas pixels a CSS pixel. With a graphics card always as finely as the screen shows it, edges smoothed by
 * the card. Without one that takes tenths of a second a picture: then coarsely while something moves, and once more finely when it stands.
 */
import { useEffect, useState } from 'react';
import type { LiveSource } from '../core/analysis';
import { drawsInSoftware } from './webgl';

export interface Fineness {
  readonly dpr: number | [number, number];
  /** Smoothing by the card, settled when the canvas is made. */
  readonly antialias: boolean;
}

/** Finer than most screens, where nothing else smooths the edges: scaled down to them, they come out smooth. */
const FINE_DPR = 2;
const COARSE_DPR = 1;
/** The picture stands when no frame has come for this long, ms: longer than a coarse one takes. */
const STANDS_AFTER_MS = 1000;

/** `handled`: a hand is on the rim or turns the picture. */
export function useFineness(live: LiveSource, handled: boolean): Fineness {
  const software = drawsInSoftware();
  // A hand says itself that it moves something.
  const moves = useMovement(live, software && !handled);
  if (!software) return { dpr: [1, FINE_DPR], antialias: true };
  return { dpr: handled || moves ? COARSE_DPR : FINE_DPR, antialias: false };
}

/** True from a live frame until none has come for a while; always false where nobody asks. */
function useMovement(live: LiveSource, asked: boolean): boolean {
  const [moves, setMoves] = useState(false);
  useEffect(() => {
    if (!asked) return undefined;
    let last = 0;
    let timer: ReturnType<typeof setTimeout> | null = null;
    const look = (): void => {
      const left = last + STANDS_AFTER_MS - performance.now();
      timer = left > 0 ? setTimeout(look, Math.ceil(left)) : null;
      if (timer === null) setMoves(false);
    };
    const stop = live.subscribe(() => {
      last = performance.now();
      if (timer !== null) return;
      timer = setTimeout(look, STANDS_AFTER_MS);
      setMoves(true);
    });
    return () => {
      stop();
      if (timer !== null) clearTimeout(timer);
      setMoves(false);
    };
  }, [live, asked]);
  return moves;
}
