/** Scans that go with a player's file, only where a person asked for it: as text, since the file is text. */
import type { ArchSpec } from '../core/specs';
import type { ScannedJawName } from './scanShelf';

/** As it stands in the file. */
export interface ScanInFile {
  /** The arch's `scanned.id`. */
  readonly id: string;
  readonly jaw: ScannedJawName;
  /** The jaw's triangles packed, as Base64. */
  readonly packed: string;
}

/** All scans of a file together, bytes of text: two jaws of 300,000 triangles each. */
export const MOST_SCAN_TEXT = 15_000_000;
/** Both jaws of a player. */
export const MOST_SCANS = 2;

export function scanToText(packed: Uint8Array): string {
  let binary = '';
  for (let from = 0; from < packed.length; from += CHUNK) binary += String.fromCharCode(...packed.subarray(from, from + CHUNK));
  return btoa(binary);
}

/** Null where the text is no Base64. */
export function scanFromText(text: string): Uint8Array<ArrayBuffer> | null {
  try {
    const binary = atob(text);
    const bytes = new Uint8Array(binary.length);
    for (let at = 0; at < binary.length; at++) bytes[at] = binary.charCodeAt(at);
    return bytes;
  } catch {
    return null;
  }
}

/** Whether so many bytes of scans may go into a file. */
export const fitsFile = (bytes: number): boolean => Math.ceil(bytes / 3) * 4 <= MOST_SCAN_TEXT;

/** Under which an arch's scans are kept; null: it has none. */
export const scannedId = (arch: ArchSpec): string | null => ('single' in arch ? null : (arch.scanned?.id ?? null));

/** More arguments than this overflow the stack in some browsers. */
const CHUNK = 0x8000;
