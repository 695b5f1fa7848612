/** Where a drawing's millimetres lie within the box around it: measured when sizes change, since to ask at every frame is to lay the page out each time. */
import { type RefObject, useLayoutEffect, useMemo } from 'react';
import { useCorner } from './useCorner';

export interface DrawingPlace {
  /** Where the drawing's origin lies, px from the box's corner. */
  readonly leftPx: number;
  readonly topPx: number;
  readonly pxPerMm: number;
}

export function useDrawingPlace(box: RefObject<Element | null>, drawing: RefObject<SVGSVGElement | null>) {
  const cornerOf = useCorner(box);
  const placing = useMemo(() => {
    let known: DrawingPlace | null = null;
    const listeners = new Set<() => void>();
    const place = (): DrawingPlace | null => {
      if (known) return known;
      const matrix = drawing.current?.getScreenCTM();
      const corner = box.current?.getBoundingClientRect();
      if (!matrix || !corner) return null;
      known = { leftPx: matrix.e - corner.left, topPx: matrix.f - corner.top, pxPerMm: matrix.a };
      return known;
    };
    return {
      place,
      /** A point of the window in the drawing's millimetres, y down. */
      inDrawing: (clientX: number, clientY: number): { readonly x: number; readonly y: number } | null => {
        const [at, corner] = [place(), cornerOf()];
        if (!at || !corner) return null;
        return { x: (clientX - corner.left - at.leftPx) / at.pxPerMm, y: (clientY - corner.top - at.topPx) / at.pxPerMm };
      },
      onChange: (listener: () => void): (() => void) => {
        listeners.add(listener);
        return () => listeners.delete(listener);
      },
      measureAgain: (): void => {
        known = null;
        for (const listener of listeners) listener();
      },
    };
  }, [box, drawing, cornerOf]);
  useLayoutEffect(() => {
    // The drawings change size with the window, with the theme's larger type and with what stands beside them.
    const sizes = new ResizeObserver(placing.measureAgain);
    for (const element of [box.current, ...(box.current?.children ?? [])]) if (element) sizes.observe(element);
    window.addEventListener('resize', placing.measureAgain);
    return () => {
      sizes.disconnect();
      window.removeEventListener('resize', placing.measureAgain);
    };
  }, [box, placing]);
  return placing;
}
