/** A letter typed on a closed list of words: the word it stands for. */
import type { CellStyle, ReadingColumn } from '../../records/readingCell';

/** The value for a typed letter, or null: a word that begins with it (the next one, where several do), u and d for up and down, ? for not sure. */
export function choiceForKey(column: ReadingColumn, key: string, now: string, style: CellStyle): string | null {
  const letter = key.toLowerCase();
  const begins = column.choices.filter(({ word }) => word.toLowerCase().startsWith(letter)).map(({ word }) => word);
  if (begins.length > 0) return begins[(begins.indexOf(now) + 1) % begins.length]!;
  const short = SHORT[letter];
  if (short === undefined) return null;
  const read = column.read(short, style);
  return read.kind === 'value' ? (column.choices.find(({ value }) => value === read.value)?.word ?? null) : null;
}

const SHORT: Readonly<Record<string, string>> = { u: 'up', d: 'down', '?': 'unsure', r: 'ruler', v: 'video', p: 'picture', e: 'eye' };
