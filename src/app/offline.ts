/**
 * Works without a network: the built page puts everything it may need by, through a service worker (made at the build, vite.config.ts).
 * A newer version is announced and never forced; it starts when the person says so or when all pages of the older one are closed.
 */
import type { Workbox } from 'workbox-window';

/**
 * none: nothing is put by (a page from the disk, a browser that cannot, or not yet).
 * ready: the page opens without a network.
 * newer: a newer version waits.
 * outdated: a newer version has been started in another tab; parts of this page that were not yet fetched are gone.
 */
export type OfflineState = 'none' | 'ready' | 'newer' | 'outdated';

export interface Offline {
  state(): OfflineState;
  /** The browser offers to install the page. */
  canInstall(): boolean;
  /** Lets the browser ask; nothing happens unless it offers. */
  install(): void;
  subscribe(onChange: () => void): () => void;
  /** Starts the newer version and loads the page anew; nothing happens unless one waits. */
  startNewer(): void;
  /** Loads the page anew. */
  reload(): void;
}

/** What of the page it needs; a test brings its own. */
export interface OfflineSurroundings {
  /** Null where a page cannot be put by. */
  readonly worker: () => Promise<Pick<Workbox, 'addEventListener' | 'register' | 'messageSkipWaiting' | 'update'>> | null;
  /** A worker already serves this page. */
  readonly served: boolean;
  readonly reload: () => void;
  /** Calls back now and then, when it is worth asking for a newer version. */
  readonly nowAndThen: (ask: () => void) => void;
  /** Calls back when a part of the page could not be fetched. */
  readonly onMissingPart: (tell: () => void) => void;
  /** Calls back with the browser's own question when it offers to install the page, and with null when it does no more. */
  readonly onInstallable: (tell: (ask: (() => void) | null) => void) => void;
}

export function createOffline(surroundings: OfflineSurroundings): Offline {
  let state: OfflineState = surroundings.served ? 'ready' : 'none';
  const listeners = new Set<() => void>();
  const tell = (): void => {
    for (const listener of listeners) listener();
  };
  const become = (next: OfflineState): void => {
    if (next === state || state === 'outdated') return;
    state = next;
    tell();
  };
  let askToInstall: (() => void) | null = null;
  const offer = (ask: (() => void) | null): void => {
    askToInstall = ask;
    tell();
  };
  let served = surroundings.served;
  let startNewer = (): void => undefined;
  let agreed = false;

  surroundings.onMissingPart(() => become('outdated'));
  surroundings.onInstallable(offer);
  void surroundings
    .worker()
    ?.then(async (worker) => {
      worker.addEventListener('waiting', () => become('newer'));
      worker.addEventListener('controlling', () => {
        // The worker of a first visit serves the page that brought it; each later one is a newer version's.
        if (!served) become('ready');
        else if (agreed) surroundings.reload();
        else become('outdated');
        served = true;
      });
      startNewer = () => {
        agreed = true;
        worker.messageSkipWaiting();
      };
      await worker.register();
      surroundings.nowAndThen(() => void worker.update().catch(noNetwork));
    })
    // Storage refused, a private window, a server that does not send the worker: the page works as before, with a network.
    .catch(() => become('none'));

  return {
    state: () => state,
    canInstall: () => askToInstall !== null,
    install: () => {
      const ask = askToInstall;
      // A browser lets each of its offers be used once.
      if (ask !== null) offer(null);
      ask?.();
    },
    subscribe: (onChange) => {
      listeners.add(onChange);
      return () => listeners.delete(onChange);
    },
    startNewer: () => {
      if (state === 'newer') startNewer();
    },
    reload: surroundings.reload,
  };
}

/** Asking for a newer version without a network fails, and that is all. */
const noNetwork = (): void => undefined;
