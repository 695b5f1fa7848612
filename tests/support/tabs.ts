/**
 * A browser with tabs, as far as keeping players goes: one store, locks and messages shared by all tabs, and for each tab a clock of
 * its own that the test moves. A tab can be killed: from then on nothing it had begun goes any further.
 */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import type { Channel } from '../../src/records/keeperTypes';
import type { Locks } from '../../src/records/playerLock';

export interface Clock {
  setTimeout(work: () => void, ms: number): unknown;
  clearTimeout(timer: never): void;
  now(): number;
  /** Runs what falls due, one after the other, and gives the store so many turns to answer after each; by default as many as it needs. */
  advance(ms: number, turns?: number): Promise<void>;
}

export interface Tab {
  readonly factory: IDBFactory;
  readonly timers: Clock;
  readonly now: () => number;
  readonly locks: Locks;
  readonly channel: () => Channel;
  readonly onHide: (listener: () => void) => () => void;
  hide(): void;
  /** Transactions that were begun by this tab. */
  transactions(): number;
  /** How many transactions it had not finished. */
  kill(): number;
}

export interface TabbedBrowser {
  /** What stands in the store, seen from outside any tab. */
  readonly factory: IDBFactory;
  openTab(): Tab;
}

/** More turns of the event loop than any save takes here. */
const TURNS = 40;

/** Lets everything that waits for the store go on. */
export async function settle(turns = TURNS): Promise<void> {
  for (let turn = 0; turn < turns; turn++) await new Promise((resolve) => setImmediate(resolve));
}

export function createClock(): Clock {
  const waiting = new Map<number, { readonly due: number; readonly work: () => void }>();
  let time = 0;
  let last = 0;
  return {
    now: () => time,
    setTimeout: (work, ms) => {
      waiting.set(++last, { due: time + ms, work });
      return last;
    },
    clearTimeout: (timer) => void waiting.delete(timer),
    advance: async (ms, turns = TURNS) => {
      const end = time + ms;
      for (;;) {
        const [next] = [...waiting].filter(([, { due }]) => due <= end).sort(([, a], [, b]) => a.due - b.due);
        if (next === undefined) break;
        waiting.delete(next[0]);
        time = next[1].due;
        next[1].work();
        await settle(turns);
      }
      time = end;
      await settle(turns);
    },
  };
}

export function createTabbedBrowser(): TabbedBrowser {
  const factory = new IDBFactory();
  const locks = createLocks();
  const channels = new Set<Channel>();
  return { factory, openTab: () => openTab(factory, locks, channels) };
}

function openTab(shared: IDBFactory, locks: SharedLocks, channels: Set<Channel>): Tab {
  const owner = {};
  const own = new Set<Channel>();
  const clock = createClock();
  const hidden = new Set<() => void>();
  const open: IDBTransaction[] = [];
  const databases: IDBDatabase[] = [];
  let begun = 0;
  let killed = false;
  const watched = (database: IDBDatabase): void => {
    databases.push(database);
    const begin = database.transaction.bind(database);
    database.transaction = (...given) => {
      if (killed) throw new DOMException('the tab is dead', 'InvalidStateError');
      const transaction = begin(...given);
      begun++;
      open.push(transaction);
      return transaction;
    };
  };
  return {
    factory: {
      open: (name: string, version?: number) => {
        if (killed) throw new DOMException('the tab is dead', 'InvalidStateError');
        const request = shared.open(name, version);
        request.addEventListener('success', () => watched(request.result));
        return request;
      },
    } as IDBFactory,
    timers: {
      ...clock,
      setTimeout: (work, ms) => clock.setTimeout(() => (killed ? undefined : work()), ms),
    },
    now: clock.now,
    locks: { request: (name, options, held) => locks.request(owner, name, options, held) },
    channel: () => {
      const channel: Channel = {
        onmessage: null,
        postMessage: (data) => {
          for (const other of channels) if (other !== channel) setImmediate(() => other.onmessage?.({ data } as MessageEvent));
        },
        close: () => void channels.delete(channel),
      };
      channels.add(channel);
      own.add(channel);
      return channel;
    },
    onHide: (listener) => {
      hidden.add(listener);
      return () => void hidden.delete(listener);
    },
    hide: () => hidden.forEach((listener) => listener()),
    transactions: () => begun,
    kill: () => {
      killed = true;
      let unfinished = 0;
      for (const transaction of open) {
        try {
          transaction.abort();
          unfinished++;
        } catch {
          // Committed, or over already.
        }
      }
      for (const database of databases) database.close();
      for (const channel of own) channel.close();
      locks.free(owner);
      return unfinished;
    },
  };
}

interface SharedLocks {
  request(owner: object, name: string, options: { ifAvailable?: boolean; signal?: AbortSignal }, held: (lock: unknown) => Promise<void> | undefined): Promise<unknown>;
  free(owner: object): void;
}

function createLocks(): SharedLocks {
  const holders = new Map<string, { readonly owner: object; readonly free: () => void }>();
  const queues = new Map<string, (() => void)[]>();
  const freed = (name: string): void => {
    holders.delete(name);
    queues.get(name)?.shift()?.();
  };
  return {
    request: async (owner, name, { ifAvailable, signal }, held) => {
      await Promise.resolve();
      if (holders.has(name)) {
        if (ifAvailable === true) return held(null);
        await new Promise<void>((resolve, reject) => {
          const queue = queues.get(name) ?? [];
          queues.set(name, queue);
          queue.push(resolve);
          signal?.addEventListener('abort', () => {
            queue.splice(queue.indexOf(resolve), 1);
            reject(new DOMException('gave up', 'AbortError'));
          });
        });
      }
      return new Promise<void>((resolve) => {
        let isOver = false;
        const free = (): void => {
          if (isOver) return;
          isOver = true;
          freed(name);
          resolve();
        };
        holders.set(name, { owner, free });
        void (held({ name }) ?? Promise.resolve()).then(free);
      });
    },
    free: (owner) => {
      for (const holder of [...holders.values()]) if (holder.owner === owner) holder.free();
    },
  };
}
