/** Where the part that measures pictures, fetched late, puts what stands in the stage's place while something is open. */
import { type ReactElement, useSyncExternalStore } from 'react';

export interface MeasuringDoor {
  current(): ReactElement | null;
  /** null: the stage comes back. */
  show(part: ReactElement | null): void;
  subscribe(listener: () => void): () => void;
}

export function createMeasuringDoor(): MeasuringDoor {
  let shown: ReactElement | null = null;
  const listeners = new Set<() => void>();
  return {
    current: () => shown,
    show: (part) => {
      if (part === shown) return;
      shown = part;
      for (const listener of listeners) listener();
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}

export const measuringDoor = createMeasuringDoor();

export const useInRoom = (door: MeasuringDoor): ReactElement | null => useSyncExternalStore(door.subscribe, door.current);
export const useInStageRoom = (): ReactElement | null => useInRoom(measuringDoor);
