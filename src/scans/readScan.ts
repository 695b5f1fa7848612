/**
 * A scan's bytes to triangles: what the file is shows in its content alone, whatever its name. Everything that cannot be used is refused
 * in words; nothing throws, and no file costs more than a look at each of its bytes.
 */
import type { ScanMesh } from './mesh';
import type { Progress } from './progress';
import { readObj } from './readObj';
import { readPly } from './readPly';
import { binaryStlBytes, readBinaryStl, readTextStl } from './readStl';
import { MOST_BYTES, type ScanRefused, scanRefusals } from './scanRefusals';

export type ScanFormat = 'stl' | 'stl-text' | 'ply' | 'obj';

export interface ScanRead {
  readonly kind: 'read';
  readonly format: ScanFormat;
  readonly mesh: ScanMesh;
}

export function readScan(bytes: Uint8Array, progress: Progress = () => {}): ScanRead | ScanRefused {
  if (bytes.length === 0) return scanRefusals.empty();
  if (bytes.length > MOST_BYTES) return scanRefusals.tooLarge(bytes.length);
  const content = withoutMark(bytes);
  const format = formatOf(content);
  if (format === null) return scanRefusals.otherKind();
  const mesh = READERS[format](content, progress);
  if ('kind' in mesh) return mesh;
  return refusedPlace(mesh) ?? { kind: 'read', format, mesh };
}

const READERS: Readonly<Record<ScanFormat, (bytes: Uint8Array, progress: Progress) => ScanMesh | ScanRefused>> = {
  stl: readBinaryStl,
  'stl-text': readTextStl,
  ply: readPly,
  obj: readObj,
};

/** The byte-order mark that some programs put before a text (U+FEFF in UTF-8). */
const MARK = [0xef, 0xbb, 0xbf] as const;

/** Three bytes of a binary STL's remark are no mark, whatever they are. */
function withoutMark(bytes: Uint8Array): Uint8Array {
  return MARK.every((byte, at) => bytes[at] === byte) && binaryStlBytes(bytes) !== bytes.length ? bytes.subarray(MARK.length) : bytes;
}

/** How much of a file is looked at to tell what it is, bytes. */
const LOOKED_AT = 64 * 1024;
/** Further than this from the origin no scan's place lies, in any unit. */
const FURTHEST = 1e7;

function formatOf(bytes: Uint8Array): ScanFormat | null {
  if (/^ply\s/.test(textOf(bytes, 4))) return 'ply';
  const announced = binaryStlBytes(bytes);
  if (announced === bytes.length) return 'stl';
  const head = textOf(bytes, LOOKED_AT);
  if (!/[\0-\x08\x0e-\x1a]/.test(head)) {
    if (/^\s*solid\b/i.test(head)) return 'stl-text';
    return /^\s*(v|vn|f)\s+[-+.\d]/m.test(head) ? 'obj' : null;
  }
  // Bytes that are no text, and the count of a scan that could have been meant.
  return announced <= MOST_BYTES && (bytes.length < announced || announced > MEANT_BYTES) ? 'stl' : null;
}

/** A count that announces fewer bytes than this, in a file of another kind, is likely something else. */
const MEANT_BYTES = 84 + 50 * 12;

const textOf = (bytes: Uint8Array, length: number): string => new TextDecoder('latin1').decode(bytes.subarray(0, length));

/** What is wrong with the places and corners of a mesh as read; null where all is well. */
function refusedPlace({ points, triangles }: ScanMesh): ScanRefused | null {
  for (const place of points) if (!(Math.abs(place) <= FURTHEST)) return scanRefusals.notANumber(null);
  const count = points.length / 3;
  for (const corner of triangles) if (corner >= count) return scanRefusals.missingCorner(corner, count);
  return triangles.length === 0 ? scanRefusals.noTriangles() : null;
}
