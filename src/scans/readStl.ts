/**
 * STL, binary and text. Every triangle brings its own three corners; the normals beside them are left out, as files often fill them
 * with nonsense. Format: 80 bytes, a count, then 50 bytes a triangle; or `facet … outer loop … vertex x y z` in words.
 */
import { type Growing, addPlace, growingPlaces } from './growing';
import type { ScanMesh } from './mesh';
import { MOST_TRIANGLES, type ScanRefused, scanRefusals } from './scanRefusals';
import { type TextCursor, nextLine, nextWord, numberOf, readsWord, textCursor, wordOf } from './textCursor';
import type { Progress } from './progress';

const HEADER_BYTES = 84;
const TRIANGLE_BYTES = 50;
const NORMAL_BYTES = 12;
/** Progress is told every so many triangles. */
const TOLD_EVERY = 8192;

/** How many bytes a binary file should have by its own count; NaN where it is too short to tell. */
export function binaryStlBytes(bytes: Uint8Array): number {
  return bytes.length < HEADER_BYTES ? NaN : HEADER_BYTES + TRIANGLE_BYTES * countOf(bytes);
}

export function readBinaryStl(bytes: Uint8Array, progress: Progress): ScanMesh | ScanRefused {
  const count = countOf(bytes);
  const held = (bytes.length - HEADER_BYTES) / TRIANGLE_BYTES;
  if (count > held) return scanRefusals.cutShort();
  if (count < held) return scanRefusals.countUntrue(count);
  if (count === 0) return scanRefusals.noTriangles();
  if (count > MOST_TRIANGLES) return scanRefusals.tooManyTriangles(count);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const points = new Float64Array(9 * count);
  for (let triangle = 0; triangle < count; triangle++) {
    if (triangle % TOLD_EVERY === 0) progress(triangle / count);
    const from = HEADER_BYTES + triangle * TRIANGLE_BYTES + NORMAL_BYTES;
    for (let i = 0; i < 9; i++) points[9 * triangle + i] = view.getFloat32(from + 4 * i, true);
  }
  return { points, triangles: cornersInOrder(count) };
}

export function readTextStl(bytes: Uint8Array, progress: Progress): ScanMesh | ScanRefused {
  const cursor = textCursor(bytes);
  const places = growingPlaces();
  if (!readsWord(cursor, 'solid')) return scanRefusals.damaged(cursor.line);
  nextLine(cursor);
  let inSolid = true;
  let count = 0;
  while (nextWord(cursor)) {
    const word = wordOf(cursor);
    if (word === 'facet' && inSolid) {
      if (count % TOLD_EVERY === 0) progress(cursor.at / bytes.length);
      const trouble = readFacet(cursor, places);
      if (trouble !== null) return trouble;
      if (++count > MOST_TRIANGLES) return scanRefusals.tooManyTriangles(count);
    } else if (word === 'endsolid' || word === 'solid') {
      inSolid = word === 'solid';
      nextLine(cursor);
    } else return scanRefusals.damaged(cursor.line);
  }
  if (inSolid) return scanRefusals.cutShort();
  if (count === 0) return scanRefusals.noTriangles();
  return { points: places.array.slice(0, places.length), triangles: cornersInOrder(count) };
}

function readFacet(cursor: TextCursor, places: Growing<Float64Array>): ScanRefused | null {
  const expected = (word: string): boolean => readsWord(cursor, word);
  const fault = (): ScanRefused =>
    cursor.at >= cursor.bytes.length ? scanRefusals.cutShort() : scanRefusals.damaged(cursor.line);
  if (!expected('normal')) return fault();
  // Three words, whatever they are: many files write normals that are none.
  for (let axis = 0; axis < 3; axis++) if (!nextWord(cursor)) return scanRefusals.cutShort();
  if (!expected('outer') || !expected('loop')) return fault();
  for (let corner = 0; corner < 3; corner++) {
    if (!expected('vertex')) return fault();
    const x = nextWord(cursor) ? numberOf(cursor) : NaN;
    const y = nextWord(cursor) ? numberOf(cursor) : NaN;
    const z = nextWord(cursor) ? numberOf(cursor) : NaN;
    if (x !== x || y !== y || z !== z) {
      return cursor.at >= cursor.bytes.length ? scanRefusals.cutShort() : scanRefusals.notANumber(cursor.line);
    }
    addPlace(places, x, y, z);
  }
  return expected('endloop') && expected('endfacet') ? null : fault();
}

const countOf = (bytes: Uint8Array): number => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(80, true);

const cornersInOrder = (count: number): Uint32Array => Uint32Array.from({ length: 3 * count }, (_, index) => index);
