/** Reads a record's text from a file or from standard input, never more than a record file can hold. */
import { createReadStream } from 'node:fs';
import type { Readable } from 'node:stream';
import { LARGEST_FILE_BYTES } from '../records/schema';
import { oneLine } from '../records/refusal';

export type InputText = { readonly kind: 'text'; readonly text: string } | { readonly kind: 'refused'; readonly message: string };

/** `-` is standard input. The message of a refusal is one line. */
export async function readInput(name: string, standardInput: Readable): Promise<InputText> {
  const shown = name === '-' ? 'standard input' : oneLine(name);
  const chunks: Buffer[] = [];
  let size = 0;
  try {
    for await (const chunk of name === '-' ? standardInput : createReadStream(name)) {
      const bytes = Buffer.isBuffer(chunk) ? chunk : Buffer.from(String(chunk));
      size += bytes.length;
      if (size > LARGEST_FILE_BYTES) {
        return { kind: 'refused', message: `${shown}: larger than a record file; allowed: up to ${LARGEST_FILE_BYTES} bytes` };
      }
      chunks.push(bytes);
    }
  } catch (error) {
    return { kind: 'refused', message: `${shown}: ${reason(error)}; allowed: a readable JSON file, or - for standard input` };
  }
  try {
    // A byte order mark at the start of UTF-8 is skipped, as editors on Windows write it; any other encoding is refused.
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(Buffer.concat(chunks)) };
  } catch {
    return { kind: 'refused', message: `${shown}: not UTF-8 text; allowed: a JSON file in UTF-8` };
  }
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file',
  EISDIR: 'is a folder',
  EACCES: 'no permission to read it',
  ENOTDIR: 'no such file',
  ENAMETOOLONG: 'no such file',
};

function reason(error: unknown): string {
  if (!(error instanceof Error)) return 'cannot be read';
  const code = 'code' in error && typeof error.code === 'string' ? error.code : '';
  return REASONS[code] ?? `cannot be read (${oneLine(code === '' ? error.message : code)})`;
}
