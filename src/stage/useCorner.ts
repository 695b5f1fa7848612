/** Where an element stands in the window, measured only after something may have moved it: to ask at every move of a drag is to lay the page out each time. */
import { type RefObject, useCallback, useEffect, useRef } from 'react';

export function useCorner(element: RefObject<Element | null>): () => DOMRect | null {
  const known = useRef<DOMRect | null>(null);
  useEffect(() => {
    const forget = (): void => void (known.current = null);
    // Any press or scroll, of whatever part of the page, and any change of size; during a drag the page below does not push it.
    const heard = ['pointerdown', 'scroll', 'resize'] as const;
    for (const name of heard) window.addEventListener(name, forget, { capture: true, passive: true });
    const sizes = new ResizeObserver(forget);
    if (element.current) sizes.observe(element.current);
    sizes.observe(document.body);
    return () => {
      for (const name of heard) window.removeEventListener(name, forget, { capture: true });
      sizes.disconnect();
    };
  }, [element]);
  return useCallback(() => (known.current ??= element.current?.getBoundingClientRect() ?? null), [element]);
}
