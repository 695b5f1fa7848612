/** OBJ: lines `v x y z` and `f a b c …`, corners counted from 1 or, negative, back from the last; faces of more corners become fans. */
import { addPlace, addTriangle, growingCorners, growingPlaces } from './growing';
import type { ScanMesh } from './mesh';
import type { Progress } from './progress';
import { MOST_TRIANGLES, type ScanRefused, scanRefusals } from './scanRefusals';
import { type TextCursor, nextLine, nextWordOnLine, numberOf, textCursor, wholeBetween, wordOf } from './textCursor';

const TOLD_EVERY = 8192;
const SLASH = 47;

/** Lines of the format that say nothing of the surface. */
const PASSED_OVER = new Set(['vn', 'vt', 'vp', 'g', 'o', 's', 'l', 'p', 'mg', 'usemtl', 'mtllib', 'usemap', 'maplib', 'bevel', 'c_interp', 'd_interp', 'lod']);

export function readObj(bytes: Uint8Array, progress: Progress): ScanMesh | ScanRefused {
  const cursor = textCursor(bytes);
  const places = growingPlaces();
  const corners = growingCorners();
  for (let told = 0; ; told++) {
    if (told % TOLD_EVERY === 0) progress(cursor.at / bytes.length);
    if (nextWordOnLine(cursor) && bytes[cursor.wordFrom] !== HASH) {
      const word = wordOf(cursor);
      if (word === 'v') {
        const x = nextWordOnLine(cursor) ? numberOf(cursor) : NaN;
        const y = nextWordOnLine(cursor) ? numberOf(cursor) : NaN;
        const z = nextWordOnLine(cursor) ? numberOf(cursor) : NaN;
        if (x !== x || y !== y || z !== z) return cursor.at >= bytes.length ? scanRefusals.cutShort() : scanRefusals.notANumber(cursor.line);
        addPlace(places, x, y, z);
      } else if (word === 'f') {
        const trouble = readFace(cursor, places.length / 3, (a, b, c) => addTriangle(corners, a, b, c));
        if (trouble !== null) return trouble;
        if (corners.length > 3 * MOST_TRIANGLES) return scanRefusals.tooManyTriangles(corners.length / 3);
      } else if (!PASSED_OVER.has(word)) return scanRefusals.damaged(cursor.line);
    }
    if (!nextLine(cursor)) break;
  }
  if (corners.length === 0) return scanRefusals.noTriangles();
  return { points: places.array.slice(0, places.length), triangles: corners.array.slice(0, corners.length) };
}

const HASH = 35;

function readFace(cursor: TextCursor, points: number, add: (a: number, b: number, c: number) => void): ScanRefused | null {
  let first = -1;
  let before = -1;
  let count = 0;
  while (nextWordOnLine(cursor)) {
    const slash = cursor.bytes.subarray(cursor.wordFrom, cursor.wordTo).indexOf(SLASH);
    const named = wholeBetween(cursor.bytes, cursor.wordFrom, slash < 0 ? cursor.wordTo : cursor.wordFrom + slash);
    if (named !== named) return scanRefusals.damaged(cursor.line);
    const corner = named < 0 ? points + named : named - 1;
    if (corner < 0) return scanRefusals.missingCorner(named, points);
    if (count === 0) first = corner;
    else if (count > 1) add(first, before, corner);
    before = corner;
    count++;
  }
  if (count >= 3) return null;
  return cursor.at >= cursor.bytes.length ? scanRefusals.cutShort() : scanRefusals.damaged(cursor.line);
}
