/**
 * The language in which everything is said. It is set once, before anything is drawn or worked out; English until then. A page that
 * changes it puts everything down and starts anew, so that no sentence in the old language is left standing.
 */
import type { Message, Messages } from './messageFormat';

export const LANGUAGES = ['en', 'de'] as const;
export type Language = (typeof LANGUAGES)[number];

export const isLanguage = (value: unknown): value is Language => LANGUAGES.some((one) => one === value);

/** What Intl knows a language by. English days are written the British way, 1 March 2026. */
export const LOCALES: Readonly<Record<Language, string>> = { en: 'en-GB', de: 'de' };

export const languageNow = (): Language => language;

/** Fetches what the language needs and turns to it. Rejects where its messages cannot be had; the language is then what it was. */
export async function speak(next: Language): Promise<void> {
  if (next === 'en') turnTo('en', null);
  else turnTo(next, (await import('./german')).GERMAN);
}

/** The message of an area in the language set; `english` where that is English. Throws RangeError for an area nobody translated. */
export function messageNow(area: string, key: string, english: Message): Message {
  if (translations === null) return english;
  const message = translations[area]?.[key];
  if (message === undefined) throw new RangeError(`message: ${area}.${key}; allowed: one that ${language} has too`);
  return message;
}

/** Grows with every change of language: what was made ready in an earlier one is out of date. */
export const turnNow = (): number => turn;

let language: Language = 'en';
let translations: Readonly<Record<string, Messages>> | null = null;
let turn = 0;

function turnTo(next: Language, messages: Readonly<Record<string, Messages>> | null): void {
  language = next;
  translations = messages;
  turn++;
}
