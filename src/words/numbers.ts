/** Numbers as the language set writes them; the signs come from Intl. */
import { type Language, LOCALES, languageNow } from './language';

/** Always `places` decimals, rounded as toFixed does: 3.0, in German 3,0. */
export const fixed = (value: number, places: number): string => withSigns(value.toFixed(places));

/** Every digit that the number has: 0.25, in German 0,25. */
export const saidNumber = (value: number): string => withSigns(String(value));

/** A whole number with its thousands set apart: 72,000, in German 72.000. */
export function grouped(count: number): string {
  const language = languageNow();
  return (wholeFormats[language] ??= new Intl.NumberFormat(LOCALES[language], { maximumFractionDigits: 0 })).format(count);
}

/** What stands between whole and part: "." or ",". */
export function decimalSign(): string {
  const language = languageNow();
  return (decimalSigns[language] ??= new Intl.NumberFormat(LOCALES[language]).formatToParts(1.5).find(({ type }) => type === 'decimal')?.value ?? '.');
}

const decimalSigns: Partial<Record<Language, string>> = {};

const wholeFormats: Partial<Record<Language, Intl.NumberFormat>> = {};

/** English keeps the hyphen where a sentence has not asked for a minus sign; there each place chooses for itself. */
function withSigns(text: string): string {
  return languageNow() === 'en' ? text : text.replace('-', '\u2212').replace('.', decimalSign());
}
