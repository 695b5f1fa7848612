/** Turning the picture by pointer or keys: looks only, changes no data. */
import { useRef, type KeyboardEvent, type PointerEvent, type RefObject } from 'react';
import type { CameraControl } from './CameraRig';

const TURN_DEG_A_PX = 0.35;
const TURN_DEG_A_KEY = 5;

/** Several cameras that look the same way turn together. */
export function useOrbit(controls: readonly RefObject<CameraControl | null>[], mirrored: boolean, still: boolean) {
  const last = useRef<{ id: number; x: number; y: number } | null>(null);
  const side = mirrored ? -1 : 1;
  const turnAll = (azimuthDeg: number, elevationDeg: number): void => {
    for (const { current } of controls) current?.turn(azimuthDeg, elevationDeg);
  };
  const zoomAll = (factor: number): void => {
    for (const { current } of controls) current?.zoom(factor);
  };
  const release = (event: PointerEvent<HTMLElement>): void => {
    if (last.current?.id === event.pointerId) last.current = null;
  };
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      // One finger turns; another that comes down, here or beside one on the rim, does not take the picture over.
      if (event.button !== 0 || still || last.current) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      last.current = { id: event.pointerId, x: event.clientX, y: event.clientY };
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const from = last.current;
      if (from?.id !== event.pointerId) return;
      turnAll((event.clientX - from.x) * TURN_DEG_A_PX * side, (event.clientY - from.y) * TURN_DEG_A_PX);
      last.current = { id: event.pointerId, x: event.clientX, y: event.clientY };
    },
    onPointerUp: release,
    onPointerCancel: release,
    onLostPointerCapture: release,
    onKeyDown(event: KeyboardEvent) {
      const turns: Record<string, readonly [number, number]> = {
        ArrowLeft: [-TURN_DEG_A_KEY * side, 0],
        ArrowRight: [TURN_DEG_A_KEY * side, 0],
        ArrowUp: [0, TURN_DEG_A_KEY],
        ArrowDown: [0, -TURN_DEG_A_KEY],
      };
      const turn = turns[event.key];
      if (turn) turnAll(...turn);
      else if (event.key === '+' || event.key === '=') zoomAll(1 / 1.12);
      else if (event.key === '-') zoomAll(1.12);
      else return;
      event.preventDefault();
    },
  };
}
