/** Brings a player's scan to hand once the page has come to rest, if it is kept in this browser, and has the page worked out anew on it. */
import type { PlayerRecord } from '../../core/specs';
import type { AppStore } from '../store';
import { analyseAhead } from './analyseAhead';
import { type StandIn, type StandIns, mouthFor } from './standIns';

/** Answers how to end it. `reopen`: as reopenScan.ts does, which is fetched when first needed. */
export function standInAlong(
  store: AppStore, standIns: StandIns, afterRest: (work: () => void) => () => void,
  reopen: (record: PlayerRecord, id: string) => Promise<StandIn | null> = async (record, id) => (await import('./reopenScan')).reopenScan(record, id),
): () => void {
  let callOff = (): void => {};
  let asked: string | null = null;
  /** The one last fetched from the store: it can be fetched again, and some tens of megabytes are not held for everybody seen today. */
  let fetched: string | null = null;
  const look = (): void => {
    const { arch } = store.getState().record;
    const id = 'single' in arch ? undefined : arch.scanned?.id;
    if (id === undefined || id === asked || standIns.getState().known.has(id)) return;
    asked = id;
    callOff = afterRest(() => void bring(id));
  };
  const bring = async (id: string): Promise<void> => {
    try {
      const standIn = await reopen(store.getState().record, id);
      // Accepted or forgotten meanwhile.
      if (standIn === null || asked !== id || standIns.getState().known.has(id)) return;
      if (fetched !== null) standIns.getState().forget(fetched);
      fetched = id;
      standIns.getState().put(id, standIn);
    } catch {
      // The chunk cannot be fetched, as without a network: the fitted arch stands in, and the own arch's part says so.
    }
  };
  let turn = 0;
  /** Worked out beforehand, a step at a time, and then taken up at once. */
  const rest = async (): Promise<void> => {
    const own = ++turn;
    const { record } = store.getState();
    const made = await analyseAhead(record, mouthFor(standIns.getState(), record.arch), () => own !== turn || store.getState().record.arch !== record.arch);
    if (own === turn) store.getState().reanalyse(made ?? undefined);
  };
  const stops = [
    store.subscribe((now, before) => {
      if (now.record.arch !== before.record.arch) look();
    }),
    standIns.subscribe((now, before) => {
      const { arch } = store.getState().record;
      if (mouthFor(now, arch) !== mouthFor(before, arch)) void rest();
    }),
  ];
  look();
  return () => {
    callOff();
    turn += 1;
    for (const stop of stops) stop();
  };
}
