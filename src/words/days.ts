/** Days as the language set writes them; names of months and their order come from Intl. */
import { type Language, LOCALES, languageNow } from './language';

/** A day as in 2026-03-01 in words: "1 March 2026", "1. März 2026"; what is no day is given back as it is. */
export function dayWords(date: string): string {
  const [, year, month, day] = /^(\d{4})-(\d{2})-(\d{2})$/u.exec(date) ?? [];
  if (year === undefined || Number(month) < 1 || Number(month) > 12) return date;
  const language = languageNow();
  const format = (dayFormats[language] ??= new Intl.DateTimeFormat(LOCALES[language], { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' }));
  // Only the month is looked up: a day that no calendar has is shown as it was typed.
  const parts = format.formatToParts(Date.UTC(2000, Number(month) - 1, 1));
  return parts.map(({ type, value }) => (type === 'day' ? String(Number(day)) : type === 'year' ? year : value)).join('');
}

const dayFormats: Partial<Record<Language, Intl.DateTimeFormat>> = {};
