import { createContext, useCallback, useContext, useRef, useSyncExternalStore } from 'react';
import { useStore } from 'zustand';
import type { Analysis } from '../core/analysis';
import type { ReadingBand } from '../core/bands';
import type { PathSamples } from './pathSampler';
import type { Session } from './session';
import { type AppState, isHandOn } from './store';

export const SessionContext = createContext<Session | null>(null);

export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === null) throw new Error('useSession: outside SessionContext');
  return session;
}

/** Part of the state; renders again only when that part changes. */
export function useApp<T>(select: (state: AppState) => T): T {
  return useStore(useSession().store, select);
}

/**
 * The same for what is slow to draw: while the rim is dragged, or notes pass under a hand on the staff, it waits until the hand pauses, so
 * that the hand is never kept waiting.
 * Otherwise at once, as a field that is typed in needs it.
 */
export function useUnhurried<T>(select: (state: AppState) => T): T {
  const { store } = useSession();
  return useAtRest(store.subscribe, () => select(store.getState()));
}

/** What a source holds: under a moving hand that of the last pause, else that of now. */
function useAtRest<T>(subscribe: (listener: () => void) => () => void, current: () => T): T {
  const { store, handRest } = useSession();
  const drawn = useRef<{ readonly value: T } | null>(null);
  const listen = useCallback(
    (onChange: () => void) => {
      const consider = (): void => {
        if (!isHandOn(store.getState())) onChange();
        else if (subscribe !== store.subscribe) handRest.wait();
      };
      const stops = [
        subscribe(consider),
        ...(subscribe === store.subscribe ? [] : [store.subscribe(() => void (isHandOn(store.getState()) || onChange()))]),
        handRest.subscribe(() => {
          drawn.current = null;
          onChange();
        }),
      ];
      return () => {
        for (const stop of stops) stop();
      };
    },
    [store, handRest, subscribe],
  );
  return useSyncExternalStore(listen, () => {
    if (!isHandOn(store.getState()) || drawn.current === null) drawn.current = { value: current() };
    return drawn.current.value;
  });
}

/** The chosen note for words about it, which a hand on the staff is shown after the picture. */
export function useToldNote(): number {
  const { told } = useSession();
  return useSyncExternalStore(told.subscribe, told.current);
}

/** The path's samples; a moment behind the record while it is changing. */
export function usePath(): readonly PathSamples[] {
  const { path } = useSession();
  return useSyncExternalStore(path.subscribe, path.current);
}

/** The same where they are slow to draw. */
export function useUnhurriedPath(): readonly PathSamples[] {
  const { path } = useSession();
  return useAtRest(path.subscribe, path.current);
}

/** The bands of this analysis; null until they are known. */
export function useBands(analysis: Analysis | null): readonly ReadingBand[] | null {
  const { bands } = useSession();
  const known = useSyncExternalStore(bands.subscribe, bands.current);
  return known !== null && known.analysis === analysis ? known.bands : null;
}

export function usePlaying(): boolean {
  const { playhead } = useSession();
  return useSyncExternalStore(playhead.onPlaying, playhead.isPlaying);
}
