/** A picture file's size and its camera notes (Exif), read from its header without decoding it: JPEG, PNG, WebP. */

export interface PictureHeader {
  readonly format: 'JPEG' | 'PNG' | 'WebP';
  /** As stored, before Exif turns it. */
  readonly width: number;
  readonly height: number;
  /** The Exif block, from its byte order mark on. */
  readonly exif: Uint8Array | null;
}

/** Null where the bytes are none of the three, or end before the size is known. Never throws for any bytes. */
export function pictureHeader(bytes: Uint8Array): PictureHeader | null {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const has = (offset: number, ...values: number[]): boolean => values.every((value, index) => bytes[offset + index] === value);
  if (has(0, 0xff, 0xd8)) return jpegHeader(bytes, view);
  if (has(0, 0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return pngHeader(bytes, view);
  return lettersAt(bytes, 0) === 'RIFF' && lettersAt(bytes, 8) === 'WEBP' ? webpHeader(bytes, view) : null;
}

/** Whether the file goes on to its picture's end: browsers draw one that was cut short all the same, with grey for what is missing. */
export function isWhole(bytes: Uint8Array, { format }: PictureHeader): boolean {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  switch (format) {
    case 'JPEG':
      return hasJpegEnd(bytes, view);
    case 'PNG': {
      let at = 8;
      while (at + 12 <= bytes.length && lettersAt(bytes, at + 4) !== 'IEND') at += 12 + view.getUint32(at);
      return at + 12 <= bytes.length;
    }
    case 'WebP':
      return view.getUint32(4, true) + 8 <= bytes.length;
  }
}

const lettersAt = (bytes: Uint8Array, at: number): string => String.fromCharCode(...bytes.subarray(at, at + 4));

/** Phones write films and depths behind the picture, and small pictures with ends of their own before it: the first end after its data counts. */
function hasJpegEnd(bytes: Uint8Array, view: DataView): boolean {
  let at = 2;
  while (at + 4 <= bytes.length && bytes[at] === 0xff && bytes[at + 1] !== 0xda) at += bytes[at + 1] === 0xff ? 1 : 2 + view.getUint16(at + 2);
  for (at = bytes.indexOf(0xff, at + 2); at >= 0; at = bytes.indexOf(0xff, at + 1)) if (bytes[at + 1] === 0xd9) return true;
  return false;
}

function jpegHeader(bytes: Uint8Array, view: DataView): PictureHeader | null {
  let exif: Uint8Array | null = null;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1]!;
    // Filling, and markers that stand alone.
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd7)) {
      at += 2;
      continue;
    }
    if (marker === 0xda || marker === 0xd9) return null;
    const length = view.getUint16(at + 2);
    if (length < 2) return null;
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) {
      if (at + 9 > bytes.length) return null;
      return { format: 'JPEG', height: view.getUint16(at + 5), width: view.getUint16(at + 7), exif };
    }
    const isExif = marker === 0xe1 && lettersAt(bytes, at + 4) === 'Exif' && bytes[at + 8] === 0;
    if (isExif && exif === null) exif = bytes.subarray(at + 10, at + 2 + length);
    at += 2 + length;
  }
  return null;
}

function pngHeader(bytes: Uint8Array, view: DataView): PictureHeader | null {
  if (bytes.length < 24 || lettersAt(bytes, 12) !== 'IHDR') return null;
  let exif: Uint8Array | null = null;
  for (let at = 8; at + 8 <= bytes.length && exif === null; at += 12 + view.getUint32(at)) {
    const name = lettersAt(bytes, at + 4);
    if (name === 'IDAT') break;
    if (name === 'eXIf') exif = bytes.subarray(at + 8, at + 8 + view.getUint32(at));
  }
  return { format: 'PNG', width: view.getUint32(16), height: view.getUint32(20), exif };
}

function webpHeader(bytes: Uint8Array, view: DataView): PictureHeader | null {
  let size: readonly [number, number] | null = null;
  let exif: Uint8Array | null = null;
  for (let at = 12; at + 8 <= bytes.length; ) {
    const name = lettersAt(bytes, at);
    const length = view.getUint32(at + 4, true);
    const from = at + 8;
    size ??= webpSize(name, view, from);
    if (name === 'EXIF') exif ??= withoutPrefix(bytes.subarray(from, from + length));
    at = from + length + (length % 2);
  }
  return size === null ? null : { format: 'WebP', width: size[0], height: size[1], exif };
}

function webpSize(name: string, view: DataView, from: number): readonly [number, number] | null {
  if (from + 10 > view.byteLength) return null;
  const upTo14Bits = 0x3fff;
  if (name === 'VP8X') {
    const three = (at: number): number => view.getUint16(at, true) + (view.getUint8(at + 2) << 16);
    return [three(from + 4) + 1, three(from + 7) + 1];
  }
  if (name === 'VP8 ') return [view.getUint16(from + 6, true) & upTo14Bits, view.getUint16(from + 8, true) & upTo14Bits];
  if (name !== 'VP8L') return null;
  const packed = view.getUint32(from + 1, true);
  return [(packed & upTo14Bits) + 1, ((packed >>> 14) & upTo14Bits) + 1];
}

/** Some writers repeat the JPEG's own "Exif\0\0" in front. */
const withoutPrefix = (bytes: Uint8Array): Uint8Array => (lettersAt(bytes, 0) === 'Exif' ? bytes.subarray(6) : bytes);
