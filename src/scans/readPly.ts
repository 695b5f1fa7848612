/** PLY, text and binary of either byte order: the vertices' x, y, z and the faces' corners; whatever else there is, is passed over. */
import { type Growing, addPlace, addTriangle, growingCorners, growingPlaces } from './growing';
import type { ScanMesh } from './mesh';
import { type PlyElement, type PlyHeader, type PlyType, PLY_BYTES, readPlyHeader } from './plyHeader';
import type { Progress } from './progress';
import { MOST_TRIANGLES, type ScanRefused, scanRefusals } from './scanRefusals';
import { nextWord, numberOf, textCursor } from './textCursor';

const TOLD_EVERY = 8192;
/** More corners than any face of a scan has. */
const MOST_CORNERS = 1024;

/** Numbers one after the other, whatever they are written in; NaN beyond the end and where a word is no number. */
interface NumberSource {
  next(type: PlyType): number;
  readonly ended: () => boolean;
  readonly line: () => number | null;
  readonly part: () => number;
}

export function readPly(bytes: Uint8Array, progress: Progress): ScanMesh | ScanRefused {
  const header = readPlyHeader(bytes);
  if (header.kind === 'refused') return header;
  const faces = header.elements.find((element) => element.name === 'face');
  if (!faces || faces.count === 0) return scanRefusals.noTriangles();
  if (faces.count > MOST_TRIANGLES) return scanRefusals.tooManyTriangles(faces.count);
  for (const element of header.elements) {
    // A number takes two bytes of text at least, and the last one's blank may be missing.
    const least = leastBytes(element, header.format === 'ascii') * element.count;
    if (least > bytes.length - header.bodyAt + 1) return scanRefusals.cutShort();
  }
  const source = header.format === 'ascii' ? textSource(bytes, header) : binarySource(bytes, header);
  const places = growingPlaces();
  const corners = growingCorners();
  for (const element of header.elements) {
    const trouble = readElement(element, source, places, corners, progress);
    if (trouble !== null) return trouble;
  }
  if (!source.ended()) return scanRefusals.countUntrue(faces.count);
  return { points: places.array.slice(0, places.length), triangles: corners.array.slice(0, corners.length) };
}

function readElement(
  element: PlyElement, source: NumberSource, places: Growing<Float64Array>, corners: Growing<Uint32Array>, progress: Progress,
): ScanRefused | null {
  const { properties } = element;
  const axes = ['x', 'y', 'z'].map((axis) => properties.findIndex((property) => property.name === axis && property.countType === null));
  const isVertex = element.name === 'vertex';
  if (isVertex && axes.includes(-1)) return scanRefusals.damaged(null);
  const around = properties.findIndex(({ name, countType }) => countType !== null && (name === 'vertex_indices' || name === 'vertex_index'));
  const isFace = element.name === 'face';
  if (isFace && around < 0) return scanRefusals.noTriangles();
  // Of nothing there may be any number, and nothing is read.
  if (properties.length === 0) return null;
  const values = new Float64Array(properties.length);
  const face = new Float64Array(MOST_CORNERS);
  for (let index = 0; index < element.count; index++) {
    if (index % TOLD_EVERY === 0) progress(source.part());
    let faceCorners = 0;
    for (let place = 0; place < properties.length; place++) {
      const { type, countType } = properties[place]!;
      if (countType === null) {
        values[place] = source.next(type);
        continue;
      }
      const count = source.next(countType);
      if (!(count >= 0 && count <= MOST_CORNERS && Number.isInteger(count))) return source.ended() ? scanRefusals.cutShort() : scanRefusals.damaged(source.line());
      for (let k = 0; k < count; k++) face[k] = source.next(type);
      if (isFace && place === around) {
        faceCorners = count;
        for (let k = 2; k < count; k++) {
          if (!(face[0]! >= 0 && face[k - 1]! >= 0 && face[k]! >= 0)) return source.ended() ? scanRefusals.cutShort() : scanRefusals.missingCorner(Math.min(face[0]!, face[k - 1]!, face[k]!), places.length / 3);
          addTriangle(corners, face[0]!, face[k - 1]!, face[k]!);
        }
      }
    }
    if (isFace && faceCorners < 3 && source.ended() && index < element.count - 1) return scanRefusals.cutShort();
    if (corners.length > 3 * MOST_TRIANGLES) return scanRefusals.tooManyTriangles(corners.length / 3);
    if (isVertex) {
      const [x, y, z] = axes.map((axis) => values[axis]!) as [number, number, number];
      if (x !== x || y !== y || z !== z) return source.ended() ? scanRefusals.cutShort() : scanRefusals.notANumber(source.line());
      addPlace(places, x, y, z);
    }
  }
  return null;
}

function leastBytes(element: PlyElement, asText: boolean): number {
  if (asText) return 2 * element.properties.length;
  return element.properties.reduce((sum, { type, countType }) => sum + PLY_BYTES[countType ?? type], 0);
}

function textSource(bytes: Uint8Array, header: PlyHeader): NumberSource {
  const cursor = textCursor(bytes, header.bodyAt);
  cursor.line = header.bodyLine;
  return {
    next: () => (nextWord(cursor) ? numberOf(cursor) : NaN),
    ended: () => !nextWord({ ...cursor }),
    line: () => cursor.line,
    part: () => cursor.at / bytes.length,
  };
}

function binarySource(bytes: Uint8Array, header: PlyHeader): NumberSource {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = header.format === 'binary_little_endian';
  let at = header.bodyAt;
  const readers: Record<PlyType, () => number> = {
    int8: () => view.getInt8(at),
    uint8: () => view.getUint8(at),
    int16: () => view.getInt16(at, little),
    uint16: () => view.getUint16(at, little),
    int32: () => view.getInt32(at, little),
    uint32: () => view.getUint32(at, little),
    float32: () => view.getFloat32(at, little),
    float64: () => view.getFloat64(at, little),
  };
  return {
    next(type) {
      const size = PLY_BYTES[type];
      if (at + size > bytes.length) {
        at = bytes.length;
        return NaN;
      }
      const value = readers[type]();
      at += size;
      return value;
    },
    ended: () => at >= bytes.length,
    line: () => null,
    part: () => at / bytes.length,
  };
}
