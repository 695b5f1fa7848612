/**
 * What was seen of every kept player, for the cross table: looked at only when the reader asks for it, one player after the other beside
 * the page, and never while a hand is on the rim. A player that has not changed since is not looked at twice.
 */
import { FEWEST_PLAYERS, type PlayerObservations, observationsOf } from '../core/findings/crossTable';
import type { Said } from '../core/findings/said';
import { lessonOf, recordOf } from '../core/lessons';
import type { PlayerRecord, PlayerSpec } from '../core/specs';
import type { CrossState, LeftOutPlayer } from '../notebook/says/props';
import type { Everything, KeptPlayer } from '../records/shelfTypes';
import type { Later } from './idle';
import type { AppStore } from './store';
import { sayPage } from '../words/page';

/** The kept players, as far as the cross table needs them. */
export interface KeptForCross {
  /** Saves what is not saved yet. */
  settle(): Promise<void>;
  all(): Promise<Everything>;
  /** Told when something about the kept players may have changed. */
  subscribe(listener: () => void): () => void;
}

export interface CrossKeeper {
  /** The same object until something in it changes. */
  current(): CrossState;
  subscribe(listener: () => void): () => void;
  look(): void;
  cancel(): void;
  dispose(): void;
}

export function createCrossKeeper(
  store: Pick<AppStore, 'getState' | 'subscribe'>,
  kept: KeptForCross,
  say: (record: PlayerRecord) => Promise<Said>,
  later: Later,
): CrossKeeper {
  const listeners = new Set<() => void>();
  /** By the player's id: what was seen, and in which writing of the player. */
  const known = new Map<string, { readonly writing: string; readonly seen: PlayerObservations }>();
  let shown: CrossState = { kind: 'not-asked' };
  /** What has come while a hand was on the rim. */
  let held: CrossState | null = null;
  /** The look that is going on; another object for each. */
  let mine: object | null = null;
  let counted: readonly string[] = [];
  let isUnchecked = false;
  let callOff: (() => void) | null = null;
  let isDisposed = false;

  const isHandOn = (): boolean => store.getState().dragging;
  const latest = (): CrossState => held ?? shown;
  const publish = (): void => {
    if (held === null || isDisposed || isHandOn()) return;
    shown = held;
    held = null;
    for (const listener of listeners) listener();
  };
  const show = (next: CrossState): void => {
    held = next;
    publish();
  };
  const seenOf = async ({ player, revision, changedAt }: KeptPlayer): Promise<PlayerObservations> => {
    const writing = writingOf({ player, revision, changedAt });
    const before = known.get(player.id);
    if (before?.writing === writing) return before.seen;
    const { findings } = await say(lastRecordOf(player));
    const seen = observationsOf(player, () => findings);
    known.set(player.id, { writing, seen });
    return seen;
  };
  const run = async (look: object): Promise<void> => {
    const isStale = (): boolean => isDisposed || mine !== look;
    await kept.settle();
    const everything = await kept.all();
    if (isStale()) return;
    if (everything.message !== null) throw new Error(everything.message);
    const all = everything.players;
    counted = all.map(writingOf);
    const players: PlayerObservations[] = [];
    const leftOut: LeftOutPlayer[] = [];
    // So few are only said to be too few.
    const looked = all.length < FEWEST_PLAYERS ? [] : all;
    for (const [at, one] of looked.entries()) {
      show({ kind: 'working', done: at, of: looked.length });
      await untilFree(store);
      if (isStale()) return;
      try {
        players.push(await seenOf(one));
      } catch (error) {
        leftOut.push({ id: one.player.id, label: one.player.label, words: messageOf(error) });
      }
      if (isStale()) return;
    }
    mine = null;
    show({ kind: 'done', players, kept: all.length, leftOut, unreadable: everything.damaged.length, behind: false });
    consider();
  };
  const check = async (): Promise<void> => {
    const { players, message } = await kept.all();
    const state = latest();
    if (isDisposed || message !== null || state.kind !== 'done' || state.behind) return;
    const now = players.map(writingOf);
    if (now.length !== counted.length || now.some((writing) => !counted.includes(writing))) show({ ...state, behind: true });
  };
  const consider = (): void => {
    if (isDisposed || isHandOn()) return;
    publish();
    if (!isUnchecked || latest().kind !== 'done') return;
    isUnchecked = false;
    callOff?.();
    callOff = later(() => {
      callOff = null;
      void check();
    });
  };
  const stops = [
    store.subscribe(consider),
    kept.subscribe(() => {
      isUnchecked = true;
      consider();
    }),
  ];
  return {
    current: () => shown,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    look: () => {
      if (mine !== null) return;
      const look = {};
      mine = look;
      show({ kind: 'working', done: 0, of: null });
      run(look).catch((error: unknown) => {
        if (mine !== look) return;
        mine = null;
        show({ kind: 'failed', words: sayPage('keptNotLookedAt', { why: messageOf(error) }) });
      });
    },
    cancel: () => {
      if (mine === null) return;
      mine = null;
      show({ kind: 'not-asked' });
    },
    dispose: () => {
      isDisposed = true;
      callOff?.();
      for (const stop of stops) stop();
    },
  };
}

const lastRecordOf = (player: PlayerSpec): PlayerRecord => recordOf(player, lessonOf(player, ''));

/** Another one with every save; the time tells a player put there anew from one of the same revision that was removed. */
const writingOf = ({ player, revision, changedAt }: KeptPlayer): string => `${player.id} ${revision} ${changedAt}`;

const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Resolves when no hand is on the rim, at once where there is none. */
function untilFree(store: Pick<AppStore, 'getState' | 'subscribe'>): Promise<void> {
  if (!store.getState().dragging) return Promise.resolve();
  return new Promise((done) => {
    const stop = store.subscribe(({ dragging }) => {
      if (dragging) return;
      stop();
      done();
    });
  });
}
