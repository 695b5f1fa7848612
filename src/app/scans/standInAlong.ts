/** Brings a player's scan to hand once the page has come to rest, if it is kept in this browser, and has the page worked out anew on it. */
import type { AppStore } from '../store';
import { type StandIns, mouthFor } from './standIns';

/** Answers how to end it. */
export function standInAlong(store: AppStore, standIns: StandIns, afterRest: (work: () => void) => () => void): () => void {
  let callOff = (): void => {};
  let asked: string | null = null;
  const look = (): void => {
    const { arch } = store.getState().record;
    const id = 'single' in arch ? undefined : arch.scanned?.id;
    if (id === undefined || id === asked || standIns.getState().known.has(id)) return;
    asked = id;
    callOff = afterRest(() => void bring(id));
  };
  const bring = async (id: string): Promise<void> => {
    try {
      const { reopenScan } = await import('./reopenScan');
      const standIn = await reopenScan(store.getState().record, id);
      // Accepted or forgotten meanwhile.
      if (standIn !== null && asked === id && !standIns.getState().known.has(id)) standIns.getState().put(id, standIn);
    } catch {
      // The chunk cannot be fetched, as without a network: the fitted arch stands in, and the own arch's part says so.
    }
  };
  const stops = [
    store.subscribe((now, before) => {
      if (now.record.arch !== before.record.arch) look();
    }),
    standIns.subscribe((now, before) => {
      const { arch } = store.getState().record;
      if (mouthFor(now, arch) !== mouthFor(before, arch)) store.getState().reanalyse();
    }),
  ];
  look();
  return () => {
    callOff();
    for (const stop of stops) stop();
  };
}
