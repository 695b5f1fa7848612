/** The keys that a speaker or a presenter’s clicker sends. In a field the keys of typing keep their own meaning; a button keeps Space and Enter, words too long for their place the arrows that scroll. */
import { useEffect, useRef } from 'react';

export interface ClassKeys {
  forward(): void;
  back(): void;
  first(): void;
  last(): void;
  /** Escape, outside a field. */
  leave(): void;
  /** Escape in a field: the keys belong to the class again. */
  leaveField(): void;
}

export function useClassKeys(keys: ClassKeys): void {
  const latest = useRef(keys);
  useEffect(() => {
    latest.current = keys;
  });
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      if (scrolls(event)) return;
      const wish = wishOf(event.key, event.shiftKey, kindOf(event.target));
      if (wish === null) return;
      event.preventDefault();
      // A key that is held down would run through the whole class.
      if (!event.repeat) latest.current[wish]();
    };
    window.addEventListener('keydown', onKeyDown);
    return () => window.removeEventListener('keydown', onKeyDown);
  }, []);
}

export type KeyTarget = 'field' | 'button' | 'elsewhere';

/** What a key asks for where it was pressed; null: nothing of the class. */
export function wishOf(key: string, shift: boolean, target: KeyTarget): keyof ClassKeys | null {
  if (key === 'PageDown') return 'forward';
  if (key === 'PageUp') return 'back';
  if (key === 'Escape') return target === 'field' ? 'leaveField' : 'leave';
  if (target === 'field') return null;
  if (key === ' ') return target === 'button' ? null : shift ? 'back' : 'forward';
  return PLAIN_KEYS.get(key) ?? null;
}

const PLAIN_KEYS = new Map<string, keyof ClassKeys>([
  ['ArrowRight', 'forward'],
  ['ArrowDown', 'forward'],
  ['ArrowLeft', 'back'],
  ['ArrowUp', 'back'],
  ['Home', 'first'],
  ['End', 'last'],
]);

/** Words that run out of their place and were come to by Tab are moved by the arrows up and down, which is the only way to them by keys. */
function scrolls({ key, target }: KeyboardEvent): boolean {
  const room = target instanceof Element && (key === 'ArrowDown' || key === 'ArrowUp') ? target.closest('[data-scrolls-by-keys]') : null;
  return room !== null && room === target && room.scrollHeight > room.clientHeight + 1;
}

function kindOf(target: EventTarget | null): KeyTarget {
  if (!(target instanceof Element)) return 'elsewhere';
  if (target.matches('input[type="checkbox"], button, summary, a')) return 'button';
  return target.matches('input, select, textarea') ? 'field' : 'elsewhere';
}
