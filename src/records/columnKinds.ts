/** How columns of notes, numbers, shares, words and remarks are read and shown. */
import { NOTE_NAMES_ALLOWED, namedNote, noteNamed } from '../core/noteNaming';
import type { ReadingSpec } from '../core/specs';
import { sayRecords } from '../words/records';
import { numberIn, numberText, plainWords, shareIn } from './cellText';
import type { CellReading, CellStyle, ReadingColumn } from './readingCell';
import { withValue } from './readingParts';
import { LONGEST_REMARK, SHARE } from './readingRanges';

type Range = readonly [least: number, most: number];

interface NumberColumn extends Pick<ReadingColumn, 'id' | 'group' | 'unit' | 'names'> {
  readonly range: Range;
  /** Decimals shown in the page. */
  readonly places: number;
  readonly whole?: boolean;
  /** The least value itself is not allowed. */
  readonly aboveLeast?: boolean;
  /** Counted in the style's travel unit, and sideways in its sign too. */
  readonly measure?: 'travel' | 'sideways';
  get(reading: ReadingSpec): number | undefined;
  set(reading: ReadingSpec, value: number | null): ReadingSpec;
  needs?(reading: ReadingSpec): string | null;
  /** The number, if there is one, is of an angle that nobody saw: the page does not show it. */
  isUnseen?(reading: ReadingSpec): boolean;
}

export function numberColumn(column: NumberColumn): ReadingColumn {
  const { id, group, unit, names, range, places } = column;
  return {
    ...{ id, group, unit, names, kind: 'number', choices: [] },
    get header() {
      return sayRecords(`${id}Header`);
    },
    get label() {
      return sayRecords(`${id}Label`);
    },
    allowed: (style) => rangeWords(column, style),
    show: (reading, style) => {
      const value = column.get(reading);
      if (value === undefined || (style.form === 'page' && column.isUnseen?.(reading) === true)) return '';
      return numberText(value / shownUnit(column, style), places, style);
    },
    read: (text, style) => {
      if (text.trim() === '') return { kind: 'value', value: null };
      const typed = numberIn(text, style.travelUnit === undefined || column.measure === undefined ? unit : '');
      // Dividing and multiplying by 1 would be exact; a typed −0 is 0.
      const value = typed === null ? Number.NaN : typed * shownUnit(column, style) + 0;
      return fits(value, range, column) ? { kind: 'value', value } : { kind: 'wrong', allowed: rangeWords(column, style) };
    },
    refuses: (reading) => column.needs?.(reading) ?? null,
    set: (reading, value) => column.set(reading, typeof value === 'number' ? value : null),
  };
}

/** Decimals of a share in the page. */
const SHARE_PLACES = 3;
const shareAllowed = (): string => sayRecords('shareOrPercent');

export function shareColumn(column: Pick<NumberColumn, 'id' | 'names' | 'get' | 'set'>): ReadingColumn {
  const { id, names } = column;
  return {
    ...{ id, names, group: null, unit: '', kind: 'number', choices: [] },
    get header() {
      return sayRecords(`${id}Header`);
    },
    get label() {
      return sayRecords(`${id}Label`);
    },
    allowed: shareAllowed,
    show: (reading, style) => {
      const value = column.get(reading);
      return value === undefined ? '' : numberText(value, SHARE_PLACES, style);
    },
    read: (text) => {
      if (text.trim() === '') return { kind: 'value', value: null };
      const value = shareIn(text);
      return value !== null && value > SHARE[0] && value < SHARE[1] ? { kind: 'value', value } : { kind: 'wrong', allowed: shareAllowed() };
    },
    refuses: () => null,
    set: (reading, value) => column.set(reading, typeof value === 'number' ? value : null),
  };
}

type ChoiceId = 'direction' | 'airstream' | 'method';

interface ChoiceColumn<Id extends ChoiceId, Value extends string> extends Pick<ReadingColumn, 'names'> {
  readonly id: Id;
  /** For each kept value what is understood. */
  readonly words: Readonly<Record<Value, readonly string[]>>;
  /** The value's word in the language set. */
  wordOf(value: Value): string;
  get(reading: ReadingSpec): string | undefined;
  set(reading: ReadingSpec, value: string | null): ReadingSpec;
}

export function choiceColumn<Id extends ChoiceId, Value extends string>(column: ChoiceColumn<Id, Value>): ReadingColumn {
  const { id, names, words } = column;
  const choices = () => (Object.keys(words) as Value[]).map((value) => ({ value, word: column.wordOf(value) }));
  const allowed = (): string => listed(choices().map(({ word }) => word));
  const understood = new Map(Object.entries<readonly string[]>(words).flatMap(([value, known]) => known.map((word) => [word, value] as const)));
  const read = (text: string): CellReading => {
    if (text.trim() === '') return { kind: 'value', value: null };
    const value = understood.get(plainWords(text));
    return value === undefined ? { kind: 'wrong', allowed: allowed() } : { kind: 'value', value };
  };
  return {
    ...{ id, names, group: null, unit: '', kind: 'choice' },
    get header() {
      return sayRecords(`${id}Header`);
    },
    get label() {
      return sayRecords(`${id}Label`);
    },
    get choices() {
      return choices();
    },
    allowed,
    show: (reading) => choices().find(({ value }) => value === column.get(reading))?.word ?? '',
    read,
    refuses: () => null,
    set: (reading, value) => column.set(reading, typeof value === 'string' ? value : null),
  };
}

export function noteColumn(): ReadingColumn {
  return {
    ...{ id: 'note', group: null, unit: '', kind: 'note', choices: [] },
    get header() {
      return sayRecords('noteHeader');
    },
    get label() {
      return sayRecords('noteLabel');
    },
    names: ['note', 'pitch', 'tone', 'note name', 'notenname', 'ton'],
    allowed: (style) => NOTE_NAMES_ALLOWED[style.naming],
    show: (reading, style) => namedNote(reading.note, style),
    read: (text, style) => {
      if (text.trim() === '') return { kind: 'value', value: null };
      const note = noteNamed(text, style);
      return note === null ? { kind: 'wrong', allowed: NOTE_NAMES_ALLOWED[style.naming] } : { kind: 'value', value: note };
    },
    refuses: () => null,
    set: (reading, value) => (typeof value === 'string' ? { ...reading, note: value } : reading),
  };
}

/** Taken as it is, blanks and line breaks too. */
export function remarkColumn(): ReadingColumn {
  const allowed = (): string => sayRecords('text', { longest: LONGEST_REMARK });
  return {
    ...{ id: 'remark', group: null, unit: '', kind: 'text', choices: [] },
    get header() {
      return sayRecords('remarkHeader');
    },
    get label() {
      return sayRecords('remarkLabel');
    },
    names: ['remark', 'remarks', 'comment', 'comments', 'bemerkung', 'bemerkungen'],
    allowed,
    show: (reading) => reading.remark ?? '',
    read: (text) => (text.length > LONGEST_REMARK ? { kind: 'wrong', allowed: allowed() } : { kind: 'value', value: text === '' ? null : text }),
    refuses: () => null,
    set: (reading, value) => withValue(reading, 'remark', typeof value === 'string' ? value : null),
  };
}

/** What one unit shown is in the unit kept; negative where the sign is turned. */
function shownUnit({ measure }: NumberColumn, { travelUnit, sidewaysSign }: CellStyle): number {
  if (measure === undefined) return 1;
  return (travelUnit?.mm ?? 1) * (measure === 'sideways' ? (sidewaysSign ?? 1) : 1);
}

function fits(value: number, [least, most]: Range, { whole, aboveLeast }: NumberColumn): boolean {
  if (whole === true && !Number.isInteger(value)) return false;
  return (aboveLeast === true ? value > least : value >= least) && value <= most;
}

function rangeWords(column: NumberColumn, style: CellStyle): string {
  const { range, unit, whole, aboveLeast, measure } = column;
  const scale = Math.abs(shownUnit(column, style));
  // Up to two decimals and rounded inwards, so that what is named is allowed.
  const [least, most] = range.map((end) => (scale === 1 ? end : (Math.sign(end) * Math.floor(Math.abs(100 * end) / scale)) / 100));
  const text = (end: number): string => numberText(end, 3, { ...style, form: 'page' });
  const words = measure !== undefined && style.travelUnit !== undefined ? style.travelUnit.words : unit;
  const behind = words === '' ? '' : words === '°' ? '°' : ` ${words}`;
  const values = { kind: whole === true ? 'whole' : 'any', least: text(least!), most: text(most!), unit: behind };
  return aboveLeast === true ? sayRecords('numberAbove', values) : sayRecords('numberFrom', values);
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : sayRecords('or', { all: words.slice(0, -1).join(', '), last: words.at(-1)! });
}
