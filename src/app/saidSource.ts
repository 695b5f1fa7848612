/** What the readings say, for whoever shows it besides its own chapter: which record it is of, and the findings. */
import type { Findings } from '../core/findings/findings';
import type { PlayerRecord } from '../core/specs';

export interface SaidOf {
  readonly record: PlayerRecord;
  readonly findings: Findings;
}

export interface SaidSource {
  current(): SaidOf | null;
  subscribe(listener: () => void): () => void;
  tell(said: SaidOf | null): void;
}

export function createSaidSource(): SaidSource {
  const listeners = new Set<() => void>();
  let said: SaidOf | null = null;
  return {
    current: () => said,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    tell: (next) => {
      if (next?.record === said?.record && next?.findings === said?.findings) return;
      said = next;
      for (const listener of listeners) listener();
    },
  };
}
