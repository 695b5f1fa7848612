/** What the buttons beside the table do to a record's readings; each answers new readings and leaves what was seen as it was. */
import { midiOf, noteName } from '../../core/pitch';
import type { ReadingSpec } from '../../core/specs';
import type { CellStyle, ColumnId } from '../../records/readingCell';
import { withCell } from '../../records/readingColumns';
import { MOST_READINGS } from '../../records/readingRanges';

type Readings = readonly ReadingSpec[];

const LAST_TAKE = 99;
const HIGHEST_MIDI = 127;
const FIRST_NOTE = 'F4';
/** How far the next note is put, semitones, where no interval has been heard yet. */
const WHOLE_TONE = 2;
/** A step further than this is a leap that is not guessed again. */
const LARGEST_GUESS = 12;

export const takeOf = ({ take }: ReadingSpec): number => take ?? 1;

/** The takes there are, in order. */
export function takesOf(readings: Readings): readonly number[] {
  return [...new Set(readings.map(takeOf))].sort((a, b) => a - b);
}

/** A further note after the reading at `index` (-1: at the beginning), of the same take and way; nothing is seen of it yet. None where the list is full. */
export function withNextNote(readings: Readings, index: number): Readings {
  if (readings.length >= MOST_READINGS) return readings;
  const from = readings[index];
  return readings.toSpliced(index + 1, 0, { note: guessedNote(readings, index), ...sameTake(from) });
}

/** All notes of the last take once more, in their order and direction and measured in the same way, as a take of its own. */
export function withFurtherTake(readings: Readings): Readings {
  const last = takesOf(readings).at(-1);
  if (last === undefined || last >= LAST_TAKE) return readings;
  const notes = readings.filter((reading) => takeOf(reading) === last);
  return [...readings, ...notes.map((reading) => ({ note: reading.note, ...sameTake(reading), take: last + 1 }))];
}

export function withDuplicate(readings: Readings, index: number): Readings {
  const reading = readings[index];
  return reading === undefined ? readings : readings.toSpliced(index + 1, 0, { ...reading });
}

/** One place up (-1) or down (1); unchanged at the ends. */
export function withMoved(readings: Readings, index: number, by: -1 | 1): Readings {
  const to = index + by;
  const reading = readings[index];
  const other = readings[to];
  return reading === undefined || other === undefined ? readings : readings.with(index, other).with(to, reading);
}

/** From low to high, ascending before descending, the takes of a note side by side; equal ones stay in their order. */
export function byPitch(readings: Readings): Readings {
  const way = ({ direction }: ReadingSpec): number => (direction === 'down' ? 1 : 0);
  return sorted(readings, (a, b) => midiOf(a.note) - midiOf(b.note) || way(a) - way(b) || takeOf(a) - takeOf(b));
}

/** Take after take; within one the order stays. */
export function byTake(readings: Readings): Readings {
  return sorted(readings, (a, b) => takeOf(a) - takeOf(b));
}

export interface SetInAll {
  readonly readings: Readings;
  /** How many could not have the value, such as a deviation where no travel was seen. */
  readonly refused: number;
}

/** One cell's text put into all readings, or those of one take. The text is one that the column can read. */
export function withCellInAll(readings: Readings, column: ColumnId, text: string, style: CellStyle, take: number | null): SetInAll {
  let refused = 0;
  const next = readings.map((reading) => {
    if (take !== null && takeOf(reading) !== take) return reading;
    const edit = withCell(reading, column, text, style);
    if (edit.kind === 'reading') return edit.reading;
    refused += 1;
    return reading;
  });
  return { readings: next, refused };
}

/** The interval of the two notes before goes on; where that leaves what can be named, a whole tone up, or the same note. */
function guessedNote(readings: Readings, index: number): string {
  const last = readings[index];
  if (last === undefined) return FIRST_NOTE;
  const before = readings[index - 1];
  const midi = midiOf(last.note);
  const step = before !== undefined && takeOf(before) === takeOf(last) ? midi - midiOf(before.note) : WHOLE_TONE;
  const guess = midi + (step === 0 || Math.abs(step) > LARGEST_GUESS ? WHOLE_TONE : step);
  return guess >= 0 && guess <= HIGHEST_MIDI ? noteName(guess) : last.note;
}

function sameTake(reading: ReadingSpec | undefined): Partial<ReadingSpec> {
  const { take, direction, method } = reading ?? {};
  return { ...(take !== undefined && { take }), ...(direction !== undefined && { direction }), ...(method !== undefined && { method }) };
}

/** The same list where it is in order already, so that no step is made of nothing. */
function sorted(readings: Readings, compare: (a: ReadingSpec, b: ReadingSpec) => number): Readings {
  const next = readings.toSorted(compare);
  return next.every((reading, index) => reading === readings[index]) ? readings : next;
}
