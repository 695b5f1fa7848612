/** A live source that tells of its frames less often, so that what else is to be drawn meanwhile gets its turn; the last frame is always told of. */
import type { LiveSource } from '../core/analysis';

/** `everyMs` between two tellings. */
export function slowedLive(live: LiveSource, everyMs: number): LiveSource {
  return {
    current: live.current,
    subscribe: (listener) => {
      let toldMs = -Infinity;
      let timer: ReturnType<typeof setTimeout> | null = null;
      const tell = (): void => {
        timer = null;
        toldMs = performance.now();
        listener();
      };
      const stop = live.subscribe(() => {
        const leftMs = toldMs + everyMs - performance.now();
        if (timer !== null) return;
        if (leftMs <= 0) tell();
        else timer = setTimeout(tell, leftMs);
      });
      return () => {
        stop();
        if (timer !== null) clearTimeout(timer);
      };
    },
  };
}
