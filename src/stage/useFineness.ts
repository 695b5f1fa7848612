/**
 * How finely the picture is drawn, in canvas pixels a CSS pixel. With a graphics card always as finely as the screen shows it, edges smoothed by
 * the card. Without one that takes tenths of a second a picture: then coarsely while something moves, and once more finely when it stands.
 */
import { useEffect, useMemo, useSyncExternalStore } from 'react';
import type { LiveSource } from '../core/analysis';
import { createMovement } from './movement';
import type { FixedFineness } from './props';
import { drawsInSoftware } from './webgl';

export interface Fineness {
  readonly dpr: number | [number, number];
  /** Smoothing by the card, settled when the canvas is made. */
  readonly antialias: boolean;
  /** To be told when the camera moves. */
  readonly onCameraMove: () => void;
}

/** Finer than most screens, where nothing else smooths the edges: scaled down to them, they come out smooth. */
const FINE_DPR = 2;
export const COARSE_DPR = 1;
/** A window of 1920 × 1080 is drawn finely; what is larger the less, the finer its own screen. */
const MOST_PIXELS = 4 * 1920 * 1080;

export function useFineness(live: LiveSource, fixed?: FixedFineness): Fineness {
  const software = drawsInSoftware();
  const movement = useMemo(createMovement, []);
  useEffect(() => (software && fixed === undefined ? live.subscribe(movement.step) : undefined), [live, movement, software, fixed]);
  const moving = useSyncExternalStore(movement.subscribe, movement.isMoving);
  if (fixed !== undefined) return { ...fixed, onCameraMove: nothing };
  if (!software) return BY_CARD;
  return { dpr: moving ? COARSE_DPR : fineDpr(window.innerWidth * window.innerHeight), antialias: false, onCameraMove: movement.step };
}

const nothing = (): void => undefined;
/** One and the same, so that the canvas is not set up anew for it. */
const BY_CARD: Fineness = { dpr: [1, FINE_DPR], antialias: true, onCameraMove: nothing };

/** For a window of so many CSS pixels. */
export const fineDpr = (pixels: number): number => Math.min(FINE_DPR, Math.max(COARSE_DPR, Math.sqrt(MOST_PIXELS / pixels)));
