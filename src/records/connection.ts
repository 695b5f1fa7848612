/** Opening one of the page's databases in the browser: in time, brought up to date, and with a reason where it cannot be. */
import { type IDBPDatabase, wrap } from 'idb';

export interface DatabasePlan {
  readonly name: string;
  /** Step n brings a database of version n to n + 1. Steps are added, never changed: somebody's database stands at each of them. */
  readonly upgrades: readonly ((database: IDBDatabase) => void)[];
  readonly stores: readonly string[];
}

/** Refused by the browser; full; made by a newer program; no answer; held by an older page in another tab. */
export type WhyNotOpened = 'refused' | 'full' | 'newer' | 'silent' | 'other-tab';

export class NotOpenedError extends Error {
  override readonly name = 'NotOpenedError';
  constructor(readonly why: WhyNotOpened) {
    super(`The database was not opened: ${why}.`);
  }
}

export interface Timers {
  setTimeout(work: () => void, ms: number): unknown;
  clearTimeout(timer: never): void;
}

/** A store that has not answered by then is taken for one that does not; milliseconds. A slow disk takes some hundreds. */
const OPEN_WITHIN_MS = 4000;

/** Rejects with NotOpenedError, and never keeps anybody waiting. A database made by a newer program is left as it is. */
export function connect(factory: IDBFactory, timers: Timers, { name, upgrades, stores }: DatabasePlan): Promise<IDBPDatabase> {
  return new Promise((resolve, reject) => {
    let late = false;
    let whyLate: WhyNotOpened = 'silent';
    let request: IDBOpenDBRequest;
    try {
      request = factory.open(name, upgrades.length);
    } catch {
      reject(new NotOpenedError('refused'));
      return;
    }
    const timer = timers.setTimeout(() => {
      late = true;
      reject(new NotOpenedError(whyLate));
    }, OPEN_WITHIN_MS);
    request.onblocked = () => {
      whyLate = 'other-tab';
    };
    request.onupgradeneeded = ({ oldVersion }) => {
      if (late) request.transaction?.abort();
      else for (const upgrade of upgrades.slice(oldVersion)) upgrade(request.result);
    };
    request.onerror = () => {
      timers.clearTimeout(timer as never);
      const fault = request.error?.name;
      reject(new NotOpenedError(fault === 'VersionError' ? 'newer' : fault === 'QuotaExceededError' ? 'full' : 'refused'));
    };
    request.onsuccess = () => {
      timers.clearTimeout(timer as never);
      const complete = stores.every((store) => request.result.objectStoreNames.contains(store));
      if (late || !complete) {
        request.result.close();
        reject(new NotOpenedError('refused'));
      } else resolve(wrap(request.result));
    };
  });
}

/** Whether the browser closed the database by itself; what it no longer holds can be opened once more. */
export function isClosed(error: unknown): boolean {
  return error instanceof Error && (error.name === 'InvalidStateError' || error.name === 'UnknownError');
}
