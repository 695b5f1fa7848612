/** What a file is by its first bytes, whatever its name says: only so far as a sentence about it needs. */
export type FileKind = 'text' | 'picture' | 'heic' | 'film' | 'sound' | 'unknown';

/** How many bytes `fileKind` looks at. */
export const KIND_BYTES = 512;

export function fileKind(start: Uint8Array): FileKind {
  const at = (offset: number, letters: string): boolean => [...letters].every((letter, index) => start[offset + index] === letter.charCodeAt(0));
  const bytes = (...values: number[]): boolean => values.every((value, index) => start[index] === value);
  if (bytes(0xff, 0xd8, 0xff) || bytes(0x89, 0x50, 0x4e, 0x47) || at(0, 'GIF8') || at(0, 'BM')) return 'picture';
  if (at(0, 'RIFF')) {
    if (at(8, 'WEBP')) return 'picture';
    return at(8, 'WAVE') ? 'sound' : 'unknown';
  }
  if (at(4, 'ftyp')) {
    if (['heic', 'heix', 'hevc', 'heim', 'heis', 'mif1', 'msf1'].some((brand) => at(8, brand))) return 'heic';
    if (at(8, 'avif')) return 'picture';
    return at(8, 'M4A ') || at(8, 'M4B ') ? 'sound' : 'film';
  }
  if (['moov', 'mdat', 'wide', 'free', 'skip'].some((box) => at(4, box)) || bytes(0x1a, 0x45, 0xdf, 0xa3)) return 'film';
  // MPEG sound frames have eleven bits set, and no layer "reserved".
  const isMpegSound = start[0] === 0xff && (start[1]! & 0xe0) === 0xe0 && (start[1]! & 0x06) !== 0;
  if (at(0, 'ID3') || at(0, 'OggS') || at(0, 'fLaC') || at(0, 'FORM') || isMpegSound) return 'sound';
  return isText(start.subarray(0, KIND_BYTES)) ? 'text' : 'unknown';
}

/** Bytes that begin no control character but tab and line ends, and that are UTF-8 (a letter cut at the end is none of it). */
function isText(start: Uint8Array): boolean {
  if (start.length === 0 || start.some((byte) => byte < 9 || (byte > 13 && byte < 32) || byte === 127)) return false;
  const text = new TextDecoder().decode(start);
  const cutLetter = 3; // bytes of a letter that may be missing at the end
  return !text.slice(0, Math.max(0, text.length - cutLetter)).includes('\ufffd');
}
