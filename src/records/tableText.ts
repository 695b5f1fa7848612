/**
 * Text to rows of cells and back, by papaparse, which keeps to RFC 4180 and is lenient where people are. Line ends inside a
 * quoted cell come out as \n.
 */
import Papa from 'papaparse';
import { sayTables } from '../words/tables';
import { plainWords } from './cellText';

export type Delimiter = '\t' | ';' | ',';
export type Cells = readonly (readonly string[])[];

/** In the order in which they are believed where the text itself does not tell. */
export const DELIMITERS: readonly Delimiter[] = ['\t', ';', ','];
/** A table of 200 readings with long remarks takes about 250 kB; more than this is another kind of file. */
const LARGEST_TABLE_CHARACTERS = 1_000_000;

/** Never throws, whatever the text. Where a quote is never closed, quotes are letters: else it would swallow all that follows. */
export function cellsOf(text: string, delimiter: Delimiter): string[][] {
  const tidy = tidyText(text);
  const quoted = Papa.parse<string[]>(tidy, { delimiter, newline: '\n' });
  if (!quoted.errors.some(({ code }) => code === 'MissingQuotes')) return quoted.data;
  return Papa.parse<string[]>(tidy, { delimiter, newline: '\n', quoteChar: NO_LETTER }).data;
}

/** Rows of cells as a text, with quotes only where needed. */
export function textOf(cells: Cells, delimiter: Delimiter): string {
  return Papa.unparse(cells as string[][], { delimiter, newline: '\r\n' }).replaceAll(NO_LETTER, '');
}

/** Why a text cannot be a table, in a sentence's end; null where it may be one. */
export function noTableWords(text: string): string | null {
  if (text.length > LARGEST_TABLE_CHARACTERS) return sayTables('charactersUpTo', { count: text.length, most: LARGEST_TABLE_CHARACTERS });
  // A tab parts two cells, though both be empty.
  if (/^[^\S\t]*$/.test(tidyText(text))) return sayTables('tableEmpty');
  // No text has it; a file of another kind read as text does.
  if (text.includes(NO_LETTER)) return sayTables('tableNoText');
  return null;
}

/** True where every line is one number with a decimal comma: a single column, not two. */
export function isCommaNumbers(text: string): boolean {
  const lines = tidyText(text).split('\n').filter((line) => line.trim() !== '');
  return lines.length > 0 && lines.every((line) => /^\s*[-+\u2212]?\d+,\d+\s*$/.test(line));
}

/** A header's words without its unit, and the unit: "Travel up (mm)" → "travel up", "mm". */
export function headerParts(header: string): { readonly words: string; readonly unit: string | null } {
  const bracketed = /^([^()[\]]{0,80})[([]([^()[\]]{0,200})[)\]]\s*$/.exec(header.trim());
  if (bracketed) return { words: plainWords(bracketed[1]!), unit: bracketed[2]!.trim() };
  return { words: plainWords(header.slice(0, LONGEST_HEADER)), unit: null };
}

const LONGEST_HEADER = 200;
/** In no text that is read or written here. */
const NO_LETTER = '\0';

/** Without the byte order mark, and without the line by which some spreadsheets name the delimiter. */
function tidyText(text: string): string {
  return text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n').replace(/^sep=[,;\t]\n/i, '').replace(/\n$/, '');
}
