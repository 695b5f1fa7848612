/** How sure each angle is: computed when the record has been at rest for a moment, in the browser's spare time. */
import type { Analysis } from '../core/analysis';
import { type ReadingBand, bandSteps } from '../core/bands';
import type { Idle } from './pathSampler';
import type { AppStore } from './store';

/** The bands of one analysis, in the order of its readings. */
export interface KnownBands {
  readonly analysis: Analysis;
  readonly bands: readonly ReadingBand[];
}

export interface BandKeeper {
  current(): KnownBands | null;
  subscribe(listener: () => void): () => void;
}

/** Runs something a little later; returns how to call it off. */
export type Later = (run: () => void) => () => void;

export function createBandKeeper(store: AppStore, idle: Idle, later: Later): BandKeeper {
  const listeners = new Set<() => void>();
  let known: KnownBands | null = null;
  let wanted: Analysis | null = null;
  let callOff: (() => void) | null = null;

  const hurried = (): boolean => store.getState().dragging;
  const start = (analysis: Analysis): void => {
    const steps = bandSteps(analysis);
    const work = (spareMs: () => number): void => {
      // A newer record makes these bands pointless.
      if (wanted !== analysis) return;
      for (;;) {
        const step = steps.next();
        if (step.done) {
          known = { analysis, bands: step.value };
          for (const listener of listeners) listener();
          return;
        }
        if (spareMs() <= 0) break;
      }
      idle(work, hurried);
    };
    idle(work, hurried);
  };
  const consider = (): void => {
    const { analysis } = store.getState();
    if (analysis === wanted || analysis === null) return;
    wanted = analysis;
    callOff?.();
    callOff = later(() => start(analysis));
  };
  store.subscribe(consider);
  consider();
  return {
    current: () => known,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
