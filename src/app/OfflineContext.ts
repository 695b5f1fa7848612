import { createContext, useContext, useSyncExternalStore } from 'react';
import type { Offline, OfflineState } from './offline';

export const OfflineContext = createContext<Offline | null>(null);

/** Whether the page is put by, and the browser's offer to install it. */
export function useOffline(): { readonly state: OfflineState; readonly canInstall: boolean; install(): void } {
  const offline = useContext(OfflineContext);
  if (offline === null) throw new Error('useOffline: outside OfflineContext');
  const state = useSyncExternalStore(offline.subscribe, offline.state);
  const canInstall = useSyncExternalStore(offline.subscribe, offline.canInstall);
  return { state, canInstall, install: offline.install };
}
