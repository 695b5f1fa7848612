/** When what moves has paused: a hand that drags the rim, or all that moves the picture. */

export interface Pause {
  /** Something moved: wait anew. */
  wait(): void;
  callOff(): void;
}

/**
 * Calls back when nothing has moved for `ms`. Where frames take longer than that, the next move may be waiting for its frame; so two
 * frames have to pass as well: the first takes a waiting move in, which calls the second off.
 */
export function createPause(onPause: () => void, ms: number): Pause {
  let frame = 0;
  const delay = createDelay(() => {
    frame = requestAnimationFrame(() => {
      frame = requestAnimationFrame(() => {
        frame = 0;
        onPause();
      });
    });
  }, ms);
  const callOff = (): void => {
    delay.callOff();
    if (frame !== 0) cancelAnimationFrame(frame);
    frame = 0;
  };
  return {
    wait: () => {
      callOff();
      delay.wait();
    },
    callOff,
  };
}

/**
 * Calls `run` once when `ms` have gone by since the last `wait`. Its timer is left alone at every step but looks, when it ends, whether it
 * is time yet: a timer set and cleared at each step of a hand costs more than the step's own bookkeeping.
 */
function createDelay(run: () => void, ms: number): Pause {
  let dueMs = Infinity;
  let timer: ReturnType<typeof setTimeout> | null = null;
  const look = (): void => {
    timer = null;
    const leftMs = dueMs - performance.now();
    if (leftMs === Infinity) return;
    if (leftMs > 0) timer = setTimeout(look, Math.ceil(leftMs));
    else {
      dueMs = Infinity;
      run();
    }
  };
  return {
    wait: () => {
      dueMs = performance.now() + ms;
      timer ??= setTimeout(look, ms);
    },
    callOff: () => void (dueMs = Infinity),
  };
}
