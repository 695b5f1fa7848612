/** The marks of one picture while they are being put: each step answers new marks and leaves the old ones as they were. */
import { LANDMARK_NAMES, type LandmarkName, type Landmarks, type LineMark, type PictureMarks, type ViewFrom } from '../../measure/marks';
import type { Point } from '../../measure/picture';

export type LineEnd = 'from' | 'to';
/** Points of the rim and of the lip line are counted from 0 in the order in which they were put. */
export type MarkId = LandmarkName | `level-${LineEnd}` | `horn-${LineEnd}` | `rim-${number}` | `lip-${number}`;

/** As `PictureMarks`, but a line may still have one end only. Points in px of the picture. */
export interface DraftMarks {
  readonly rim: readonly Point[];
  readonly landmarks: Landmarks;
  readonly level: Partial<LineMark>;
  readonly horn: Partial<LineMark>;
  readonly hornMarkMm: { readonly value: number; readonly sd: number } | null;
  readonly lipLine: readonly Point[];
}

export const NO_MARKS: DraftMarks = { rim: [], landmarks: {}, level: {}, horn: {}, hornMarkMm: null, lipLine: [] };

/** The page asks for this many points round the rim before it goes on; five are the least for an ellipse, eight bring its errors down. */
export const RIM_POINTS_ASKED = 8;
/** A lip line is straight enough for two; a curved one may have more. */
const LIP_POINTS_ASKED = 2;

/** The marks that a view is asked for, in order. The lip line is only asked for where the person chooses it: most rims are not clear. */
export function marksAsked(view: ViewFrom): readonly MarkId[] {
  if (view === 'front') return [...rimIds(RIM_POINTS_ASKED), ...LANDMARK_NAMES, ...HORN];
  return [...HORN, ...LEVEL];
}

/** Every mark that has a place in the picture. */
export function marksPut(marks: DraftMarks): readonly MarkId[] {
  return [
    ...rimIds(marks.rim.length),
    ...LANDMARK_NAMES,
    ...HORN,
    ...LEVEL,
    ...lipIds(marks.lipLine.length),
  ].filter((id) => markAt(marks, id) !== null);
}

/** The first mark asked for that has no place yet, looked for after `after`, then from the beginning; null when all are put. */
export function nextMark(marks: DraftMarks, view: ViewFrom, after: MarkId | null = null): MarkId | null {
  const asked = marksAsked(view);
  const start = after === null ? 0 : asked.indexOf(after) + 1;
  return [...asked.slice(start), ...asked.slice(0, start)].find((id) => markAt(marks, id) === null) ?? null;
}

/** The next where this one cannot be seen; null where no other is left. */
export function nextWithout(marks: DraftMarks, view: ViewFrom, id: MarkId): MarkId | null {
  const next = nextMark(marks, view, id);
  return next === id ? null : next;
}

export function markAt(marks: DraftMarks, id: MarkId): Point | null {
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
      return marks.rim[place.index] ?? null;
    case 'lip':
      return marks.lipLine[place.index] ?? null;
    case 'level':
    case 'horn':
      return marks[place.kind][place.end] ?? null;
    case 'landmark':
      return marks.landmarks[place.name] ?? null;
  }
}

/** The mark put at a point, or moved there. A rim or lip point beyond the last is put behind the last. */
export function withMark(marks: DraftMarks, id: MarkId, point: Point): DraftMarks {
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
      return { ...marks, rim: withPoint(marks.rim, place.index, point) };
    case 'lip':
      return { ...marks, lipLine: withPoint(marks.lipLine, place.index, point) };
    case 'level':
    case 'horn':
      return { ...marks, [place.kind]: { ...marks[place.kind], [place.end]: point } };
    case 'landmark':
      return { ...marks, landmarks: { ...marks.landmarks, [place.name]: point } };
  }
}

/** The mark taken away; the points of a rim or lip line behind it move up by one. The very same marks where it has no place. */
export function withoutMark(marks: DraftMarks, id: MarkId): DraftMarks {
  if (markAt(marks, id) === null) return marks;
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
      return { ...marks, rim: marks.rim.toSpliced(place.index, 1) };
    case 'lip':
      return { ...marks, lipLine: marks.lipLine.toSpliced(place.index, 1) };
    case 'level':
    case 'horn':
      return { ...marks, [place.kind]: { ...marks[place.kind], [place.end]: undefined } };
    case 'landmark':
      return { ...marks, landmarks: { ...marks.landmarks, [place.name]: undefined } };
  }
}

/** A step by keys, px, kept inside a picture of the given size. */
export function nudged(point: Point, step: Point, size: { readonly width: number; readonly height: number }): Point {
  return { x: tidyPx(within(point.x + step.x, size.width)), y: tidyPx(within(point.y + step.y, size.height)) };
}

/** What is measured from: lines that have both ends, and nothing that is empty. */
export function completeMarks(marks: DraftMarks): PictureMarks {
  const landmarks = Object.fromEntries(Object.entries(marks.landmarks).filter(([, point]) => point !== undefined));
  return {
    landmarks,
    ...(marks.rim.length > 0 && { rim: marks.rim }),
    ...lineOf('level', marks.level),
    ...lineOf('horn', marks.horn),
    ...(marks.hornMarkMm !== null && { hornMarkMm: marks.hornMarkMm }),
    ...(marks.lipLine.length >= LIP_POINTS_ASKED && { lipLine: marks.lipLine }),
  };
}

/** The next free point of the rim or of the lip line. */
export const furtherMark = (marks: DraftMarks, kind: 'rim' | 'lip'): MarkId =>
  kind === 'rim' ? `rim-${marks.rim.length}` : `lip-${marks.lipLine.length}`;

export type MarkPlace =
  | { readonly kind: 'rim' | 'lip'; readonly index: number }
  | { readonly kind: 'level' | 'horn'; readonly end: LineEnd }
  | { readonly kind: 'landmark'; readonly name: LandmarkName };

export function placeOf(id: MarkId): MarkPlace {
  const counted = /^(rim|lip)-(\d+)$/.exec(id);
  if (counted !== null) return { kind: counted[1] as 'rim' | 'lip', index: Number(counted[2]) };
  const end = /^(level|horn)-(from|to)$/.exec(id);
  if (end !== null) return { kind: end[1] as 'level' | 'horn', end: end[2] as LineEnd };
  return { kind: 'landmark', name: id as LandmarkName };
}

const HORN = ['horn-from', 'horn-to'] as const;
const LEVEL = ['level-from', 'level-to'] as const;

const rimIds = (count: number): MarkId[] => Array.from({ length: count }, (_, index): MarkId => `rim-${index}`);
const lipIds = (count: number): MarkId[] => Array.from({ length: count }, (_, index): MarkId => `lip-${index}`);

const withPoint = (points: readonly Point[], index: number, point: Point): readonly Point[] =>
  index < points.length ? points.with(index, point) : [...points, point];

function lineOf(name: 'level' | 'horn', { from, to }: Partial<LineMark>): Partial<PictureMarks> {
  return from === undefined || to === undefined ? {} : { [name]: { from, to } };
}

/** Centres of the first and last pixel. */
const within = (value: number, count: number): number => Math.min(count - 1, Math.max(0, value));

/** A thousandth of a pixel is far below what can be seen, and keeps 0.1 + 0.2 from showing. */
const tidyPx = (value: number): number => Number(value.toFixed(3));
