/** Pictures of the stage in a chosen size, one for each frame of a path, whatever the page beside them shows. Shapes only. */
import type { LiveFrame, LiveSource } from '../core/analysis';

export interface PictureSize {
  /** Of the picture, in its own pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Its pixels a CSS pixel: letters and lines are that much larger than on the page. */
  readonly scale: number;
  /** Smoothed edges even where there is no graphics card: for one picture, not for the hundreds of a film. */
  readonly smooth: boolean;
}

export interface PictureTaker {
  /** Draws the stage as it is at a frame into the canvas, its upper left corner at (left, top) in the canvas's pixels. */
  paint(frame: LiveFrame, context: CanvasRenderingContext2D, leftPx: number, topPx: number): Promise<void>;
  close(): void;
}

/** A live source whose frame is set by hand. */
export interface HandLive extends LiveSource {
  show(frame: LiveFrame): void;
}

export function handLive(first: LiveFrame): HandLive {
  const listeners = new Set<() => void>();
  let frame = first;
  return {
    current: () => frame,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    show(next) {
      frame = next;
      for (const listener of listeners) listener();
    },
  };
}

/** A place on the page where nobody sees or reaches it, of the picture's size; `remove` takes it away. */
export function hiddenPlace({ widthPx, heightPx, scale }: PictureSize): HTMLDivElement {
  const place = document.createElement('div');
  place.inert = true;
  place.setAttribute('aria-hidden', 'true');
  // Laid out and drawn, unlike what is not displayed: only far off the page.
  Object.assign(place.style, { position: 'fixed', left: '-20000px', top: '0', width: `${widthPx / scale}px`, height: `${heightPx / scale}px`, contain: 'strict' });
  document.body.append(place);
  return place;
}
