/** How large a GIF, BMP, AVIF or HEIC picture is, read from its first bytes: a browser would take the memory for it before anybody could refuse it. */

/** px, as stored. Null where the bytes are none of these, or do not say. Never throws for any bytes. */
export function storedSize(bytes: Uint8Array): { readonly width: number; readonly height: number } | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const letters = (at: number, count: number): string => String.fromCharCode(...bytes.subarray(at, at + count));
  if (letters(0, 4) === 'GIF8' && bytes.length >= 10) return { width: view.getUint16(6, true), height: view.getUint16(8, true) };
  if (letters(0, 2) === 'BM' && bytes.length >= 26) return bmpSize(view);
  return letters(4, 4) === 'ftyp' ? largestBox(bytes, view) : null;
}

/** Of the oldest header, which counts in two bytes. */
const BMP_CORE_HEADER = 12;

function bmpSize(view: DataView): { readonly width: number; readonly height: number } {
  if (view.getUint32(14, true) === BMP_CORE_HEADER) return { width: view.getUint16(18, true), height: view.getUint16(20, true) };
  // A height below 0: the rows run from the top.
  return { width: Math.abs(view.getInt32(18, true)), height: Math.abs(view.getInt32(22, true)) };
}

/** AVIF and HEIC say their sizes in `ispe` boxes among their first boxes: of a picture laid out of tiles, the tiles' and the whole's. */
function largestBox(bytes: Uint8Array, view: DataView): { readonly width: number; readonly height: number } | null {
  let largest: { readonly width: number; readonly height: number } | null = null;
  const end = Math.min(bytes.length, LOOKED_AT) - 16;
  for (let at = 4; at <= end; at++) {
    if (bytes[at] !== 0x69 || bytes[at + 1] !== 0x73 || bytes[at + 2] !== 0x70 || bytes[at + 3] !== 0x65) continue;
    const size = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) };
    if (largest === null || size.width * size.height > largest.width * largest.height) largest = size;
  }
  return largest;
}

/** Bytes: what describes the picture stands before it. */
const LOOKED_AT = 1e6;
