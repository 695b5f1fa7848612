/**
 * A figure as plain lines, marks and words on paper, in mm from its top left corner: what `FigureDrawing` draws and tests look at.
 * Also the fitting of the mouth's plane onto the paper.
 */
import type { Point } from './hornShape';
import type { MovedHorn, Swing } from './sideGeometry';

export type LineKind =
  | 'tooth' | 'gum' | 'gum-body' | 'lip' | 'lip-body' | 'arch' | 'arch-lower' | 'home' | 'home-axis' | 'held' | 'moved' | 'moved-axis' | 'second' | 'second-axis' | 'arc' | 'scale';

export interface FigureLine {
  readonly kind: LineKind;
  readonly points: readonly Point[];
  readonly closed?: boolean | undefined;
}

export interface FigureMark {
  readonly kind: 'predicted' | 'measured' | 'arrow';
  readonly at: Point;
  /** Which way an arrow points: radians on the paper, clockwise from its right. */
  readonly angle?: number | undefined;
}

export interface FigureText {
  readonly kind: 'title' | 'plain' | 'predicted' | 'quiet';
  readonly at: Point;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly text: string;
}

export interface Figure {
  readonly widthMm: number;
  readonly heightMm: number;
  /** In words, for those who do not see it. */
  readonly description: string;
  readonly lines: readonly FigureLine[];
  readonly marks: readonly FigureMark[];
  readonly texts: readonly FigureText[];
}

export interface FigureSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Type of the figures: 9 pt, the least that is read at arm's length, and 10.5 pt for the title. */
export const TEXT_MM = 3.2;
export const TITLE_MM = 3.7;
/** Widest letters aside, a letter of the figures' type is no wider than this part of its height. */
const LETTER_PART = 0.56;

function textWidthMm({ kind, text }: Pick<FigureText, 'kind' | 'text'>): number {
  return text.length * LETTER_PART * (kind === 'title' ? TITLE_MM : TEXT_MM);
}

/** A rectangle on the paper, mm. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export function boxOf(text: FigureText): Box {
  const width = textWidthMm(text);
  const [x, y] = text.at;
  const left = text.anchor === 'start' ? x : text.anchor === 'end' ? x - width : x - width / 2;
  return { left, right: left + width, top: y - 0.78 * TEXT_MM, bottom: y + 0.22 * TEXT_MM };
}

export interface Fit {
  readonly mmPerMm: number;
  /** From the mouth's plane to the paper. */
  place(point: Point): Point;
}

/** No larger than this, so that a small mouth is not blown up. */
const LARGEST_SCALE = 1.5;

/** Lays what has to be seen into a room of the paper, as large as it goes; middle of the points in the middle of the room. */
export function fitInto(room: Box, points: readonly Point[]): Fit {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const mmPerMm = Math.min(LARGEST_SCALE, (room.right - room.left) / (right - left), (room.bottom - room.top) / (high - low));
  return {
    mmPerMm,
    place: ([x, y]) => [
      (room.left + room.right) / 2 + (x - (left + right) / 2) * mmPerMm,
      (room.top + room.bottom) / 2 - (y - (low + high) / 2) * mmPerMm,
    ],
  };
}

const ARC_STEPS = 24;
/** A swing that moves the axis's end less than this on the paper has no room for an arc. */
const LEAST_ARC_MM = 0.5;
/** An arc shorter than this has no room for its arrowhead. */
const LEAST_ARROW_MM = 2.5;

export interface DrawnSwing {
  readonly lines: readonly FigureLine[];
  readonly marks: readonly FigureMark[];
}

/** The dashed line of the horn held, the arc to the horn that follows, its arrowhead and the mark of what was measured. */
export function drawSwing(fit: Fit, swing: Swing, radiusMm: number, paperAngleOf: (deg: number) => number): DrawnSwing {
  const at = (deg: number, radius = radiusMm): Point => {
    const angle = paperAngleOf(deg);
    return fit.place([swing.centreMm[0] + radius * Math.cos(angle), swing.centreMm[1] + radius * Math.sin(angle)]);
  };
  const arc = Array.from({ length: ARC_STEPS + 1 }, (_, step) => at(swing.fromDeg + ((swing.toDeg - swing.fromDeg) * step) / ARC_STEPS));
  const lengthMm = (Math.abs(swing.toDeg - swing.fromDeg) * Math.PI * radiusMm * fit.mmPerMm) / 180;
  const held: FigureLine = { kind: 'held', points: [fit.place(swing.centreMm), at(swing.fromDeg)] };
  const [before, end] = [arc[ARC_STEPS - 1]!, arc[ARC_STEPS]!];
  return {
    lines: [held, ...(lengthMm < LEAST_ARC_MM ? [] : [{ kind: 'arc' as const, points: arc }])],
    marks: [
      ...(lengthMm < LEAST_ARROW_MM ? [] : [{ kind: 'arrow' as const, at: end, angle: Math.atan2(end[1] - before[1], end[0] - before[0]) }]),
      ...(swing.measuredDeg === null ? [] : [{ kind: 'measured' as const, at: at(swing.measuredDeg) }]),
    ],
  };
}

/** A moved horn's outlines and axis; `main` is the stronger of two. */
export function drawMoved(fit: Fit, { horn }: MovedHorn, main: boolean): readonly FigureLine[] {
  const outlines = main ? [...horn.rim.map((points) => ({ points, closed: true })), ...horn.outside.map((points) => ({ points, closed: false }))] : horn.rim.map((points) => ({ points, closed: true }));
  return [
    ...outlines.map(({ points, closed }): FigureLine => ({ kind: main ? 'moved' : 'second', points: points.map(fit.place), closed })),
    { kind: main ? 'moved-axis' : 'second-axis', points: [fit.place(horn.centreMm), fit.place(horn.tipMm)] },
  ];
}

/** Moves words that would stand on each other apart, up and down, in the order they have. */
export function spreadDown(texts: readonly FigureText[], leastMm: number): readonly FigureText[] {
  const order = [...texts].sort((a, b) => a.at[1] - b.at[1]);
  const ys = order.map(({ at }) => at[1]);
  for (let index = 1; index < ys.length; index++) {
    const lacking = leastMm - (ys[index]! - ys[index - 1]!);
    if (lacking <= 0) continue;
    ys[index - 1]! -= lacking / 2;
    ys[index]! += lacking / 2;
  }
  return order.map((text, index) => ({ ...text, at: [text.at[0], ys[index]!] }));
}

/** One sample with its words in a figure's key. */
export interface KeyEntry {
  readonly kind: LineKind | 'measured';
  readonly text: string;
  readonly textKind?: FigureText['kind'] | undefined;
}

/** One or two entries side by side. */
export type KeyRow = readonly KeyEntry[];

export const KEY_ROW_MM = 4.4;
const SAMPLE_MM = 9;
/** Where the second entry of a row begins. */
const SECOND_ENTRY_MM = 36;

/** The key at the foot of a figure, bottom row last. */
export function drawKey(rows: readonly KeyRow[], size: FigureSize): Pick<Figure, 'lines' | 'marks' | 'texts'> {
  const top = size.heightMm - rows.length * KEY_ROW_MM;
  const entries = rows.flatMap((row, index) =>
    row.map((entry, column) => ({ ...entry, leftMm: column * SECOND_ENTRY_MM, middleMm: top + (index + 0.5) * KEY_ROW_MM })));
  return {
    lines: entries.flatMap(({ kind, leftMm, middleMm }): FigureLine[] =>
      kind === 'measured' ? [] : [{ kind, points: [[leftMm + 0.3, middleMm], [leftMm + SAMPLE_MM, middleMm]] }]),
    marks: entries.flatMap(({ kind, leftMm, middleMm }): FigureMark[] =>
      kind === 'measured' ? [{ kind, at: [leftMm + SAMPLE_MM / 2 + 0.15, middleMm] }] : []),
    texts: entries.map(({ text, textKind, leftMm, middleMm }) => ({
      kind: textKind ?? 'plain',
      at: [leftMm + SAMPLE_MM + 2, middleMm + 0.35 * TEXT_MM],
      anchor: 'start',
      text,
    })),
  };
}

const SCALE_BAR_MM = 10;

/** A bar of 10 mm of the mouth, its right end at the figure's right edge, above `bottomMm`. */
export function drawScale(fit: Fit, size: FigureSize, bottomMm: number): Pick<Figure, 'lines' | 'texts'> {
  const length = SCALE_BAR_MM * fit.mmPerMm;
  const [right, y] = [size.widthMm - 0.5, bottomMm - 1.2];
  const tick = (x: number): FigureLine => ({ kind: 'scale', points: [[x, y - 1], [x, y + 1]] });
  return {
    lines: [{ kind: 'scale', points: [[right - length, y], [right, y]] }, tick(right - length), tick(right)],
    texts: [{ kind: 'quiet', at: [right, y - 1.8], anchor: 'end', text: `${SCALE_BAR_MM}\u00a0mm` }],
  };
}
