/** A settled jaw as bytes, as it is kept in the browser: places to single floats, which err by some millionths of a mm, and triangles. */
import type { ScanMesh } from './mesh';
import { MOST_TRIANGLES } from './scanRefusals';

/** "Rimpath scan, first form". */
const MARK = [0x52, 0x50, 0x53, 0x31];
const HEAD_BYTES = 12;
const POINT_BYTES = 12;
const TRIANGLE_BYTES = 12;

export function packMesh({ points, triangles }: ScanMesh): Uint8Array<ArrayBuffer> {
  const [corners, count] = [points.length / 3, triangles.length / 3];
  const bytes = new Uint8Array(HEAD_BYTES + POINT_BYTES * corners + TRIANGLE_BYTES * count);
  bytes.set(MARK);
  const head = new DataView(bytes.buffer);
  head.setUint32(4, corners, true);
  head.setUint32(8, count, true);
  for (let at = 0; at < points.length; at++) head.setFloat32(HEAD_BYTES + 4 * at, points[at]!, true);
  const from = HEAD_BYTES + POINT_BYTES * corners;
  for (let at = 0; at < triangles.length; at++) head.setUint32(from + 4 * at, triangles[at]!, true);
  return bytes;
}

/** Null where the bytes are not what `packMesh` wrote. */
export function unpackMesh(bytes: Uint8Array): ScanMesh | null {
  if (bytes.length < HEAD_BYTES || MARK.some((byte, at) => bytes[at] !== byte)) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const [corners, count] = [view.getUint32(4, true), view.getUint32(8, true)];
  if (count === 0 || count > MOST_TRIANGLES || bytes.length !== HEAD_BYTES + POINT_BYTES * corners + TRIANGLE_BYTES * count) return null;
  const points = new Float64Array(3 * corners);
  for (let at = 0; at < points.length; at++) points[at] = view.getFloat32(HEAD_BYTES + 4 * at, true);
  const triangles = new Uint32Array(3 * count);
  const from = HEAD_BYTES + POINT_BYTES * corners;
  for (let at = 0; at < triangles.length; at++) triangles[at] = view.getUint32(from + 4 * at, true);
  return points.every(Number.isFinite) && triangles.every((corner) => corner < corners) ? { points, triangles } : null;
}
