/** How sure each angle is: computed when the record has been at rest for a moment, in the browser's spare time. */
import type { Analysis } from '../core/analysis';
import { type ReadingBand, bandSteps } from '../core/bands';
import type { HandRest, Idle, Later } from './idle';
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

/** During a drag they are begun only when the hand pauses. */
export function createBandKeeper(store: AppStore, idle: Idle, later: Later, handRest: Pick<HandRest, 'subscribe'>): BandKeeper {
  const listeners = new Set<() => void>();
  let known: KnownBands | null = null;
  let wanted: Analysis | null = null;
  let job: { readonly analysis: Analysis; readonly steps: ReturnType<typeof bandSteps> } | null = null;
  let callOff: (() => void) | null = null;
  /** Spare time is asked for once, however many records have come and gone meanwhile: where there is never any, the askers would add up. */
  let hasAsked = false;

  const hurried = (): boolean => store.getState().dragging;
  const ask = (): void => {
    if (hasAsked) return;
    hasAsked = true;
    idle(work, hurried);
  };
  const work = (spareMs: () => number): void => {
    hasAsked = false;
    // A newer record makes these bands pointless.
    if (job === null || store.getState().analysis !== job.analysis) return;
    for (;;) {
      const step = job.steps.next();
      if (step.done) {
        known = { analysis: job.analysis, bands: step.value };
        job = null;
        for (const listener of listeners) listener();
        return;
      }
      if (spareMs() <= 0) break;
    }
    ask();
  };
  const start = (analysis: Analysis): void => {
    job = { analysis, steps: bandSteps(analysis) };
    ask();
  };
  const begin = (): void => {
    const { analysis } = store.getState();
    if (analysis === wanted || analysis === null) return;
    wanted = analysis;
    callOff?.();
    callOff = later(() => start(analysis));
  };
  const consider = (): void => void (hurried() || begin());
  store.subscribe(consider);
  handRest.subscribe(begin);
  consider();
  return {
    current: () => known,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}
