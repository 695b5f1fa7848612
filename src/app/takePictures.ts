/** Pictures, films and sound of what the page shows, as files. Everything heavy is fetched when it is first asked for. */
import type { LiveFrame } from '../core/analysis';
import { type Live, type LiveOptions } from '../core/live';
import { type Caption, type CaptionColours, FONTS, captionedLayout, captionedSvg, paintCaption } from '../pictures/captionedPicture';
import { FILM_RATE, type FilmCourse, filmMoments, filmNotes, filmSeconds } from '../pictures/filmPlan';
import { toneSteps } from '../pictures/toneSamples';
import type { FilmFormat } from '../pictures/filmFormats';
import { palettes } from '../stage/palette';
import type { PictureSize, PictureTaker } from '../stage/pictureTaker';
import type { StageProps } from '../stage/props';

/** What is to be seen. */
export interface PictureScene {
  readonly props: StageProps;
  /** The flat drawing, by wish or because this browser has no third dimension. */
  readonly flat: boolean;
  caption(frame: LiveFrame): Caption;
}

/** Letters are as large as on a page this wide, px. */
const PAGE_WIDTH_PX = 960;

/** A picture over its caption. Rejects where the browser cannot draw it. */
export async function pngOf(scene: PictureScene, frame: LiveFrame, widthPx: number): Promise<Blob> {
  const painter = await openPainter(scene, frame, widthPx, true);
  try {
    await painter.paint(frame);
    return await new Promise((done, failed) =>
      painter.canvas.toBlob((blob) => (blob === null ? failed(new Error('pngOf: the picture could not be made')) : done(blob)), 'image/png'));
  } finally {
    painter.close();
  }
}

/** The flat drawing as an SVG that stands alone. */
export async function svgOf({ props, caption }: PictureScene, frame: LiveFrame): Promise<Blob> {
  const layout = captionedLayout(SVG_WIDTH);
  const { takeFlat } = await import('../stage/takeFlat');
  const taker = await takeFlat(props, frame, { widthPx: layout.widthPx, heightPx: layout.pictureHeightPx, scale: 1, smooth: true });
  try {
    const figures = await taker.figures(frame, layout.widthPx, layout.pictureHeightPx);
    const pen = canvasOf(1, 1).context;
    const measure = (text: string, weight: number, size: number): number => {
      pen.font = `${weight} ${size}px ${FONTS}`;
      return pen.measureText(text).width;
    };
    return new Blob([captionedSvg(layout, figures, caption(frame), coloursOf(props), measure)], { type: 'image/svg+xml' });
  } finally {
    taker.close();
  }
}

/** Units of the SVG's own box; it has no pixels. */
const SVG_WIDTH = 1280;

export interface FilmWish {
  readonly course: FilmCourse;
  readonly widthPx: number;
  readonly framesPerS?: number;
  readonly format: FilmFormat;
  readonly withSound: boolean;
  readonly signal: AbortSignal;
  onProgress(part: number): void;
}

/** Null where it was stopped. Rejects where an encoder fails. `live` and `options` are those of a path of its own. */
export async function filmOf(scene: PictureScene, live: Live, options: LiveOptions, wish: FilmWish): Promise<Blob | null> {
  const framesPerS = wish.framesPerS ?? FILM_RATE;
  const moments = filmMoments(wish.course, framesPerS);
  const at = (moment: (typeof moments)[number]): LiveFrame | null => live.atPitch(moment.midi, { ...options, direction: moment.direction });
  let last = at(moments[0]!);
  if (last === null) throw new Error('filmOf: the rim finds no seat where the path begins');
  const [{ writeFilm }, sound] = await Promise.all([
    import('../pictures/writeFilm'),
    wish.withSound && wish.format.sound !== null ? soundOf(wish.course, wish.signal) : null,
  ]);
  if (wish.signal.aborted) return null;
  const painter = await openPainter(scene, last, wish.widthPx, false);
  try {
    return await writeFilm({
      format: wish.format,
      canvas: painter.canvas,
      framesPerS,
      frames: moments.length,
      async draw(frame) {
        // Where the rim finds no seat the last picture stays, as on the page.
        last = at(moments[frame]!) ?? last;
        await painter.paint(last!);
      },
      sound,
      signal: wish.signal,
      onProgress: wish.onProgress,
    });
  } finally {
    painter.close();
  }
}

/** The sound of a course, made piece by piece so that the page stays at hand; what has been made when it is stopped. */
export async function soundOf(course: FilmCourse, signal: AbortSignal): Promise<Float32Array<ArrayBuffer>> {
  const steps = toneSteps(filmNotes(course), filmSeconds(course));
  for (;;) {
    const until = performance.now() + SLICE_MS;
    do {
      const step = steps.next();
      if (step.done === true) return step.value;
    } while (performance.now() < until);
    if (signal.aborted) return new Float32Array(0);
    await new Promise((done) => setTimeout(done, 0));
  }
}

const SLICE_MS = 12;

interface Painter {
  readonly canvas: HTMLCanvasElement;
  paint(frame: LiveFrame): Promise<void>;
  close(): void;
}

async function openPainter({ props, flat, caption }: PictureScene, first: LiveFrame, widthPx: number, smooth: boolean): Promise<Painter> {
  const layout = captionedLayout(widthPx);
  const { canvas, context } = canvasOf(layout.widthPx, layout.heightPx);
  const taker = await openTaker(props, flat, first, { widthPx: layout.widthPx, heightPx: layout.pictureHeightPx, scale: layout.widthPx / PAGE_WIDTH_PX, smooth });
  const colours = coloursOf(props);
  return {
    canvas,
    async paint(frame) {
      context.fillStyle = colours.background;
      context.fillRect(0, 0, layout.widthPx, layout.pictureHeightPx);
      await taker.paint(frame, context, 0, 0);
      paintCaption(context, layout, caption(frame), colours);
    },
    close: taker.close,
  };
}

async function openTaker(props: StageProps, flat: boolean, first: LiveFrame, size: PictureSize): Promise<PictureTaker> {
  if (flat) return (await import('../stage/takeFlat')).takeFlat(props, first, size);
  return (await import('../stage/takeStage')).takeStage(props, first, size);
}

function canvasOf(width: number, height: number): { readonly canvas: HTMLCanvasElement; readonly context: CanvasRenderingContext2D } {
  const canvas = document.createElement('canvas');
  Object.assign(canvas, { width, height });
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('takePictures: no drawing context to be had');
  return { canvas, context };
}

function coloursOf({ theme }: StageProps): CaptionColours {
  const { background, ink, muted, hairline, predicted } = palettes[theme];
  return { background, ink, muted, hairline, accent: predicted };
}
