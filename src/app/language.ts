/** The page's language: as its address asks (`?language=de`), else as chosen in its head, else German where the browser's own language is, else English. */
import type { NoteNaming } from '../core/noteNaming';
import { type Language, isLanguage, languageNow, speak } from '../words/language';
import { sayPage } from '../words/page';

const LANGUAGE_KEY = 'rimpath.language';
const IN_ADDRESS = 'language';

/** Before anything is drawn. Where a language cannot be fetched the page stays English, and says so: the answer; null otherwise. */
export async function startLanguage(): Promise<string | null> {
  const isSpoken = await speak(chosenLanguage()).then(() => true, () => false);
  document.documentElement.lang = languageNow();
  return isSpoken ? null : sayPage('languageMissing');
}

/** Everything is put down, as when the page is left, and taken up again in the other language. */
export function changeLanguage(language: Language): void {
  try {
    globalThis.localStorage.setItem(LANGUAGE_KEY, language);
    const address = new URL(globalThis.location.href);
    address.searchParams.delete(IN_ADDRESS);
    globalThis.history.replaceState(globalThis.history.state, '', address);
  } catch {
    // Where nothing can be kept the page would come back as it is.
    return;
  }
  globalThis.location.reload();
}

/** How notes are named where the reader has chosen nothing else. */
export const usualNaming = (language: Language = languageNow()): NoteNaming => (language === 'de' ? 'german' : 'scientific');

function chosenLanguage(): Language {
  const asked = new URLSearchParams(globalThis.location.search).get(IN_ADDRESS);
  if (isLanguage(asked)) return asked;
  try {
    const kept = globalThis.localStorage.getItem(LANGUAGE_KEY);
    if (isLanguage(kept)) return kept;
  } catch {
    // Then the browser's own language decides.
  }
  return /^de\b/i.test(globalThis.navigator.language) ? 'de' : 'en';
}
