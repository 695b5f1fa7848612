/** Days as the language set writes them; names of months and their order come from Intl. */
import { type Language, LOCALES, languageNow } from './language';

/** A day as in 2026-03-01 in words: "1 March 2026", "1. März 2026"; what is no day is given back as it is. */
export const dayWords = (date: string): string => dayIn(date, 'long');

/** The same where room is short: "1 Dec 2026", "1. Dez. 2026". */
export const shortDayWords = (date: string): string => dayIn(date, 'short');

function dayIn(date: string, month: Months): string {
  const [, year, number, day] = /^(\d{4})-(\d{2})-(\d{2})$/u.exec(date) ?? [];
  if (year === undefined || Number(number) < 1 || Number(number) > 12) return date;
  // Only the month is looked up: a day that no calendar has is shown as it was typed.
  const parts = dayFormat(month).formatToParts(Date.UTC(2000, Number(number) - 1, 1));
  return parts.map(({ type, value }) => (type === 'day' ? String(Number(day)) : type === 'year' ? year : value)).join('');
}

type Months = 'long' | 'short';
const dayFormats: Partial<Record<`${Language} ${Months}`, Intl.DateTimeFormat>> = {};

function dayFormat(month: Months): Intl.DateTimeFormat {
  const language = languageNow();
  return (dayFormats[`${language} ${month}`] ??= new Intl.DateTimeFormat(LOCALES[language], { day: 'numeric', month, year: 'numeric', timeZone: 'UTC' }));
}
