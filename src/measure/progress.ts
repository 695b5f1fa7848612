/** How far a job is, and how long it will still take at the pace so far. */

export interface FilmProgress {
  /** Seconds of the film. */
  readonly doneS: number;
  readonly ofS: number;
  /** Seconds of the clock; null until there is a pace to speak of. */
  readonly leftS: number | null;
}

export interface ProgressAsked {
  /** Pieces of work, all about as long. */
  readonly of: number;
  readonly ofS: number;
  readonly onProgress?: ((progress: FilmProgress) => void) | undefined;
  /** Milliseconds; absent, the browser's. */
  readonly now?: () => number;
}

/** Tells at most every 100 ms, and at the end. */
export function createProgress({ of, ofS, onProgress, now = () => performance.now() }: ProgressAsked): { done(): void } {
  const beganMs = now();
  let toldMs = beganMs;
  let count = 0;
  return {
    done() {
      count += 1;
      const nowMs = now();
      if (count < of && nowMs - toldMs < TELL_EVERY_MS) return;
      toldMs = nowMs;
      const spentS = (nowMs - beganMs) / 1000;
      const leftS = spentS < PACE_FROM_S ? null : (spentS / count) * (of - count);
      onProgress?.({ doneS: (ofS * count) / of, ofS, leftS });
    },
  };
}

/** Ten times a second: smooth enough for a bar, too slow to cost anything. */
const TELL_EVERY_MS = 100;
/** The first frames take longer than the others (decoder and code warm up). */
const PACE_FROM_S = 0.5;
