/** The browser's spare time. Where it cannot be asked for, a few milliseconds after the next task. */
import type { Later } from './bandKeeper';
import type { Idle } from './pathSampler';

/** Longest slice, ms: short enough not to be noticed within a frame. */
const SLICE_MS = 2;
/** While the page is busy a slice is taken at least this often, ms. */
const AT_LEAST_EVERY_MS = 100;

/** The pause after the last change before the slow sums are begun, ms: longer than between two steps of a drag. */
const AT_REST_MS = 400;

export const afterRest: Later = (run) => {
  const timer = setTimeout(run, AT_REST_MS);
  return () => clearTimeout(timer);
};

export const browserIdle: Idle = (work) => {
  const run = (): void => {
    const until = performance.now() + SLICE_MS;
    work(() => until - performance.now());
  };
  if (typeof requestIdleCallback === 'function') requestIdleCallback(run, { timeout: AT_LEAST_EVERY_MS });
  else setTimeout(run, 0);
};
