/** Reads a record's text from a file or from standard input, never more than a record file can hold. */
import { createReadStream } from 'node:fs';
import type { Readable } from 'node:stream';
import { LARGEST_FILE_BYTES } from '../records/schema';
import { oneLine } from '../records/refusal';
import { sayCli } from '../words/cli';

export type InputText = { readonly kind: 'text'; readonly text: string } | { readonly kind: 'refused'; readonly message: string };

/** `-` is standard input. The message of a refusal is one line. */
export async function readInput(name: string, standardInput: Readable): Promise<InputText> {
  const shown = name === '-' ? sayCli('standardInput') : oneLine(name);
  const chunks: Buffer[] = [];
  let size = 0;
  try {
    for await (const chunk of name === '-' ? standardInput : createReadStream(name)) {
      const bytes = Buffer.isBuffer(chunk) ? chunk : Buffer.from(String(chunk));
      size += bytes.length;
      if (size > LARGEST_FILE_BYTES) {
        return { kind: 'refused', message: sayCli('tooLarge', { file: shown, most: LARGEST_FILE_BYTES }) };
      }
      chunks.push(bytes);
    }
  } catch (error) {
    return { kind: 'refused', message: sayCli('notRead', { file: shown, why: reason(error) }) };
  }
  try {
    // A byte order mark at the start of UTF-8 is skipped, as editors on Windows write it; any other encoding is refused.
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(chunks)) };
  } catch {
    return { kind: 'refused', message: sayCli('notText', { file: shown }) };
  }
}

const REASONS = {
  ENOENT: 'noSuchFile',
  EISDIR: 'isFolder',
  EACCES: 'noPermission',
  ENOTDIR: 'noSuchFile',
  ENAMETOOLONG: 'noSuchFile',
} as const;

const isKnown = (code: string): code is keyof typeof REASONS => Object.hasOwn(REASONS, code);

function reason(error: unknown): string {
  if (!(error instanceof Error)) return sayCli('cannotBeRead');
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  return isKnown(code) ? sayCli(REASONS[code]) : sayCli('cannotBeReadFor', { detail: oneLine(code === '' ? error.message : code) });
}
