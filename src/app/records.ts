/** The players kept in this browser and the one on the page: opening, keeping, deleting, putting back. Files: useFiles.ts. */
import type { PlayerSpec } from '../core/specs';
import type { KeepingWords, KeptPlayer } from '../notebook/kept/props';
import { createKeeper } from '../records/keeper';
import type { Keeper, KeeperSurroundings, KeptSource } from '../records/keeperTypes';
import { type DemoPlayer, demoPlayers, instrumentById, instruments } from '../records/library';
import { type NewId, newId } from '../records/newId';
import { MOST_LESSONS } from '../records/playerSchema';
import { defaultPlayer, newLesson } from '../records/newRecords';
import type { DamagedPlayer, PlayerSummary, RemovedPlayer, Saved, Shelf } from '../records/shelfTypes';
import { localDay } from './localDay';
import type { AppStore } from './store';
import { sayPage } from '../words/page';
import { instrumentName, inWords } from '../records/modelWords';

export interface KeptState {
  readonly players: readonly KeptPlayer[];
  /** Kept, but not to be read; left where they are. */
  readonly damaged: readonly DamagedPlayer[];
  readonly keeping: KeepingWords;
  readonly deleted: readonly { readonly id: string; readonly label: string }[];
  /** What somebody shared is on the page: nothing of it is kept. */
  readonly guest: boolean;
}

export interface Records {
  current(): KeptState;
  subscribe(listener: () => void): () => void;
  /** A new player of the instrument that is on the page; resolved as soon as they are on it, the list of players comes after. */
  startOwn(): Promise<void>;
  /** A copy of an invented player, kept only when it is changed. */
  openInvented(id: string): Promise<void>;
  open(id: string): Promise<void>;
  remove(id: string): Promise<void>;
  /** Told of each player that was deleted here, as they were kept last. */
  onRemoved(listener: (player: PlayerSpec) => void): () => void;
  putBack(id: string): Promise<void>;
  newLesson(): void;
  takeOver(): Promise<void>;
  /** Saves what is not saved yet and reads the list anew, as before and after a file is taken in. */
  settle(): Promise<void>;
  /** Whether the page may be put down and begun anew: false where something would be lost, until the reader, having been told, asks once more. */
  mayRestart(): Promise<boolean>;
  /** Puts a player on the page; `revision` 0: not kept yet. */
  show(player: PlayerSpec, revision: number, own: boolean, lessonId?: string): Promise<void>;
  /** Puts what somebody shared on the page; nothing of it is kept, however it is changed. False where the last player's changes must be looked after first. */
  showGuest(player: PlayerSpec): Promise<boolean>;
  /** What was shared becomes a player of one's own, as it stands; false where it could not be kept. */
  keepGuest(): Promise<boolean>;
  /** One who is not on the page and was never kept becomes a player of one's own; answers why not, null where they are kept and in the list. */
  keepAside(player: PlayerSpec): Promise<string | null>;
  readonly shelf: Shelf;
}

export interface RecordsSurroundings {
  readonly idOf: NewId;
  /** The day in the reader's own time zone, as in 2026-03-01. */
  today(): string;
  readonly keeper: Partial<KeeperSurroundings>;
}

export interface RecordsStart {
  readonly revision: number;
  readonly own: boolean;
  /** Shared by somebody: not kept at all. */
  readonly guest?: boolean;
}

export function createRecords(store: AppStore, shelf: Shelf, start: RecordsStart, given: Partial<RecordsSurroundings> = {}): Records {
  const { idOf, today, keeper: keeperSurroundings } = { idOf: newId, today: localDay, keeper: {}, ...given };
  const listeners = new Set<() => void>();
  const removedListeners = new Set<(player: PlayerSpec) => void>();
  const removed = new Map<string, { readonly label: string; readonly row: RemovedPlayer }>();
  let summaries: readonly PlayerSummary[] = [];
  let damaged: readonly DamagedPlayer[] = [];
  let leaveLast = (): void => undefined;
  let owed = false;
  /** Who was on the page when it was last said that they are not kept. */
  let told: PlayerSpec | null = null;
  let guest = false;
  let keeper = keep(start);
  let state: KeptState = stateNow();

  function keep({ revision, own, guest: isGuest = false }: RecordsStart): Keeper {
    guest = isGuest;
    if (guest) {
      leaveLast = () => undefined;
      return GUEST_KEEPER;
    }
    const source = sourceOf(store);
    leaveLast = source.leave;
    const made = createKeeper(shelf, source, { revision, own }, keeperSurroundings);
    made.subscribe(() => {
      if (made !== keeper) return;
      const kind = made.state().kind;
      store.getState().lock(kind === 'elsewhere');
      // A hand that drags is not kept waiting for a list: it is told when it lets go.
      if (store.getState().dragging) {
        owed = true;
        return;
      }
      tell();
      // What is kept only in memory is never called saved, but is in the list.
      if (kind === 'saved' || !shelf.lasting) void list();
    });
    return made;
  }

  function stateNow(): KeptState {
    return {
      players: summaries.map((one) => ({
        id: one.id,
        label: one.label,
        instrumentName: instrumentName(one.instrument),
        lessons: one.lessons,
        lastDate: one.lastDate,
        revision: one.revision,
      })),
      damaged,
      keeping: guest ? guestWords() : keepingWords(keeper, shelf, summaries.some(({ id }) => id === store.getState().player.id)),
      deleted: [...removed].map(([id, { label }]) => ({ id, label })).reverse(),
      guest,
    };
  }

  function tell(): void {
    state = stateNow();
    for (const listener of listeners) listener();
  }

  async function list(): Promise<void> {
    const listing = await shelf.list();
    summaries = listing.players.toSorted((a, b) => b.changedAt - a.changedAt);
    damaged = listing.damaged;
    tell();
  }

  async function show(player: PlayerSpec, revision: number, own: boolean, lessonId?: string): Promise<void> {
    await (await putOnPage(player, { revision, own }, lessonId)).done;
  }

  /** Resolved when the player is on the page; `done` when the one before is let go and the list is read. */
  async function putOnPage(
    player: PlayerSpec,
    next: RecordsStart,
    lessonId = player.lessons.at(-1)?.id ?? '',
  ): Promise<{ readonly done: Promise<void> }> {
    const last = keeper;
    const before = store.getState().player;
    leaveLast();
    const closing = last.close();
    // One who comes back under the same name can be taken hold of only when the last hold is let go.
    if (player.id === before.id) await closing;
    store.getState().lock(false);
    store.getState().open({ player, lessonId });
    keeper = keep(next);
    tell();
    return { done: closing.then(list) };
  }

  /** What the store does not take is only on the page: it is left behind only when the reader, having been told, asks for it again. */
  async function mayLeave(): Promise<boolean> {
    // Where nothing is unsaved the next player comes at once, before another key is pressed.
    if (keeper.isChanged()) await keeper.flush();
    const { player } = store.getState();
    const state = keeper.state();
    if (!shelf.lasting || state.kind !== 'not-kept' || !keeper.isChanged() || told === player) return true;
    told = player;
    store.getState().notify(sayPage('saveFirst', { why: state.message }));
    return false;
  }

  /** What is nowhere but in this page, kept in memory or shared by somebody and changed since, would be gone. */
  async function mayRestart(): Promise<boolean> {
    if (!(await mayLeave())) return false;
    if (!shelf.lasting) await list();
    const { player, history } = store.getState();
    const isNowhere = guest ? history.past.length > 0 : !shelf.lasting && summaries.length > 0;
    if (!isNowhere || told === player) return true;
    told = player;
    store.getState().notify(sayPage('languageLoses'));
    return false;
  }

  async function leaveFor(id: string): Promise<void> {
    if (!(await mayLeave())) return;
    const got = await shelf.get(id);
    if (got.kind === 'player') await show(got.player, got.revision, true);
    else store.getState().notify(got.kind === 'none' ? sayPage('notKeptAnyMore') : got.message);
  }

  store.subscribe((now, before) => {
    if (!owed || now.dragging || !before.dragging) return;
    owed = false;
    void list();
  });
  void list();
  return {
    shelf,
    current: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    startOwn: async () => {
      if (!(await mayLeave())) return;
      const { instrument } = store.getState().player;
      const known = instrumentById(instrument)?.id ?? instruments[0]?.id ?? instrument;
      void (await putOnPage(defaultPlayer(known, { id: idOf(), lessonId: idOf(), date: today() }), { revision: 0, own: true })).done;
    },
    openInvented: async (id) => {
      const demo = demoPlayers.find((one) => one.id === id);
      if (demo !== undefined && (await mayLeave())) await show(inventedCopy(demo, idOf), 0, false);
    },
    open: leaveFor,
    remove: async (id) => {
      const label = summaries.find((one) => one.id === id)?.label ?? '';
      const isOpen = store.getState().player.id === id;
      if (isOpen) await keeper.flush();
      const last = await shelf.get(id);
      const answer = await shelf.remove(id);
      if (answer.kind === 'not-saved') {
        store.getState().notify(answer.message);
        return;
      }
      // Deleted, taken in from a file and deleted again, it is two.
      if (answer.kind === 'removed') removed.set(removed.has(id) ? idOf() : id, { label, row: answer.removed });
      const next = summaries.find((one) => one.id !== id);
      if (!isOpen) await list();
      else if (next !== undefined) await leaveFor(next.id);
      else await show(inventedCopy(firstDemo(), idOf), 0, false);
      if (answer.kind === 'removed' && last.kind === 'player') for (const listener of removedListeners) listener(last.player);
    },
    onRemoved: (listener) => {
      removedListeners.add(listener);
      return () => void removedListeners.delete(listener);
    },
    putBack: async (id) => {
      const kept = removed.get(id);
      if (kept === undefined) return;
      const answer = await shelf.restore(kept.row);
      if (answer.kind === 'saved') removed.delete(id);
      else store.getState().notify(answer.kind === 'not-saved' ? answer.message : sayPage('notPutBack'));
      await list();
    },
    newLesson: () => {
      if (store.getState().player.lessons.length >= MOST_LESSONS) return;
      const id = idOf();
      store.getState().changePlayer((player) => newLesson(player, id, today()), null, id);
    },
    takeOver: () => keeper.takeOver(),
    settle: async () => {
      await keeper.flush();
      await list();
    },
    mayRestart,
    show,
    showGuest: async (player) => {
      if (!(await mayLeave())) return false;
      await (await putOnPage(player, { revision: 0, own: false, guest: true })).done;
      return true;
    },
    keepGuest: async () => {
      if (!guest) return false;
      const { player } = store.getState();
      const answer = await shelf.save(player, 0);
      if (answer.kind !== 'saved') {
        store.getState().notify(whyNotTaken(answer));
        return false;
      }
      // What was changed while it was being kept is the keeper's first change.
      keeper = keep({ revision: answer.revision, own: true });
      await list();
      return true;
    },
    keepAside: async (player) => {
      const answer = await shelf.save(player, 0);
      if (answer.kind !== 'saved') return whyNotTaken(answer);
      await list();
      return null;
    },
  };
}

const whyNotTaken = (answer: Exclude<Saved, { kind: 'saved' }>): string => (answer.kind === 'not-saved' ? answer.message : sayPage('guestNotTaken'));

const guestWords = (): KeepingWords => ({ state: 'kept', words: sayPage('guestNotKept') });

/** In the place of a keeper while nothing is to be kept. */
const GUEST_KEEPER: Keeper = {
  state: () => ({ kind: 'saved', message: null }),
  isChanged: () => false,
  subscribe: () => () => undefined,
  takeOver: () => Promise.resolve(),
  flush: () => Promise.resolve(),
  close: () => Promise.resolve(),
};

/** The player on the page as a keeper sees it: once another has come onto the page, as it was when it was left. */
function sourceOf(store: AppStore): KeptSource & { leave(): void } {
  let left: PlayerSpec | null = null;
  return {
    current: () => left ?? store.getState().player,
    isDragging: () => left === null && store.getState().dragging,
    subscribe: (listener) =>
      store.subscribe((now, before) => {
        if (left === null && (now.player !== before.player || now.dragging !== before.dragging)) listener();
      }),
    replace: (edit) => {
      if (left === null) store.getState().replacePlayer(edit);
      else left = edit(left);
    },
    leave: () => {
      left = store.getState().player;
    },
  };
}

/** A copy under a name of its own, so that the invented player can be looked at anew whatever becomes of this one. */
export function inventedCopy(demo: DemoPlayer, idOf: NewId): PlayerSpec {
  return { ...inWords(demo), id: idOf() };
}

export function firstDemo(): DemoPlayer {
  const [demo] = demoPlayers;
  if (demo === undefined) throw new Error('models/players holds no demo player');
  return demo;
}

function keepingWords(keeper: Keeper, shelf: Shelf, isKept: boolean): KeepingWords {
  const state = keeper.state();
  switch (state.kind) {
    case 'saving':
      return { state: 'keeping', words: sayPage('keepingNow') };
    case 'not-kept':
      return { state: 'not-kept', words: state.message };
    case 'elsewhere':
      return { state: 'elsewhere', words: state.message };
    case 'saved':
      if (state.message !== null) return { state: 'kept', words: state.message };
      if (!isKept) return { state: 'kept', words: sayPage('keptOnceChanged') };
      return { state: 'kept', words: sayPage(shelf.lasting ? 'keptInBrowser' : 'keptUntilClosed') };
  }
}
