/** A picture of the stage over a caption, in one canvas or one SVG: what a film's frame, a PNG and an SVG have in common. */

export interface CaptionColours {
  readonly background: string;
  readonly ink: string;
  readonly muted: string;
  readonly hairline: string;
  readonly accent: string;
}

export interface Caption {
  /** Large: the note. */
  readonly note: string;
  /** One sentence or two about it. */
  readonly words: string;
  /** Small, above; empty where nothing is wished for. */
  readonly title: string;
}

export interface CaptionedLayout {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Where the stage ends and the caption begins. */
  readonly pictureHeightPx: number;
  /** Size of the caption's words; the note's is NOTE_SIZE times it. */
  readonly textPx: number;
}

/** A caption takes this part of the height; its words this part of it. */
const CAPTION_PART = 0.17;
const TEXT_PART = 1 / 34;
const NOTE_SIZE = 2;
const LINE = 1.3;
/** As on the page, and what is near it where that font is not there. */
export const FONTS = "'Rimpath Signs', 'Source Sans 3', 'Source Sans Pro', 'Segoe UI', 'Noto Sans', sans-serif";

/** Even dimensions, which encoders ask for. */
export function captionedLayout(widthPx: number, aspect = 16 / 9): CaptionedLayout {
  const even = (value: number): number => 2 * Math.round(value / 2);
  const heightPx = even(widthPx / aspect);
  const captionPx = even(heightPx * CAPTION_PART);
  return { widthPx: even(widthPx), heightPx, pictureHeightPx: heightPx - captionPx, textPx: heightPx * TEXT_PART };
}

/** Paints the caption under a picture that fills the rest. */
export function paintCaption(context: CanvasRenderingContext2D, layout: CaptionedLayout, caption: Caption, colours: CaptionColours): void {
  const { widthPx, heightPx, pictureHeightPx, textPx } = layout;
  context.fillStyle = colours.background;
  context.fillRect(0, pictureHeightPx, widthPx, heightPx - pictureHeightPx);
  context.fillStyle = colours.hairline;
  context.fillRect(0, pictureHeightPx, widthPx, Math.max(1, textPx / 20));
  context.textBaseline = 'alphabetic';
  const measure = (text: string, weight: number, size: number): number => {
    context.font = `${weight} ${size}px ${FONTS}`;
    return context.measureText(text).width;
  };
  for (const { text, x, y, size, weight, tone } of captionLines(layout, caption, measure)) {
    context.font = `${weight} ${size}px ${FONTS}`;
    context.fillStyle = colours[tone];
    context.fillText(text, x, y);
  }
}

export interface CaptionLine {
  readonly text: string;
  readonly x: number;
  /** Of the baseline. */
  readonly y: number;
  readonly size: number;
  readonly weight: number;
  readonly tone: 'ink' | 'muted' | 'accent';
}

type Measure = (text: string, weight: number, size: number) => number;

/** Places of the caption's lines. Words that do not fit into two lines are set smaller. */
export function captionLines(layout: CaptionedLayout, { note, words, title }: Caption, measure: Measure): CaptionLine[] {
  const { widthPx, heightPx, pictureHeightPx, textPx } = layout;
  const margin = textPx * 1.2;
  const middle = (pictureHeightPx + heightPx) / 2;
  const noteSize = textPx * NOTE_SIZE;
  const column = Math.max(textPx * 4.2, measure(note, 700, noteSize) + textPx);
  const room = widthPx - 2 * margin - column;
  let size = textPx;
  let lines = wrapped(words, room, (text) => measure(text, 400, size));
  while (lines.length > 2 && size > textPx * SMALLEST) {
    size *= 0.94;
    lines = wrapped(words, room, (text) => measure(text, 400, size));
  }
  const titled = title === '' ? [] : [{ text: title, size: textPx * 0.8, tone: 'muted' as const }];
  const all = [...titled, ...lines.map((text) => ({ text, size, tone: 'ink' as const }))];
  const high = all.reduce((sum, line) => sum + line.size * LINE, 0);
  let y = middle - high / 2;
  const placed: CaptionLine[] = all.map((line) => {
    y += line.size * LINE;
    return { ...line, x: margin + column, y: y - line.size * (LINE - 1), weight: 400 };
  });
  return [{ text: note, x: margin, y: middle + noteSize * 0.35, size: noteSize, weight: 700, tone: 'accent' }, ...placed];
}

const SMALLEST = 0.6;

function wrapped(words: string, room: number, measure: (text: string) => number): string[] {
  const lines: string[] = [];
  for (const word of words.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && measure(`${last} ${word}`) <= room) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A reader without the page's font sets words in one that may be this much wider. */
const OTHER_FONTS = 1.18;

/** The same as an SVG that needs nothing but itself: text as text, in the reader's own nearest font. */
export function captionedSvg(layout: CaptionedLayout, figures: string, caption: Caption, colours: CaptionColours, measure: Measure): string {
  const { widthPx, heightPx, pictureHeightPx, textPx } = layout;
  const lines = captionLines(layout, caption, (...text) => OTHER_FONTS * measure(...text))
    .map(({ text, x, y, size, weight, tone }) =>
      `<text x="${x.toFixed(1)}" y="${y.toFixed(1)}" font-size="${size.toFixed(1)}" font-weight="${weight}" fill="${colours[tone]}">${escaped(text)}</text>`)
    .join('');
  return `<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}" font-family="${escaped(FONTS)}">
<title>${escaped([caption.title, caption.note, caption.words].filter((part) => part !== '').join('. '))}</title>
<rect width="${widthPx}" height="${heightPx}" fill="${colours.background}"/>
${figures}
<rect y="${pictureHeightPx}" width="${widthPx}" height="${Math.max(1, textPx / 20).toFixed(1)}" fill="${colours.hairline}"/>
${lines}
</svg>
`;
}

const escaped = (text: string): string =>
  [...text].map((letter) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[letter] ?? letter).join('').replace(CONTROLS, '');

/** What XML 1.0 does not allow. */
 
const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g;
