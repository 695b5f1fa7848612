/** A drawn figure as a file: SVG that stands alone, or PNG at print resolution. Only this file and the preview touch the page. */
export interface PrintFont {
  readonly family: string;
  /** On the page's own server, or a data: address. */
  readonly url: string;
  /** As in `font-weight` of a font face; absent: all. */
  readonly weight?: string | undefined;
}

/** The SVG as text, with the fonts it names set into it, so that it looks the same wherever it is opened. */
export async function svgFile(svg: SVGSVGElement, fonts: readonly PrintFont[]): Promise<string> {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  copy.setAttribute('xmlns', SVG);
  // Names that only the page's own styles and scripts know.
  for (const element of [copy, ...copy.querySelectorAll('*')]) for (const name of ['class', 'id']) element.removeAttribute(name);
  const named = new XMLSerializer().serializeToString(copy);
  const faces = await Promise.all(fonts.filter(({ family }) => named.includes(family)).map(fontFace));
  const style = document.createElementNS(SVG, 'style');
  style.textContent = faces.filter((face) => face !== null).join('\n');
  if (style.textContent !== '') copy.prepend(style);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${new XMLSerializer().serializeToString(copy)}\n`;
}

/** The same as a picture on white. Rejects where the browser cannot draw it, words and all. */
export async function pngFile(svg: SVGSVGElement, fonts: readonly PrintFont[]): Promise<Blob> {
  const whole = await svgFile(svg, fonts);
  const wordless = svg.cloneNode(true) as SVGSVGElement;
  for (const text of wordless.querySelectorAll('text')) text.remove();
  const bare = await drawn(await svgFile(wordless, []), svg.viewBox.baseVal);
  // A picture's own fonts are made ready after it first counts as loaded, and nothing tells when: until then its words are missing.
  let before: Uint8ClampedArray | null = null;
  let alike = 0;
  for (let look = 0; look < MOST_LOOKS; look++) {
    const { canvas, dots } = await drawn(whole, svg.viewBox.baseVal);
    alike = before !== null && same(dots, before) ? alike + 1 : 0;
    before = dots;
    if (alike >= LOOKS_ALIKE && !same(dots, bare.dots)) return asPng(canvas);
    await new Promise((done) => setTimeout(done, BETWEEN_LOOKS_MS));
  }
  throw new Error('pngFile: the words could not be drawn');
}

const PNG_DOTS_PER_INCH = 300;
const MM_PER_INCH = 25.4;
/** The words have to be there, and this many looks after another have to be alike. */
const LOOKS_ALIKE = 2;
const MOST_LOOKS = 30;
const BETWEEN_LOOKS_MS = 60;

const same = (one: Uint8ClampedArray, other: Uint8ClampedArray): boolean => one.every((value, at) => value === other[at]);

async function drawn(source: string, { width: widthMm, height: heightMm }: DOMRect) {
  const address = URL.createObjectURL(new Blob([source], { type: 'image/svg+xml' }));
  try {
    const image = new Image();
    image.src = address;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = Math.round((widthMm / MM_PER_INCH) * PNG_DOTS_PER_INCH);
    canvas.height = Math.round((heightMm / MM_PER_INCH) * PNG_DOTS_PER_INCH);
    const context = canvas.getContext('2d', { willReadFrequently: true });
    if (context === null) throw new Error('pngFile: no drawing context to be had');
    context.fillStyle = '#FFFFFF';
    context.fillRect(0, 0, canvas.width, canvas.height);
    context.drawImage(image, 0, 0, canvas.width, canvas.height);
    return { canvas, dots: context.getImageData(0, 0, canvas.width, canvas.height).data };
  } finally {
    URL.revokeObjectURL(address);
  }
}

function asPng(canvas: HTMLCanvasElement): Promise<Blob> {
  return new Promise((done, failed) =>
    canvas.toBlob((blob) => (blob === null ? failed(new Error('pngFile: the picture could not be made')) : done(blob)), 'image/png'));
}

/** Hands a file to the browser's own downloads. */
export function download(file: Blob, name: string): void {
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // Some browsers begin to read only after the click has been handled.
  setTimeout(() => URL.revokeObjectURL(address), KEPT_FOR_MS);
}

const SVG = 'http://www.w3.org/2000/svg';
const KEPT_FOR_MS = 10_000;

/** A font that cannot be had is left out: the text then falls back on the next in its list. */
async function fontFace({ family, url, weight }: PrintFont): Promise<string | null> {
  const address = url.startsWith('data:') ? url : await asDataAddress(url);
  if (address === null) return null;
  return `@font-face{font-family:'${family}';${weight === undefined ? '' : `font-weight:${weight};`}src:url(${address})}`;
}

async function asDataAddress(url: string): Promise<string | null> {
  try {
    const response = await fetch(url);
    if (!response.ok) return null;
    const bytes = new Uint8Array(await response.arrayBuffer());
    let text = '';
    for (const byte of bytes) text += String.fromCharCode(byte);
    return `data:font/woff2;base64,${btoa(text)}`;
  } catch {
    return null;
  }
}
