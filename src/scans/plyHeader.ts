/** What the head of a PLY file says of its parts (Turk 1994: elements of scalar and list properties, text or binary). */
import { type ScanRefused, scanRefusals } from './scanRefusals';

export type PlyFormat = 'ascii' | 'binary_little_endian' | 'binary_big_endian';

export interface PlyProperty {
  readonly name: string;
  readonly type: PlyType;
  /** The type of a list's length; null where the property is one number. */
  readonly countType: PlyType | null;
}

export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: readonly PlyProperty[];
}

export interface PlyHeader {
  readonly kind: 'header';
  readonly format: PlyFormat;
  readonly elements: readonly PlyElement[];
  /** Where the parts begin, and in which line. */
  readonly bodyAt: number;
  readonly bodyLine: number;
}

export type PlyType = 'int8' | 'uint8' | 'int16' | 'uint16' | 'int32' | 'uint32' | 'float32' | 'float64';

export const PLY_BYTES: Readonly<Record<PlyType, number>> = {
  int8: 1, uint8: 1, int16: 2, uint16: 2, int32: 4, uint32: 4, float32: 4, float64: 8,
};

/** No head of a scan is longer than this, bytes. */
const LONGEST_HEADER = 64 * 1024;
/** More parts than any file of 100 MB could hold. */
const MOST_PARTS = 200_000_000;

const TYPES = new Map<string, PlyType>([
  ['char', 'int8'], ['uchar', 'uint8'], ['short', 'int16'], ['ushort', 'uint16'], ['int', 'int32'], ['uint', 'uint32'],
  ['float', 'float32'], ['double', 'float64'],
  ...(Object.keys(PLY_BYTES) as PlyType[]).map((type) => [type, type] as const),
]);

export function readPlyHeader(bytes: Uint8Array): PlyHeader | ScanRefused {
  let format: PlyFormat | null = null;
  const elements: { name: string; count: number; properties: PlyProperty[] }[] = [];
  let at = 0;
  for (let line = 1; at < Math.min(bytes.length, LONGEST_HEADER); line++) {
    const { text, next } = lineAt(bytes, at);
    at = next;
    const words = text.trim().split(/\s+/);
    const [keyword, first = '', second = ''] = words;
    if (keyword === 'end_header') {
      if (format === null) return scanRefusals.damaged(line);
      return { kind: 'header', format, elements, bodyAt: at, bodyLine: line + 1 };
    }
    if (keyword === 'ply' || keyword === 'comment' || keyword === 'obj_info' || keyword === '') continue;
    if (keyword === 'format') {
      if (first !== 'ascii' && first !== 'binary_little_endian' && first !== 'binary_big_endian') return scanRefusals.damaged(line);
      format = first;
    } else if (keyword === 'element') {
      const count = /^\d{1,9}$/.test(second) ? Number(second) : NaN;
      if (!(count <= MOST_PARTS)) return scanRefusals.damaged(line);
      elements.push({ name: first, count, properties: [] });
    } else if (keyword === 'property') {
      const property = propertyOf(words);
      if (property === null || elements.length === 0) return scanRefusals.damaged(line);
      elements.at(-1)!.properties.push(property);
    } else return scanRefusals.damaged(line);
  }
  return bytes.length < LONGEST_HEADER ? scanRefusals.cutShort() : scanRefusals.damaged(null);
}

function propertyOf(words: readonly string[]): PlyProperty | null {
  if (words[1] === 'list') {
    const countType = TYPES.get(words[2] ?? '');
    const type = TYPES.get(words[3] ?? '');
    const whole = countType !== undefined && !countType.startsWith('float');
    return whole && type !== undefined && words.length === 5 ? { name: words[4]!, type, countType } : null;
  }
  const type = TYPES.get(words[1] ?? '');
  return type !== undefined && words.length === 3 ? { name: words[2]!, type, countType: null } : null;
}

/** A line of text that ends with \n, \r\n or \r. */
function lineAt(bytes: Uint8Array, from: number): { text: string; next: number } {
  let end = from;
  while (end < bytes.length && end - from < LONGEST_HEADER && bytes[end] !== 10 && bytes[end] !== 13) end++;
  const text = new TextDecoder('latin1').decode(bytes.subarray(from, end));
  return { text, next: bytes[end] === 13 && bytes[end + 1] === 10 ? end + 2 : end + 1 };
}
