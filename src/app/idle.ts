/** The browser's spare time. Where it cannot be asked for, a few milliseconds after the next task. */
import { createPause } from '../stage/pause';
import { type AppStore, isHandOn } from './store';

/**
 * Calls back when there is time to spare, and says how much of it, ms. Where there is never any, some is taken now and then, but not
 * while `hurried` says that a hand is waiting.
 */
export type Idle = (work: (spareMs: () => number) => void, hurried: () => boolean) => void;

/** Runs something a little later; returns how to call it off. */
export type Later = (run: () => void) => () => void;

/** Longest slice, ms: short enough not to be noticed within a frame. */
const SLICE_MS = 2;
/** While the page is busy a slice is taken at least this often, ms. */
const AT_LEAST_EVERY_MS = 100;
/** During a drag it is only asked this often whether the hand is still at it: where frames are slow, each asking falls into one. */
const ASKED_EVERY_MS = 2000;

/** The pause after the last change before the slow sums are begun, ms: longer than between two steps of a drag. */
const AT_REST_MS = 400;

export const afterRest: Later = (run) => {
  const timer = setTimeout(run, AT_REST_MS);
  return () => clearTimeout(timer);
};

export const browserIdle: Idle = (work, hurried) => {
  const run = (deadline?: IdleDeadline): void => {
    if (deadline?.didTimeout === true && hurried()) {
      request();
      return;
    }
    const until = performance.now() + SLICE_MS;
    work(() => until - performance.now());
  };
  const request = (): void => {
    if (typeof requestIdleCallback === 'function') requestIdleCallback(run, { timeout: hurried() ? ASKED_EVERY_MS : AT_LEAST_EVERY_MS });
    else setTimeout(run, 0);
  };
  request();
};

/** A hand that has not moved the rim, nor come to another note, for this long, ms, has paused: what is slow to draw is drawn. */
const PAUSE_MS = 250;

/** One clock for all that waits until a hand has paused. */
export interface HandRest {
  /** Called at every pause. */
  subscribe(onPause: () => void): () => void;
  /** Something else has changed meanwhile: wait anew. */
  wait(): void;
}

export function createHandRest(store: Pick<AppStore, 'subscribe'>): HandRest {
  const listeners = new Set<() => void>();
  const pause = createPause(() => {
    for (const listener of listeners) listener();
  }, PAUSE_MS);
  store.subscribe((state) => {
    if (isHandOn(state)) pause.wait();
    else pause.callOff();
  });
  return {
    subscribe: (onPause) => {
      listeners.add(onPause);
      return () => listeners.delete(onPause);
    },
    wait: pause.wait,
  };
}
