/** Hands parts made on the page to the canvas, whose tree is drawn apart from the page's: each cell of the page puts its scene through. */
import { type ReactElement, useSyncExternalStore } from 'react';

export interface CanvasDoor {
  /** null: taken away. */
  put(key: string, part: ReactElement | null): void;
  current(): readonly ReactElement[];
  subscribe(listener: () => void): () => void;
}

export function createCanvasDoor(): CanvasDoor {
  const parts = new Map<string, ReactElement>();
  const listeners = new Set<() => void>();
  let all: readonly ReactElement[] = [];
  return {
    put: (key, part) => {
      if (part === null) parts.delete(key);
      else parts.set(key, part);
      all = [...parts.values()];
      for (const listener of listeners) listener();
    },
    current: () => all,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

export const useInCanvas = (door: CanvasDoor): readonly ReactElement[] => useSyncExternalStore(door.subscribe, door.current);
