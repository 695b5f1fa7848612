/** How columns of notes, numbers, shares, words and remarks are read and shown. */
import { NOTE_NAMES_ALLOWED, namedNote, noteNamed } from '../core/noteNaming';
import type { ReadingSpec } from '../core/specs';
import { numberIn, numberText, plainWords, shareIn } from './cellText';
import type { CellReading, CellStyle, ReadingColumn } from './readingCell';
import { withValue } from './readingParts';
import { LONGEST_REMARK, SHARE } from './readingRanges';

type Range = readonly [least: number, most: number];

interface NumberColumn extends Pick<ReadingColumn, 'id' | 'header' | 'label' | 'group' | 'unit' | 'synonyms'> {
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
  const { id, header, label, group, unit, synonyms, range, places } = column;
  return {
    ...{ id, header, label, group, unit, synonyms, kind: 'number', choices: [] },
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
const SHARE_ALLOWED = 'a number above 0 and below 1 such as 0.6, or a percentage such as 60 %';

export function shareColumn(column: Pick<NumberColumn, 'id' | 'header' | 'label' | 'synonyms' | 'get' | 'set'>): ReadingColumn {
  const { id, header, label, synonyms } = column;
  return {
    ...{ id, header, label, synonyms, group: null, unit: '', kind: 'number', choices: [] },
    allowed: () => SHARE_ALLOWED,
    show: (reading, style) => {
      const value = column.get(reading);
      return value === undefined ? '' : numberText(value, SHARE_PLACES, style);
    },
    read: (text) => {
      if (text.trim() === '') return { kind: 'value', value: null };
      const value = shareIn(text);
      return value !== null && value > SHARE[0] && value < SHARE[1] ? { kind: 'value', value } : { kind: 'wrong', allowed: SHARE_ALLOWED };
    },
    refuses: () => null,
    set: (reading, value) => column.set(reading, typeof value === 'number' ? value : null),
  };
}

interface ChoiceColumn extends Pick<ReadingColumn, 'id' | 'header' | 'label' | 'synonyms'> {
  /** For each kept value its word, and after it what else is understood. */
  readonly words: Readonly<Record<string, readonly string[]>>;
  get(reading: ReadingSpec): string | undefined;
  set(reading: ReadingSpec, value: string | null): ReadingSpec;
}

export function choiceColumn(column: ChoiceColumn): ReadingColumn {
  const { id, header, label, synonyms, words } = column;
  const choices = Object.entries(words).map(([value, [word]]) => ({ value, word: word ?? value }));
  const allowed = listed(choices.map(({ word }) => word));
  const understood = new Map(Object.entries(words).flatMap(([value, known]) => known.map((word) => [word, value] as const)));
  const read = (text: string): CellReading => {
    if (text.trim() === '') return { kind: 'value', value: null };
    const value = understood.get(plainWords(text));
    return value === undefined ? { kind: 'wrong', allowed } : { kind: 'value', value };
  };
  return {
    ...{ id, header, label, synonyms, group: null, unit: '', kind: 'choice', choices },
    allowed: () => allowed,
    show: (reading) => choices.find(({ value }) => value === column.get(reading))?.word ?? '',
    read,
    refuses: () => null,
    set: (reading, value) => column.set(reading, typeof value === 'string' ? value : null),
  };
}

export function noteColumn(): ReadingColumn {
  return {
    ...{ id: 'note', header: 'Note', label: 'note', group: null, unit: '', kind: 'note', choices: [] },
    synonyms: ['pitch', 'tone', 'note name'],
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
  const allowed = `a text of up to ${LONGEST_REMARK} characters`;
  return {
    ...{ id: 'remark', header: 'Remark', label: 'remark', group: null, unit: '', kind: 'text', choices: [] },
    synonyms: ['remarks', 'comment', 'comments'],
    allowed: () => allowed,
    show: (reading) => reading.remark ?? '',
    read: (text) => (text.length > LONGEST_REMARK ? { kind: 'wrong', allowed } : { kind: 'value', value: text === '' ? null : text }),
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
  const kind = whole === true ? 'a whole number' : 'a number';
  return aboveLeast === true ? `${kind} above ${text(least!)}, up to ${text(most!)}${behind}` : `${kind} from ${text(least!)} to ${text(most!)}${behind}`;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)!}`;
}
