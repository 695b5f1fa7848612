/** Whether the picture is moving: told at every step of what moves it, and telling when that has begun and when it has come to an end. */

export interface Movement {
  /** Something has moved: the rim, the horn, the camera. */
  step(): void;
  isMoving(): boolean;
  subscribe(listener: () => void): () => void;
}

/** No step for this long, ms, and the movement may be over. */
const STANDS_AFTER_MS = 1000;

/**
 * Where a picture takes longer than that, the next step may be waiting for its frame; so two frames have to pass as well: the first takes
 * a waiting step in.
 */
export function createMovement(): Movement {
  const listeners = new Set<() => void>();
  let last = -Infinity;
  let moving = false;
  const tell = (now: boolean): void => {
    moving = now;
    for (const listener of listeners) listener();
  };
  const look = (): void => {
    const at = last;
    const left = at + STANDS_AFTER_MS - performance.now();
    // One timer for all steps: to set one anew at each would cost more than the step does here.
    if (left > 0) setTimeout(look, Math.ceil(left));
    else requestAnimationFrame(() => requestAnimationFrame(() => (last === at ? tell(false) : look())));
  };
  return {
    step: () => {
      last = performance.now();
      if (moving) return;
      tell(true);
      setTimeout(look, STANDS_AFTER_MS);
    },
    isMoving: () => moving,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
