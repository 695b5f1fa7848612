/** Names in a row as the language set joins them: "a, b and c", "a, b und c". */
import { type Language, LOCALES, languageNow } from './language';

export function listWords(names: readonly string[]): string {
  const language = languageNow();
  return (formats[language] ??= new Intl.ListFormat(LOCALES[language], { type: 'conjunction' })).format(names);
}

const formats: Partial<Record<Language, Intl.ListFormat>> = {};
