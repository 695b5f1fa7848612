/** By what a film or picture is known again when it is opened a second time: its name is for people, its bytes for the program. */
import { crc32 } from '../core/crc32';

export interface FileMark {
  /** Without folders and control characters, and cut where it is longer than a record keeps. */
  readonly name: string;
  readonly bytes: number;
  /** 16 hexadecimal digits, of the first and of the last 64 kB. When the file was changed is no part of it: copying changes that. */
  readonly digest: string;
}

/** What a film's beginning and end are looked at: a whole film would take seconds. */
const LOOKED_AT_BYTES = 65_536;
export const LONGEST_FILE_NAME = 200;

/**
 * Check sums, not a cryptographic digest: nobody gains by passing one film off as another, and the browser's own digests are missing
 * where a page comes over plain http. Two files of one size are taken for the same by chance once in 2⁶⁴. Rejects where the file cannot be read.
 */
export async function markFile(file: Pick<File, 'name' | 'size' | 'slice'>): Promise<FileMark> {
  const [head, tail] = await Promise.all([
    file.slice(0, LOOKED_AT_BYTES).arrayBuffer(),
    file.slice(Math.max(0, file.size - LOOKED_AT_BYTES)).arrayBuffer(),
  ]);
  const digest = [head, tail].map((part) => crc32(new Uint8Array(part)).toString(16).padStart(8, '0')).join('');
  return { name: keptName(file.name), bytes: file.size, digest };
}

/** Whether it is the file that was measured, whatever it is called now. */
export function isSameFile(one: Pick<FileMark, 'bytes' | 'digest'>, other: Pick<FileMark, 'bytes' | 'digest'>): boolean {
  return one.bytes === other.bytes && one.digest === other.digest;
}

function keptName(name: string): string {
  const last = name.split(/[/\\]/).at(-1) ?? '';
  const printable = last.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
  return printable === '' ? 'unnamed' : printable.slice(0, LONGEST_FILE_NAME);
}
