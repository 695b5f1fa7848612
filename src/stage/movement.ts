/** Whether the picture is moving: told at every step of what moves it, and telling when that has begun and when it has come to an end. */
import { createPause } from './pause';

export interface Movement {
  /** Something has moved: the rim, the horn, the camera. */
  step(): void;
  isMoving(): boolean;
  subscribe(listener: () => void): () => void;
}

/** No step for this long, ms, and two frames more: the movement is over. */
const STANDS_AFTER_MS = 1000;

export function createMovement(): Movement {
  const listeners = new Set<() => void>();
  let moving = false;
  const tell = (now: boolean): void => {
    if (now === moving) return;
    moving = now;
    for (const listener of listeners) listener();
  };
  const pause = createPause(() => tell(false), STANDS_AFTER_MS);
  return {
    step: () => {
      pause.wait();
      tell(true);
    },
    isMoving: () => moving,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
