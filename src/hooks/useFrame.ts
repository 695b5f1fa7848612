import { useLayoutEffect, useRef, useState, type RefObject } from 'react';

export interface Frame {
  /** Width to lay out for, in px before zoom; 0 until the first measurement. */
  readonly widthPx: number;
  /** How much larger than 16 px the page's type is: what is laid out in px is zoomed by this. */
  readonly zoom: number;
}

/** The room an element has, followed as the element's width or the page's type size changes. */
export function useFrame<E extends HTMLElement>(): readonly [RefObject<E | null>, Frame] {
  const ref = useRef<E>(null);
  const [frame, setFrame] = useState<Frame>({ widthPx: 0, zoom: 1 });
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return undefined;
    const root = document.documentElement;
    const measure = (): void => {
      const zoom = parseFloat(getComputedStyle(root).fontSize) / 16 || 1;
      const widthPx = element.clientWidth / zoom;
      setFrame((known) => (known.widthPx === widthPx && known.zoom === zoom ? known : { widthPx, zoom }));
    };
    measure();
    const sizes = new ResizeObserver(measure);
    sizes.observe(element);
    // A theme with larger type is switched at the root and need not change this element's width.
    const themes = new MutationObserver(measure);
    themes.observe(root, { attributes: true });
    return () => {
      sizes.disconnect();
      themes.disconnect();
    };
  }, []);
  return [ref, frame];
}
