/** Numbers and words in cells: decimal comma or point, any minus sign, a unit behind, several words for one thing. */

/** In the page: rounded, with a true minus sign. In a file: every digit and the signs that other programs read. */
export type CellForm = 'page' | 'file';

export interface NumberStyle {
  readonly form: CellForm;
  readonly decimal: 'point' | 'comma';
}

const NUMBER = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d{1,3})?$/i;
/** Longer than any number that is shown or written; the pattern need not look at more. */
const LONGEST_NUMBER = 60;

/** The number in a text; null where it is none. Either decimal sign is taken; `unit` (mm, °) may stand behind. */
export function numberIn(text: string, unit = ''): number | null {
  const tidy = withoutUnit(tidyNumber(text), unit);
  return tidy.length <= LONGEST_NUMBER && NUMBER.test(tidy) ? Number(tidy.replace(',', '.')) : null;
}

/** A part of a whole, as 0.6 or 60 %. */
export function shareIn(text: string): number | null {
  const tidy = tidyNumber(text);
  const value = numberIn(tidy.endsWith('%') ? tidy.slice(0, -1) : tidy);
  return value !== null && tidy.endsWith('%') ? value / 100 : value;
}

export function numberText(value: number, places: number, { form, decimal }: NumberStyle): string {
  const number = form === 'page' ? Number(value.toFixed(places)) : value;
  const text = String(number === 0 ? 0 : number);
  const signed = form === 'page' ? text.replace('-', '\u2212') : text;
  return decimal === 'comma' ? signed.replace('.', ',') : signed;
}

/** For comparing words as people write them: small letters and digits only. */
export function plainWords(text: string): string {
  return text.normalize('NFKC').toLowerCase().replace(/[^\p{L}\p{N}]+/gu, ' ').trim();
}

function tidyNumber(text: string): string {
  return text.replace(/[\u2212\u2013]/g, '-').replace(/\s+/g, '');
}

function withoutUnit(text: string, unit: string): string {
  const spellings = unit === '°' ? ['°', 'deg', 'degrees'] : unit === 'N' ? ['N'] : unit === '' ? [] : [unit];
  const found = spellings.find((spelling) => text.toLowerCase().endsWith(spelling.toLowerCase()));
  return found === undefined ? text : text.slice(0, -found.length);
}
