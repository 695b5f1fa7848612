/** Takes pictures of the three-dimensional stage: a second one out of sight, drawn once for each frame asked for, with its labels painted over. */
import { useEffect } from 'react';
import { createRoot } from 'react-dom/client';
import { useThree, type RootState } from '@react-three/fiber';
import type { LiveFrame } from '../core/analysis';
import { Stage } from './Stage';
import { cividisStep } from './cividis';
import { type PictureSize, type PictureTaker, handLive, hiddenPlace } from './pictureTaker';
import type { StageProps } from './props';
import { drawsInSoftware } from './webgl';

/** Rejects where the browser gives no third dimension, or takes it back. */
export async function takeStage(props: StageProps, first: LiveFrame, size: PictureSize): Promise<PictureTaker> {
  const place = hiddenPlace(size);
  const root = createRoot(place);
  const live = handLive(first);
  const close = (): void => {
    root.unmount();
    place.remove();
  };
  try {
    const state = await new Promise<RootState>((ready, failed) => {
      const timer = setTimeout(() => failed(new Error('takeStage: the picture did not come in time')), PATIENCE_MS);
      root.render(
        <Stage
          {...props}
          {...DEAF}
          live={live}
          reducedMotion
          fixed={{ dpr: size.scale, antialias: size.smooth || !drawsInSoftware() }}
          inCanvas={<Door onOpen={(get) => {
            clearTimeout(timer);
            ready(get);
          }} />}
        />,
      );
    });
    await document.fonts.ready;
    // The camera goes to its place in the first turns of the frame loop, and labels to theirs. Nothing need be drawn for that: the canvas is
    // left alone while somebody else is said to draw it.
    state.internal.priority += 1;
    for (let turn = 0; turn < SETTLING; turn++) {
      state.advance(performance.now(), false);
      await new Promise((done) => setTimeout(done, 0));
    }
    state.internal.priority -= 1;
    const labels = labelPainter(place, size);
    return {
      paint(frame, context, leftPx, topPx) {
        live.show(frame);
        state.advance(performance.now(), false);
        // In the same task: afterwards the drawing may be cleared.
        context.save();
        context.translate(leftPx, topPx);
        context.beginPath();
        context.rect(0, 0, size.widthPx, size.heightPx);
        context.clip();
        const mirrored = place.querySelector('.stage-mirrored') !== null;
        context.save();
        if (mirrored) {
          context.translate(size.widthPx, 0);
          context.scale(-1, 1);
        }
        context.drawImage(state.gl.domElement, 0, 0, size.widthPx, size.heightPx);
        context.restore();
        labels(context);
        context.restore();
        return Promise.resolve();
      },
      close,
    };
  } catch (error) {
    close();
    throw error;
  }
}

/** A first picture drawn in software on a busy machine takes seconds, ms. */
const PATIENCE_MS = 60_000;
const SETTLING = 4;

const nothing = (): void => undefined;
const DEAF = { onDragStart: nothing, onDragTravel: nothing, onDragEnd: nothing, onNudge: nothing } as const;

/** Hands out the canvas's state once all in it has been laid, and stops it from drawing by itself. */
function Door({ onOpen }: { readonly onOpen: (state: RootState) => void }) {
  const get = useThree((state) => state.get);
  const width = useThree((state) => state.size.width);
  useEffect(() => {
    if (width === 0) return;
    get().setFrameloop('never');
    onOpen(get());
  }, [get, width, onOpen]);
  return null;
}

/** Paints the labels and the legend of a stage as its styles have them, from where the frame loop has put them. */
function labelPainter(place: HTMLElement, { scale }: PictureSize): (context: CanvasRenderingContext2D) => void {
  const labels = [...place.querySelectorAll<HTMLElement>('.stage-label')].map((element) => ({ element, ...looksOf(element), height: element.offsetHeight, padding: parseFloat(getComputedStyle(element).paddingLeft) }));
  const legend = place.querySelector<HTMLElement>('.stage-legend');
  const bar = legend?.querySelector<HTMLElement>('.stage-legend-bar') ?? null;
  return (context) => {
    context.save();
    context.scale(scale, scale);
    context.textBaseline = 'middle';
    // The most important come first on the page, and so last here.
    for (const { element, font, color, background, border, dashed, height, padding } of [...labels].reverse()) {
      const at = /translate\(([-\d.]+)px, ([-\d.]+)px\)/.exec(element.style.transform);
      if (at === null || element.style.visibility !== 'visible') continue;
      const [left, top] = [Number(at[1]), Number(at[2])];
      const text = element.textContent;
      context.font = font;
      const width = context.measureText(text).width + 2 * padding;
      context.beginPath();
      context.roundRect(left, top, width, height, 4);
      context.fillStyle = background;
      context.fill();
      if (border !== null) {
        context.strokeStyle = border;
        context.lineWidth = 1;
        context.setLineDash(dashed ? [4, 3] : []);
        context.stroke();
      }
      context.fillStyle = color;
      context.fillText(text, left + padding, top + height / 2);
    }
    if (legend !== null && bar !== null) {
      for (const text of legend.querySelectorAll<HTMLElement>('span')) {
        if (text.childElementCount > 0 || text === bar) continue;
        const { font, color } = looksOf(text);
        context.font = font;
        context.fillStyle = color;
        const corner = cornerIn(place, text);
        context.fillText(text.textContent, corner.left, corner.top + corner.height / 2);
      }
      const at = cornerIn(place, bar);
      for (let step = 0; step < BAR_STEPS; step++) {
        context.fillStyle = cividisStep((step + 0.5) / BAR_STEPS);
        context.fillRect(at.left + (at.width * step) / BAR_STEPS, at.top, at.width / BAR_STEPS + 0.5, at.height);
      }
    }
    context.restore();
  };
}

const BAR_STEPS = 64;

function looksOf(element: HTMLElement) {
  const style = getComputedStyle(element);
  return {
    font: `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`,
    color: style.color,
    background: style.backgroundColor,
    border: parseFloat(style.borderTopWidth) > 0 ? style.borderTopColor : null,
    dashed: style.borderTopStyle === 'dashed',
  };
}

function cornerIn(place: HTMLElement, element: HTMLElement) {
  const whole = place.getBoundingClientRect();
  const part = element.getBoundingClientRect();
  return { left: part.left - whole.left, top: part.top - whole.top, width: part.width, height: part.height };
}
