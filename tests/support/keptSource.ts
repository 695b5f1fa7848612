/** The page's player for tests of keeping: it changes when told to, and remembers what it became. */
import type { PlayerSpec } from '../../src/core/specs';
import type { KeptSource } from '../../src/records/keeperTypes';

export interface TestSource extends KeptSource {
  change(edit: (player: PlayerSpec) => PlayerSpec): void;
  label(label: string): void;
  drag(on: boolean): void;
}

export function createSource(player: PlayerSpec): TestSource {
  const listeners = new Set<() => void>();
  let now = player;
  let dragging = false;
  const change = (edit: (player: PlayerSpec) => PlayerSpec): void => {
    now = edit(now);
    for (const listener of [...listeners]) listener();
  };
  return {
    current: () => now,
    isDragging: () => dragging,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    replace: change,
    change,
    label: (label) => change((before) => ({ ...before, label })),
    drag: (on) => {
      dragging = on;
      for (const listener of [...listeners]) listener();
    },
  };
}
