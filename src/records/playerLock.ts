/** Only one tab writes a player: the browser's own locks, one a player. Where there are none, revisions alone stand guard. */
import type { Timers } from './connection';

/** The part of `navigator.locks` that is used. */
export interface Locks {
  request(name: string, options: { ifAvailable?: boolean; signal?: AbortSignal }, held: (lock: unknown) => Promise<void> | undefined): Promise<unknown>;
}

export interface PlayerLock {
  /** True once this tab holds it. Not waiting: false at once where another tab does; waiting: false after `WAIT_MS`. */
  take(id: string, wait: boolean): Promise<boolean>;
  letGo(): void;
}

/** How long a tab that was asked may take to save and let go; milliseconds. */
const WAIT_MS = 3000;

export function createPlayerLock(locks: Locks | undefined, timers: Timers): PlayerLock {
  let release: (() => void) | null = null;
  const letGo = (): void => {
    release?.();
    release = null;
  };
  return {
    letGo,
    take: (id, wait) => {
      letGo();
      if (locks === undefined) return Promise.resolve(true);
      return new Promise((resolve) => {
        const impatience = new AbortController();
        const timer = wait ? timers.setTimeout(() => impatience.abort(), WAIT_MS) : null;
        const held = (lock: unknown): Promise<void> | undefined => {
          if (timer !== null) timers.clearTimeout(timer as never);
          resolve(lock !== null);
          // Held until let go: the browser frees it by itself when the tab ends, however it ends.
          return lock === null ? undefined : new Promise((free) => (release = free));
        };
        // Named by a prefix of our own: other pages of this origin have locks too.
        locks.request(`rimpath player ${id}`, wait ? { signal: impatience.signal } : { ifAvailable: true }, held).catch((error: unknown) => {
          // Not waited for: somebody has it. Any other failure means that this browser has no locks for us.
          resolve(!(error instanceof Error && error.name === 'AbortError'));
        });
      });
    },
  };
}
