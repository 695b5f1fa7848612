import { type ReactNode, useLayoutEffect, useRef } from 'react';
import type { Point } from '../../measure/picture';
import { type Size, type Viewport, toFrame } from './viewport';

export interface LoupeProps {
  readonly image: CanvasImageSource;
  readonly picture: Size;
  readonly view: Viewport;
  readonly frame: Size;
  /** What is looked at, px of the picture. */
  readonly at: Point;
}

/** Four times as large as the picture around it, beside what is looked at: a finger would hide what lies under it. */
const MAGNIFIES = 4;
const WIDTH_PX = 136;
/** Room for a finger between the mark and the loupe, CSS px. */
const BESIDE_PX = 44;

export function Loupe({ image, picture, view, frame, at }: LoupeProps): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null);
  const scale = view.scale * MAGNIFIES;
  useLayoutEffect(() => {
    const element = canvas.current;
    const context = element?.getContext('2d');
    if (element == null || context == null) return;
    const dots = window.devicePixelRatio;
    element.width = WIDTH_PX * dots;
    element.height = WIDTH_PX * dots;
    context.setTransform(dots, 0, 0, dots, 0, 0);
    context.clearRect(0, 0, WIDTH_PX, WIDTH_PX);
    const [left, top] = [WIDTH_PX / 2 - (at.x + 0.5) * scale, WIDTH_PX / 2 - (at.y + 0.5) * scale];
    context.drawImage(image, left, top, picture.width * scale, picture.height * scale);
  }, [image, picture, at, scale]);
  const place = toFrame(view, at);
  const isLeft = place.x > frame.width / 2;
  const left = isLeft ? place.x - BESIDE_PX - WIDTH_PX : place.x + BESIDE_PX;
  return (
    <div
      className="loupe"
      aria-hidden="true"
      style={{ inlineSize: WIDTH_PX, blockSize: WIDTH_PX, left: clamp(left, frame.width), top: clamp(place.y - WIDTH_PX / 2, frame.height) }}
    >
      <canvas ref={canvas} />
      <svg viewBox="-68 -68 136 136">
        <path className="mark-halo" d="M-30 0H-5M5 0H30M0 -30V-5M0 5V30" />
        <path className="mark-line" d="M-30 0H-5M5 0H30M0 -30V-5M0 5V30" />
      </svg>
    </div>
  );
}

const clamp = (start: number, room: number): number => Math.max(4, Math.min(room - WIDTH_PX - 4, start));
