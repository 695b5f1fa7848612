/** A scan that can be turned and looked at more closely; what lies over it is drawn by whoever uses it. */
import { type ReactNode, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { ScanPicture } from '../../scans/drawScan';
import { type PictureSize, type Px, type ScanView, turnView } from '../../scans/scanView';
import { sayScans } from '../../words/scans';
import { usePicturePointers } from '../measure/usePicturePointers';
import type { PictureSource } from './props';

export interface ScanCanvasProps {
  readonly source: PictureSource;
  readonly withDifferences: boolean;
  readonly label: string;
  /** From where it is looked at first, in a picture of another size perhaps; null: from in front, all of it. */
  readonly first: ScanView | null;
  /** Where it is tapped, px of the picture. */
  onTap?(picture: ScanPicture, at: Px): void;
  /** Over the picture, in its px divided by `dots`. */
  children?(picture: ScanPicture, dots: number): ReactNode;
}

const ASPECT = 3 / 4;
/** Radians a CSS px that a hand moves, and a press of a button. */
const TURN_PER_PX = 0.009;
const TURN = Math.PI / 12;
const ZOOM = 1.25;
/** More dots a px than this cannot be told apart here and cost time. */
const MOST_DOTS = 2;

export function ScanCanvas({ source, withDifferences, label, first, onTap, children }: ScanCanvasProps): ReactNode {
  const surface = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const { size, dots } = useSize(surface);
  const [view, setView] = useState<ScanView | null>(first);
  const picture = usePicture(source, view, size, withDifferences);
  useEffect(() => {
    let isLeft = false;
    if (view === null && size !== null) void source.frontView(size).then((front) => void (isLeft || setView(front)));
    return () => {
      isLeft = true;
    };
  }, [source, view, size]);
  useLayoutEffect(() => {
    const element = canvas.current;
    if (element === null || picture === null) return;
    element.width = picture.width;
    element.height = picture.height;
    element.getContext('2d')?.putImageData(new ImageData(picture.pixels, picture.width, picture.height), 0, 0);
  }, [picture]);
  const turn = (aside: number, over: number): void => setView((now) => now && turnView(now, aside, over));
  const zoom = (by: number): void => setView((now) => now && { ...now, across: now.across / by });
  const pointers = usePicturePointers(surface, {
    onTap: (at) => picture && onTap?.(picture, { x: at.x * dots, y: at.y * dots }),
    onPan: (by) => turn(by.x * TURN_PER_PX, by.y * TURN_PER_PX),
    onZoom: zoom,
  });
  return (
    <div className="scan-view">
      <div ref={surface} className="scan-view__surface" role="group" aria-label={label} data-drawn={picture !== null} {...pointers}>
        <canvas ref={canvas} aria-hidden="true" />
        {picture === null ? null : children?.(picture, dots)}
      </div>
      <p className="button-row button-row--wraps" role="group" aria-label={sayScans('turning')}>
        <Press words={sayScans('turnLeft')} onPress={() => turn(-TURN, 0)} />
        <Press words={sayScans('turnRight')} onPress={() => turn(TURN, 0)} />
        <Press words={sayScans('turnUp')} onPress={() => turn(0, -TURN)} />
        <Press words={sayScans('turnDown')} onPress={() => turn(0, TURN)} />
        <Press words={sayScans('turnOver')} onPress={() => turn(0, Math.PI)} />
        <Press words={sayScans('larger')} onPress={() => zoom(ZOOM)} />
        <Press words={sayScans('smaller')} onPress={() => zoom(1 / ZOOM)} />
      </p>
    </div>
  );
}

function Press({ words, onPress }: { readonly words: string; onPress(): void }): ReactNode {
  return (
    <button type="button" className="quiet" onClick={onPress}>
      {words}
    </button>
  );
}

/** Of the picture in dots, and how many dots a CSS px has; null until it stands on the page. */
function useSize(element: React.RefObject<HTMLDivElement | null>): { readonly size: PictureSize | null; readonly dots: number } {
  const [size, setSize] = useState<PictureSize | null>(null);
  const dots = Math.min(globalThis.devicePixelRatio || 1, MOST_DOTS);
  useLayoutEffect(() => {
    const frame = element.current;
    if (frame === null) return;
    const look = (): void => {
      const width = Math.round(frame.clientWidth * dots);
      if (width > 0) setSize((now) => (now?.width === width ? now : { width, height: Math.round(width * ASPECT) }));
    };
    look();
    const observer = new ResizeObserver(look);
    observer.observe(frame);
    return () => observer.disconnect();
  }, [element, dots]);
  return { size, dots };
}

/** The newest view is drawn when the one before is done: a hand is never ahead by more than one picture. */
function usePicture(source: PictureSource, view: ScanView | null, size: PictureSize | null, withDifferences: boolean): ScanPicture | null {
  const [picture, setPicture] = useState<ScanPicture | null>(null);
  // With whom it is asked for: the one before may have been ended while it drew.
  const wanted = useRef<{ readonly source: PictureSource; readonly view: ScanView; readonly size: PictureSize } | null>(null);
  const isDrawing = useRef(false);
  useEffect(() => {
    if (view === null || size === null) return;
    wanted.current = { source, view, size };
    const draw = async (): Promise<void> => {
      isDrawing.current = true;
      while (wanted.current !== null) {
        const now = wanted.current;
        wanted.current = null;
        const drawn = await now.source.picture(now.view, now.size, withDifferences);
        if (drawn !== null) setPicture(drawn);
      }
      isDrawing.current = false;
    };
    if (!isDrawing.current) void draw();
  }, [source, view, size, withDifferences]);
  return picture;
}
