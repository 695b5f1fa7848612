/**
 * Which note the words on the page speak of: the chosen one. While notes pass under a hand on the staff the picture goes to a note first, and
 * the words follow with the hand's next step, or as soon as it pauses: both in one frame would be too much for it.
 */
import { createPause } from '../stage/pause';
import type { AppStore } from './store';

/** A hand that makes no further step for this long, ms, has paused: about three frames, so that the words seem to come with the picture. */
const TOLD_AFTER_MS = 50;

export interface ToldNote {
  /** Index into record.readings. */
  current(): number;
  /** Told whatever changes in the store, except what the words still wait for. */
  subscribe(listener: () => void): () => void;
  /** The hand has made a step and come to no other note. */
  catchUp(): void;
}

export function createToldNote(store: Pick<AppStore, 'getState' | 'subscribe'>): ToldNote {
  const listeners = new Set<() => void>();
  let told = store.getState().selected;
  let waits = false;
  const tell = (): void => {
    if (waits) pause.callOff();
    waits = false;
    told = store.getState().selected;
    for (const listener of listeners) listener();
  };
  const pause = createPause(tell, TOLD_AFTER_MS);
  store.subscribe((now, before) => {
    // Another record has other notes: nothing is said of it by a number of the one before.
    if (!now.passing || now.selected === told || now.record !== before.record) tell();
    else if (now.selected !== before.selected) {
      waits = true;
      pause.wait();
    }
  });
  return {
    current: () => told,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    catchUp: () => {
      if (waits) tell();
    },
  };
}
