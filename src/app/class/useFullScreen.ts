/** The whole screen where the browser lends it. Its own Escape gives it back, which here means: leave. */
import { useCallback, useEffect, useRef, useSyncExternalStore } from 'react';

export interface FullScreen {
  /** False where the browser has none to lend, as on some phones. */
  readonly possible: boolean;
  readonly on: boolean;
  toggle(): void;
}

/** `onTakenBack`: the browser gave the screen back without having been asked here, as it does at Escape. */
export function useFullScreen(onTakenBack: () => void): FullScreen {
  const on = useSyncExternalStore(subscribe, isOn);
  const asked = useRef(false);
  const latest = useRef(onTakenBack);
  useEffect(() => {
    latest.current = onTakenBack;
  });
  useEffect(() => {
    let was = isOn();
    const stop = subscribe(() => {
      if (was && !isOn() && !asked.current) latest.current();
      was = isOn();
      asked.current = false;
    });
    return () => {
      stop();
      if (isOn()) void document.exitFullscreen().catch(() => undefined);
    };
  }, []);
  const toggle = useCallback(() => {
    if (isOn()) {
      asked.current = true;
      void document.exitFullscreen().catch(() => undefined);
    } else void document.documentElement.requestFullscreen().catch(() => undefined);
  }, []);
  return { possible: document.fullscreenEnabled === true, on, toggle };
}

const isOn = (): boolean => document.fullscreenElement !== null && document.fullscreenElement !== undefined;

function subscribe(listener: () => void): () => void {
  document.addEventListener('fullscreenchange', listener);
  return () => document.removeEventListener('fullscreenchange', listener);
}
