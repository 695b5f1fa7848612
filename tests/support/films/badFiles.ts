/** Files that are not what they seem, for the sentences that refuse them. Most are made from a film that is good. */
export interface BadFile {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** What is wrong with it. */
  readonly what: 'empty' | 'truncated' | 'text' | 'hevc' | 'huge film' | 'huge still' | 'noise';
}

/** `mp4`: a good film with H.264 in an MP4 (madeFilm). */
export function badFiles(mp4: Uint8Array): BadFile[] {
  return [
    { name: 'empty.mp4', bytes: new Uint8Array(0), what: 'empty' },
    { name: 'half.mp4', bytes: mp4.slice(0, Math.floor(mp4.length / 2)), what: 'truncated' },
    { name: 'head-only.mp4', bytes: mp4.slice(0, 40), what: 'truncated' },
    { name: 'words.mp4', bytes: new TextEncoder().encode('Dear teacher, the film did not fit into the letter.\n'.repeat(40)), what: 'text' },
    { name: 'phone.mp4', bytes: claimingHevc(mp4), what: 'hevc' },
    { name: 'wall.mp4', bytes: claimingSize(mp4, 7680, 4320), what: 'huge film' },
    { name: 'wall.png', bytes: pngHeader(30_000, 20_000), what: 'huge still' },
    { name: 'noise.webm', bytes: Uint8Array.from({ length: 5000 }, (_, at) => Math.imul(at + 1, 2654435761) >>> 24), what: 'noise' },
  ];
}

/** The sample entry says HEVC (ISO/IEC 14496-15: 'hvc1' with 'hvcC'), with a configuration record that holds no parameter sets. */
export function claimingHevc(mp4: Uint8Array): Uint8Array {
  const bytes = mp4.slice();
  writeFourCc(bytes, sampleEntry(bytes), 'hvc1');
  const box = placeOf(bytes, 'avcC');
  const size = new DataView(bytes.buffer).getUint32(box - 4);
  writeFourCc(bytes, box, 'hvcC');
  // Main profile, level 4.0, 4 bytes of length before each unit, no arrays.
  const record = [1, 0x01, 0x60, 0, 0, 0, 0x90, 0, 0, 0, 0, 0, 120, 0xf0, 0, 0xfc, 0xfd, 0xf8, 0xf8, 0, 0, 0x0f, 0];
  if (size - 8 < record.length) throw new RangeError(`claimingHevc: avcC holds ${size - 8} bytes; allowed: ${record.length} or more`);
  bytes.fill(0, box + 4, box - 4 + size);
  bytes.set(record, box + 4);
  return bytes;
}

/** Only the container's word for the size is changed (sample entry and track header). */
export function claimingSize(mp4: Uint8Array, width: number, height: number): Uint8Array {
  const bytes = mp4.slice();
  const view = new DataView(bytes.buffer);
  const entry = sampleEntry(bytes) + 4;
  view.setUint16(entry + 24, width);
  view.setUint16(entry + 26, height);
  const header = placeOf(bytes, 'tkhd');
  const end = header - 4 + view.getUint32(header - 4);
  view.setUint32(end - 8, width << 16);
  view.setUint32(end - 4, height << 16);
  return bytes;
}

/** A PNG's first 33 bytes and then nothing: what it would unpack to is known before any pixel comes. */
export function pngHeader(width: number, height: number): Uint8Array {
  const bytes = new Uint8Array(33);
  bytes.set([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13]);
  writeFourCc(bytes, 12, 'IHDR');
  const view = new DataView(bytes.buffer);
  view.setUint32(16, width);
  view.setUint32(20, height);
  bytes.set([8, 0, 0, 0, 0], 24);
  view.setUint32(29, crc32(bytes.subarray(12, 29)));
  return bytes;
}

/** Not the same letters among the brands at the file's beginning. */
const sampleEntry = (bytes: Uint8Array): number => placeOf(bytes, 'avc1', placeOf(bytes, 'stsd'));

function placeOf(bytes: Uint8Array, fourCc: string, from = 0): number {
  const at = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).indexOf(fourCc, from, 'latin1');
  if (at < 0) throw new RangeError(`badFiles: no '${fourCc}' in the film; allowed: an MP4 with H.264`);
  return at;
}

function writeFourCc(bytes: Uint8Array, at: number, fourCc: string): void {
  for (let letter = 0; letter < 4; letter++) bytes[at + letter] = fourCc.charCodeAt(letter);
}

/** PNG specification, annex D. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
