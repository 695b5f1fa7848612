/** Takes pictures of the flat drawing: its two figures side by side as one SVG that stands alone. Loads nothing of three. */
import { flushSync } from 'react-dom';
import { createRoot } from 'react-dom/client';
import type { LiveFrame } from '../core/analysis';
import { FlatStage } from './FlatStage';
import { palettes } from './palette';
import { type PictureSize, type PictureTaker, handLive, hiddenPlace } from './pictureTaker';
import type { StageProps } from './props';

export interface FlatTaker extends PictureTaker {
  /** The two figures inside a box of these dimensions, as markup for an SVG: nothing in it needs the page. */
  figures(frame: LiveFrame, boxWidth: number, boxHeight: number): Promise<string>;
}

export async function takeFlat(props: StageProps, first: LiveFrame, size: PictureSize): Promise<FlatTaker> {
  const place = hiddenPlace(size);
  const root = createRoot(place);
  const live = handLive(first);
  flushSync(() => root.render(<FlatStage {...props} {...DEAF} live={live} />));
  await document.fonts.ready;
  const figures = async (frame: LiveFrame, boxWidth: number, boxHeight: number): Promise<string> => {
    flushSync(() => live.show(frame));
    // What a changed jaw makes React draw comes with the next task.
    await new Promise((done) => setTimeout(done, 0));
    const drawings = [...place.querySelectorAll<SVGSVGElement>('.stage-flat-section, .stage-flat-front')];
    return sideBySide(drawings, boxWidth, boxHeight);
  };
  return {
    figures,
    async paint(frame, context, leftPx, topPx) {
      const { widthPx, heightPx } = size;
      const image = await svgImage(
        `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}">` +
        `<rect width="${widthPx}" height="${heightPx}" fill="${palettes[props.theme].background}"/>${await figures(frame, widthPx, heightPx)}</svg>`,
      );
      context.drawImage(image, leftPx, topPx, widthPx, heightPx);
    },
    close() {
      root.unmount();
      place.remove();
    },
  };
}

/** An SVG as an image that a canvas can be drawn with. Rejects where the browser cannot read it. */
export async function svgImage(source: string): Promise<HTMLImageElement> {
  const address = URL.createObjectURL(new Blob([source], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    return image;
  } finally {
    URL.revokeObjectURL(address);
  }
}

const nothing = (): void => undefined;
const DEAF = { onDragStart: nothing, onDragTravel: nothing, onDragEnd: nothing, onNudge: nothing } as const;

/** Each drawing as large as its share of the width allows; both to one scale, their middles on one height. */
function sideBySide(drawings: readonly SVGSVGElement[], boxWidth: number, boxHeight: number): string {
  const boxes = drawings.map((drawing) => drawing.viewBox.baseVal);
  const wide = boxes.reduce((sum, { width }) => sum + width, 0);
  const high = Math.max(...boxes.map(({ height }) => height));
  const scale = Math.min(boxWidth / wide, boxHeight / high);
  let left = (boxWidth - wide * scale) / 2;
  return drawings.map((drawing, at) => {
    const { x, y, width, height } = boxes[at]!;
    const copy = drawing.cloneNode(true) as SVGSVGElement;
    // Names that only the page's own styles know.
    for (const element of copy.querySelectorAll('*')) for (const name of ['class', 'id']) element.removeAttribute(name);
    const inner = [...copy.childNodes].map((node) => new XMLSerializer().serializeToString(node)).join('').replaceAll(' xmlns="http://www.w3.org/2000/svg"', '');
    const title = drawing.getAttribute('aria-label');
    const markup = `<svg x="${left.toFixed(2)}" y="${((boxHeight - height * scale) / 2).toFixed(2)}" width="${(width * scale).toFixed(2)}" height="${(height * scale).toFixed(2)}" viewBox="${x} ${y} ${width} ${height}">` +
      `${title === null ? '' : `<title>${escaped(title)}</title>`}${inner}</svg>`;
    left += width * scale;
    return markup;
  }).join('');
}

/** Text made fit for markup. */
const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
