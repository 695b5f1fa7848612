/** What the browser gives the keeper; each may be missing. */
import type { KeeperSurroundings } from './keeperTypes';
import { newId } from './newId';

export function browserSurroundings(): KeeperSurroundings {
  const { navigator, document, window } = globalThis as Partial<typeof globalThis>;
  return {
    timers: globalThis,
    locks: navigator?.locks,
    channel: typeof BroadcastChannel === 'undefined' ? undefined : () => new BroadcastChannel('rimpath'),
    storage: navigator?.storage,
    onHide: (listener) => {
      const whenHidden = (): void => {
        if (document?.visibilityState === 'hidden') listener();
      };
      document?.addEventListener('visibilitychange', whenHidden);
      window?.addEventListener('pagehide', listener);
      return () => {
        document?.removeEventListener('visibilitychange', whenHidden);
        window?.removeEventListener('pagehide', listener);
      };
    },
    idOf: newId,
  };
}
