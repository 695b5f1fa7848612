/** Why a scan cannot be used, in a sentence that says what to do. */
import { LOCALES, languageNow } from '../words/language';
import { sayScans } from '../words/scans';

export type ScanRefusalReason =
  | 'empty' // 0 bytes
  | 'unreadable' // gone or changed since it was chosen, or more than the browser's memory holds
  | 'too-large'
  | 'too-many-triangles'
  | 'other-kind' // not STL, PLY or OBJ
  | 'cut-short' // its end is missing
  | 'count-untrue' // its header announces another number of parts than it holds
  | 'damaged' // a place that cannot be read
  | 'not-a-number' // a place that is no number, or infinitely far away
  | 'missing-corner' // a triangle names a corner that the file does not hold
  | 'no-triangles'; // points alone, or nothing

export interface ScanRefused {
  readonly kind: 'refused';
  readonly reason: ScanRefusalReason;
  readonly words: string;
}

const MEGABYTE = 1024 * 1024;
export const MOST_BYTES = 100 * MEGABYTE;
export const MOST_TRIANGLES = 500_000;

/** In the language set when a file is refused. */
export const scanRefusals = {
  empty: () => refused('empty', sayScans('empty')),
  unreadable: () => refused('unreadable', sayScans('unreadable')),
  tooLarge: (bytes: number) => refused('too-large', sayScans('tooLarge', { size: Math.round(bytes / MEGABYTE), most: MOST_BYTES / MEGABYTE })),
  tooManyTriangles: (triangles: number) => refused('too-many-triangles', sayScans('tooManyTriangles', { triangles: counted(triangles), most: counted(MOST_TRIANGLES) })),
  otherKind: () => refused('other-kind', sayScans('otherKind')),
  cutShort: () => refused('cut-short', sayScans('cutShort')),
  countUntrue: (announced: number) => refused('count-untrue', sayScans('countUntrue', { announced: counted(announced) })),
  damaged: (line: number | null) => refused('damaged', line === null ? sayScans('damaged') : sayScans('damagedAt', { line })),
  notANumber: (line: number | null) => refused('not-a-number', line === null ? sayScans('notANumber') : sayScans('notANumberAt', { line })),
  missingCorner: (corner: number, points: number) => refused('missing-corner', sayScans('missingCorner', { corner: counted(corner), points: counted(points) })),
  noTriangles: () => refused('no-triangles', sayScans('noTriangles')),
} as const;

const refused = (reason: ScanRefusalReason, words: string): ScanRefused => ({ kind: 'refused', reason, words });

const counted = (count: number): string => count.toLocaleString(LOCALES[languageNow()]);
