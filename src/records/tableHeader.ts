/** Which column each cell of a header names; also what a header says of how its notes are named. */
import { NOTE_NAMINGS, type NoteNaming, type NoteStyle } from '../core/noteNaming';
import type { ColumnId, ReadingColumn } from './readingCell';
import { READING_COLUMNS } from './readingColumns';
import { sayTables } from '../words/tables';
import { headerParts } from './tableText';

export interface TableHeader {
  /** By place; null where the name is not known or was there before. */
  readonly columns: readonly (ColumnId | null)[];
  /** Names that are not known or come twice, as they stand; the first of them. */
  readonly unknown: readonly string[];
  /** How the notes are named, as far as the header says it. */
  readonly notes: Partial<NoteStyle>;
}

/** The header that a row is; null where none of its cells names a column. */
export function readHeader(row: readonly string[]): TableHeader | null {
  const columns: (ColumnId | null)[] = [];
  const unknown: string[] = [];
  let notes: Partial<NoteStyle> = {};
  for (const cell of row) {
    const id = columnNamed(cell);
    const isNew = id !== null && !columns.includes(id);
    columns.push(isNew ? id : null);
    if (isNew && id === 'note') notes = notesSaid(headerParts(cell).unit ?? '');
    if (!isNew && cell.trim() !== '' && unknown.length < MOST_NAMED) unknown.push(cell.trim().slice(0, SHOWN_CHARACTERS));
  }
  return columns.some((id) => id !== null) ? { columns, unknown, notes } : null;
}

/** How a file's note column is headed, so that it can be read without being told: "Note (written 2 semitones above sounding, German names)". */
export function noteHeader({ naming, transpositionSemitones: semitones }: NoteStyle): string {
  if (semitones === 0) return sayTables('noteHeaderSounding', { naming });
  return sayTables('noteHeaderWritten', { semitones: Math.abs(semitones), side: semitones > 0 ? 'above' : 'below', naming });
}

/** How many unknown names are given back, and how much of each. */
const MOST_NAMED = 50;
const SHOWN_CHARACTERS = 60;
/** Ways of writing the units; a name with another unit (cm) is not the column's. */
const UNIT_WORDS: Readonly<Record<ReadingColumn['unit'], readonly string[]>> = {
  mm: ['mm', 'millimetres', 'millimeters', 'millimeter'],
  '°': ['°', 'deg', 'degree', 'degrees', 'grad'],
  N: ['n', 'newton', 'newtons'],
  '': [],
};

const byName = new Map(
  READING_COLUMNS.flatMap((column) =>
    column.names.flatMap((name) => [
      [name, column] as const,
      ...UNIT_WORDS[column.unit].filter((unit) => unit !== '°').map((unit) => [`${name} ${unit}`, column] as const),
    ]),
  ),
);

function columnNamed(cell: string): ColumnId | null {
  const { words, unit } = headerParts(cell);
  const column = byName.get(words);
  if (column === undefined) return null;
  const otherUnit = unit !== null && column.unit !== '' && !UNIT_WORDS[column.unit].includes(unit.toLowerCase());
  return otherUnit ? null : column.id;
}

/** By which a header tells how its notes are named, in either language. */
const NAMING_WORDS: Readonly<Record<NoteNaming, readonly string[]>> = {
  scientific: ['scientific', 'wissenschaftlich'],
  german: ['german', 'deutsch'],
  solfège: ['solfège'],
};

function notesSaid(words: string): Partial<NoteStyle> {
  const small = words.toLowerCase().normalize('NFC');
  const naming: NoteNaming | undefined = NOTE_NAMINGS.find((one) => NAMING_WORDS[one].some((word) => small.includes(word)));
  const [, size, side] = /(?:written|notiert) (\d{1,2}) (?:semitones?|halbt(?:on|öne)) (above|below|über|unter)/.exec(small) ?? [];
  const semitones = size === undefined ? undefined : Number(size) * (side === 'above' || side === 'über' ? 1 : -1);
  const transpositionSemitones = semitones ?? (/^(?:sounding|klingend)\b/.test(small) ? 0 : undefined);
  return { ...(naming !== undefined && { naming }), ...(transpositionSemitones !== undefined && { transpositionSemitones }) };
}
