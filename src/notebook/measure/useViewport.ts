/** The part of a picture that is seen, kept in step with its frame's size. */
import { type RefObject, useEffect, useMemo, useRef, useState } from 'react';
import type { Point } from '../../measure/picture';
import { type Size, type Viewport, fitted, panned, showing, zoomed } from './viewport';

export interface PictureView {
  readonly frame: RefObject<HTMLDivElement | null>;
  /** null until the frame has a size. */
  readonly view: Viewport | null;
  readonly frameSize: Size;
  readonly isWhole: boolean;
  /** About a place of the frame, CSS px; absent, about its middle. */
  zoom(factor: number, about?: Point): void;
  pan(by: Point): void;
  /** Brings a point of the picture into sight. */
  reveal(point: Point): void;
  whole(): void;
}

const NO_SIZE: Size = { width: 0, height: 0 };

export function useViewport(picture: Size): PictureView {
  const frame = useRef<HTMLDivElement>(null);
  const [frameSize, setFrameSize] = useState(NO_SIZE);
  /** null: the whole picture. */
  const [chosen, setChosen] = useState<Viewport | null>(null);
  useEffect(() => {
    const element = frame.current;
    if (element === null) return;
    const measure = (): void => setFrameSize({ width: element.clientWidth, height: element.clientHeight });
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    measure();
    return () => observer.disconnect();
  }, []);
  const { width, height } = picture;
  return useMemo(() => {
    const size = { width, height };
    const known = frameSize.width > 0 && frameSize.height > 0;
    const whole = known ? fitted(size, frameSize) : null;
    const change = (edit: (view: Viewport) => Viewport): void => {
      if (whole === null) return;
      setChosen((before) => {
        const next = edit(before ?? whole);
        return next.scale === whole.scale ? null : next;
      });
    };
    return {
      frame,
      view: whole === null ? null : (chosen ?? whole),
      frameSize,
      isWhole: chosen === null,
      zoom: (factor, about = { x: frameSize.width / 2, y: frameSize.height / 2 }) => change((view) => zoomed(view, factor, about, size, frameSize)),
      pan: (by) => change((view) => panned(view, by, size, frameSize)),
      reveal: (point) => change((view) => showing(view, point, size, frameSize)),
      whole: () => setChosen(null),
    };
  }, [width, height, frameSize, chosen]);
}
