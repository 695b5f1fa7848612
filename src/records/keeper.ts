/**
 * Keeps one player on the shelf while it is being changed: soon after every change, one transaction a save, one save at a time.
 * Only one tab writes a player; where two have done so, both are kept. It knows neither React nor the page: both are arguments.
 */
import type { PlayerSpec } from '../core/specs';
import { sayKeeping } from '../words/keeping';
import { copyFromThisTab } from './copies';
import { browserSurroundings } from './keeperSurroundings';
import type { Channel, Keeper, KeeperStart, KeeperState, KeeperSurroundings, KeptSource } from './keeperTypes';
import { createPlayerLock } from './playerLock';
import { sameValue } from './sameValue';
import { failureWords } from './shelfWords';
import type { Conflict, KeptPlayer, Saved, Shelf } from './shelfTypes';

/** From the first change that is not saved yet; the other 100 ms of the half second are for the store. */
export const SAVE_AFTER_MS = 400;
/** A hand that drags the rim waits for nothing: it is saved less often, and soon after it lets go. */
const SAVE_WHILE_DRAGGING_MS = 2000;
/** When what could not be saved is tried again without a change. */
const TRY_AGAIN_MS = 5000;

const ASKED_KEY = 'asked-to-stay';

export function createKeeper(shelf: Shelf, source: KeptSource, start: KeeperStart, given: Partial<KeeperSurroundings> = {}): Keeper {
  const { timers, locks, channel: openChannel, storage, onHide, idOf } = { ...browserSurroundings(), ...given };
  const lock = createPlayerLock(locks, timers);
  const listeners = new Set<() => void>();
  let { id } = source.current();
  let saved = source.current();
  let { revision } = start;
  let state: KeeperState = settled(null);
  let timer: unknown = null;
  /** The timer waits for a hand to let go, or for another try: a change by itself is saved sooner. */
  let isSlow = false;
  let running: Promise<boolean> | null = null;
  let again = false;
  let taking = false;
  let asked = false;
  let closed = false;

  const isChanged = (): boolean => source.current() !== saved && source.current().id === id;

  function settled(message: string | null): KeeperState {
    return shelf.lasting || shelf.message === null ? { kind: 'saved', message } : { kind: 'not-kept', message: shelf.message };
  }

  /** `anew`: heard even where the words stay, since something was kept. */
  function enter(next: KeeperState, anew = false): void {
    if (sameValue(next, state) && !anew) return;
    state = next;
    for (const listener of listeners) listener();
  }

  function stopTimer(): void {
    if (timer !== null) timers.clearTimeout(timer as never);
    timer = null;
  }

  function saveAfter(ms: number): void {
    stopTimer();
    isSlow = ms > SAVE_AFTER_MS;
    timer = timers.setTimeout(() => {
      timer = null;
      void save();
    }, ms);
  }

  function onChange(): void {
    if (closed || state.kind === 'elsewhere' || !isChanged()) return;
    const dragging = source.isDragging();
    if (timer === null || (isSlow && !dragging)) saveAfter(dragging ? SAVE_WHILE_DRAGGING_MS : SAVE_AFTER_MS);
  }

  /** False where it was not kept. What changes meanwhile has its own timer; one that runs out is heard at once after this save. */
  function save(): Promise<boolean> {
    stopTimer();
    again = running !== null;
    running ??= (async () => {
      let kept = true;
      do {
        again = false;
        if (state.kind !== 'elsewhere' && isChanged()) kept = await saveOnce();
        // Undone to what is kept: there is nothing left that is not.
        else if (state.kind === 'not-kept') enter(settled(null));
      } while (kept && again);
      return kept;
    })().finally(() => {
      running = null;
    });
    return running;
  }

  async function saveAll(): Promise<void> {
    while (state.kind !== 'elsewhere' && isChanged() && (await save()));
  }

  /** False where it was not kept. */
  async function saveOnce(): Promise<boolean> {
    const player = source.current();
    if (state.kind !== 'not-kept') enter({ kind: 'saving' });
    const answer = await shelf.save(player, revision);
    if (answer.kind === 'conflict') return settle(player, answer);
    return take(player, answer, null);
  }

  function take(player: PlayerSpec, answer: Exclude<Saved, Conflict>, message: string | null): boolean {
    if (answer.kind === 'not-saved') {
      enter({ kind: 'not-kept', message: answer.message });
      if (!closed) saveAfter(TRY_AGAIN_MS);
      return false;
    }
    saved = player;
    revision = answer.revision;
    enter(settled(message), true);
    void askToStay();
    // Undone meanwhile to what was kept before: when that happened it looked like no change.
    if (!closed && timer === null && isChanged()) saveAfter(SAVE_AFTER_MS);
    return true;
  }

  /** Somebody else has saved or removed this player. Nothing of theirs and nothing of ours may be lost. */
  async function settle(player: PlayerSpec, { current }: Conflict): Promise<boolean> {
    if (current !== null && sameValue(current.player, player)) return take(player, { kind: 'saved', revision: current.revision }, null);
    if (current === null) {
      const again = await shelf.save(player, 0);
      if (again.kind !== 'conflict') return take(player, again, sayKeeping('keptAgain'));
    }
    const copy = copyFromThisTab(player, idOf);
    const answer = await shelf.save(copy, 0);
    // A new id is nobody's, so the store itself has failed.
    if (answer.kind !== 'saved') return take(player, { kind: 'not-saved', message: answer.kind === 'not-saved' ? answer.message : failureWords(null) }, null);
    const untouched = source.current() === player;
    id = copy.id;
    source.replace((now) => ({ ...now, id: copy.id, label: now.label === player.label ? copy.label : now.label }));
    // Nobody else knows the new id, so its lock is free.
    await lock.take(id, false);
    return take(untouched ? source.current() : copy, answer, sayKeeping('keptBoth'));
  }

  function adopt({ player, revision: newest }: KeptPlayer): void {
    if (newest !== revision) source.replace(() => player);
    saved = source.current();
    revision = newest;
    stopTimer();
  }

  /** What was read before the lock was held may have been saved over since. */
  async function readNewest(): Promise<void> {
    if (revision === 0) return;
    const newest = await shelf.get(id);
    if (newest.kind === 'player' && !isChanged() && running === null) adopt(newest);
  }

  async function begin(): Promise<void> {
    if (!(await lock.take(id, false))) enter({ kind: 'elsewhere', message: sayKeeping('openElsewhere') });
    else await readNewest();
    if (closed) lock.letGo();
  }

  async function letGo(): Promise<void> {
    await saveAll();
    // What could not be kept is still only here, so it is not given away.
    if (closed || isChanged()) return;
    enter({ kind: 'elsewhere', message: sayKeeping('openElsewhere') });
    lock.letGo();
  }

  async function takeOver(): Promise<void> {
    if (state.kind !== 'elsewhere' || closed || taking) return;
    taking = true;
    channel?.postMessage({ kind: 'ask', id });
    const taken = await lock.take(id, true);
    taking = false;
    if (closed) lock.letGo();
    else if (!taken) enter({ kind: 'elsewhere', message: sayKeeping('noRelease') });
    else await goOn();
  }

  async function goOn(): Promise<void> {
    const newest = isChanged() ? null : await shelf.get(id);
    if (newest?.kind === 'player' && !isChanged()) adopt(newest);
    enter(settled(null));
    // Changed although it was only to be looked at: kept beside the other, as any two changes are.
    await saveAll();
  }

  /** Once, and only when something of the teacher's own is at stake: some browsers ask the reader. */
  async function askToStay(): Promise<void> {
    if (asked || !start.own || !shelf.lasting || storage === undefined) return;
    asked = true;
    try {
      if ((await storage.persisted()) || (await shelf.getPage(ASKED_KEY)) === true) return;
      await shelf.setPage(ASKED_KEY, true);
      await storage.persist();
    } catch {
      // A browser that will not promise keeps it as long as it can.
    }
  }

  const channel = channelOf(openChannel);
  if (channel !== null) {
    channel.onmessage = ({ data }: MessageEvent<unknown>) => {
      if (state.kind !== 'elsewhere' && isAsk(data) && data.id === id) void letGo();
    };
  }
  const stopSource = source.subscribe(onChange);
  const stopHide = onHide(() => {
    if (state.kind === 'elsewhere' || !isChanged()) return;
    shelf.leave(source.current(), revision);
    void save();
  });
  const begun = begin();

  return {
    state: () => state,
    isChanged,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    takeOver,
    flush: async () => {
      await begun;
      await saveAll();
    },
    close: async () => {
      if (closed) return;
      stopSource();
      await begun;
      await saveAll();
      closed = true;
      stopTimer();
      stopHide();
      lock.letGo();
      channel?.close();
      listeners.clear();
    },
  };
}

function isAsk(message: unknown): message is { readonly kind: 'ask'; readonly id: unknown } {
  return typeof message === 'object' && message !== null && (message as { kind?: unknown }).kind === 'ask';
}

function channelOf(open: (() => Channel) | undefined): Channel | null {
  try {
    return open?.() ?? null;
  } catch {
    return null;
  }
}
