/** Looks at a printed PDF: its pages' sizes, where its words stand, and what was inked. */
import type { Canvas } from '@napi-rs/canvas';
import { createRequire } from 'node:module';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

export interface PlacedText {
  readonly text: string;
  /** From the page's top left corner, mm; the box of the letters' line. */
  readonly leftMm: number;
  readonly rightMm: number;
  readonly baselineMm: number;
  readonly heightMm: number;
}

export interface LookedAtPdf {
  readonly pages: readonly { readonly widthMm: number; readonly heightMm: number }[];
  /** Of the first page. */
  readonly texts: readonly PlacedText[];
  /** The first page as drawn, at `dotsPerInch`. */
  readonly picture: Canvas;
}

/** The very copy of the canvas that the PDF library draws with: paths of another copy are strangers to it. */
const { createCanvas } = createRequire(createRequire(import.meta.url).resolve('pdfjs-dist/legacy/build/pdf.mjs'))(
  '@napi-rs/canvas',
) as typeof import('@napi-rs/canvas');

const MM_PER_POINT = 25.4 / 72;

export async function lookAtPdf(bytes: Buffer, dotsPerInch = 150): Promise<LookedAtPdf> {
  const document = await getDocument({ data: new Uint8Array(bytes), useSystemFonts: false, verbosity: 0 }).promise;
  const pages: { readonly widthMm: number; readonly heightMm: number }[] = [];
  for (let number = 1; number <= document.numPages; number++) {
    const { width, height } = (await document.getPage(number)).getViewport({ scale: 1 });
    pages.push({ widthMm: width * MM_PER_POINT, heightMm: height * MM_PER_POINT });
  }
  const first = await document.getPage(1);
  const { items } = await first.getTextContent();
  const texts = items.flatMap((item): PlacedText[] => {
    if (!('str' in item) || item.str.trim() === '') return [];
    const [, , , , x, y] = item.transform as [number, number, number, number, number, number];
    const leftMm = x * MM_PER_POINT;
    return [{
      text: item.str,
      leftMm,
      rightMm: leftMm + item.width * MM_PER_POINT,
      baselineMm: pages[0]!.heightMm - y * MM_PER_POINT,
      heightMm: item.height * MM_PER_POINT,
    }];
  });
  const viewport = first.getViewport({ scale: dotsPerInch / 72 });
  const picture = createCanvas(Math.ceil(viewport.width), Math.ceil(viewport.height));
  const context = picture.getContext('2d');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, picture.width, picture.height);
  await first.render({ canvas: picture as never, canvasContext: context as never, viewport }).promise;
  await document.destroy();
  return { pages, texts, picture };
}

/** Part of a rectangle (mm on the page) that is not white. */
export function inkPart(picture: Canvas, dotsPerInch: number, box: { leftMm: number; topMm: number; widthMm: number; heightMm: number }): number {
  const dots = (mm: number): number => Math.round((mm / 25.4) * dotsPerInch);
  const { data } = picture.getContext('2d').getImageData(dots(box.leftMm), dots(box.topMm), dots(box.widthMm), dots(box.heightMm));
  let inked = 0;
  for (let at = 0; at < data.length; at += 4) if (data[at]! + data[at + 1]! + data[at + 2]! < 3 * WHITE_FROM) inked += 1;
  return inked / (data.length / 4);
}

/** Lighter than this counts as paper. */
const WHITE_FROM = 245;
