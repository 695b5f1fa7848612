/** Numbers as people type and read them: decimal comma or point, a true minus sign, a fixed number of places. */
import { NINETY_FIVE_PERCENT } from '../core/bands';
import { sayNotebook } from '../words/notebook';
import { decimalSign } from '../words/numbers';

export type NumberReading =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'empty' }
  | { readonly kind: 'wrong'; readonly words: string };

export interface NumberRange {
  readonly min: number;
  readonly max: number;
  /** Unit as shown beside the field, e.g. "mm"; empty for a bare number. */
  readonly unit: string;
  /** True when `min` itself is not allowed (a force of exactly 0 N). */
  readonly aboveMin?: boolean | undefined;
}

const NUMBER = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/;

/** Reads what was typed. `wrong` carries a sentence with the value and what is allowed. */
export function readNumber(text: string, range: NumberRange): NumberReading {
  const tidy = text.trim().replace(/[\u2212\u2013]/g, '-').replace(/\s+/g, '');
  if (tidy === '') return { kind: 'empty' };
  if (!NUMBER.test(tidy)) {
    return { kind: 'wrong', words: sayNotebook('notANumber', { text: text.trim(), range: rangeWords(range) }) };
  }
  const value = Number(tidy.replace(',', '.'));
  const tooLow = range.aboveMin === true ? value <= range.min : value < range.min;
  if (tooLow || value > range.max) {
    return { kind: 'wrong', words: sayNotebook('outOfRange', { value: formatNumber(value), range: rangeWords(range) }) };
  }
  return { kind: 'number', value };
}

/** A number one step on, held within its range; of none the start itself, or a step from 0. Null where the range has no such number. */
export function steppedNumber(value: number | null, by: number, range: NumberRange, start?: number): number | null {
  const moved = value === null && start !== undefined ? start : (value ?? 0) + by;
  const next = Math.min(range.max, Math.max(range.min, Number(moved.toFixed(6))));
  return range.aboveMin === true && next <= range.min ? null : next;
}

/** "from −30 to 30 mm", "above 0, up to 200 N". */
export function rangeWords(range: NumberRange): string {
  const unit = range.unit === '' ? '' : unitAfterNumber(range.unit);
  return sayNotebook(range.aboveMin === true ? 'rangeAbove' : 'rangeFrom', { min: formatNumber(range.min), max: formatNumber(range.max), unit });
}

/** "°" stands against its number, other units after a space that does not break. */
export const unitAfterNumber = (unit: string): string => (unit === '°' ? unit : `\u00a0${unit}`);

/** Shortest text with at most `places` decimals and a true minus sign: 3, 3.1, −0.25. Never "−0". */
export function formatNumber(value: number, places = 6): string {
  const rounded = Number(value.toFixed(places));
  return withSigns(String(rounded === 0 ? 0 : rounded));
}

/** Always `places` decimals, for columns of figures: 3.0, −1.2. Never "−0.0". */
export function formatFixed(value: number, places: number): string {
  const text = value.toFixed(places);
  return withSigns(Number(text) === 0 ? text.replace('-', '') : text);
}

const withSigns = (text: string): string => text.replace('-', '\u2212').replace('.', decimalSign());

/** Half of the interval that holds 95 in 100, of one deviation: no measured number is told as exact, so what would be rounded to nothing is told as the smallest step. */
export function formatBand(sd: number, places: number): string {
  const band = sd * NINETY_FIVE_PERCENT;
  return formatFixed(band > 0 ? Math.max(band, 10 ** -places) : band, places);
}
