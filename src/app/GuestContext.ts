import { createContext, useContext, useSyncExternalStore } from 'react';
import type { Guest, GuestState } from './guest';

export const GuestContext = createContext<Guest | null>(null);

/** What somebody shared, and the ways to and from it. */
export function useGuest(): Guest {
  const guest = useContext(GuestContext);
  if (guest === null) throw new Error('useGuest: outside GuestContext');
  return guest;
}

export function useGuestState(): GuestState {
  const guest = useGuest();
  return useSyncExternalStore(guest.subscribe, guest.current);
}
