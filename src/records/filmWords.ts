/** What the reader is told when a film cannot be kept or found: marks and readings are kept with the player, whatever becomes of the film. */
import type { WhyNotOpened } from './connection';

const STAYS = 'Marks and readings are kept all the same; keep the file where you can open it again.';

export const NO_FILM_STORE = `This browser has no place where a page can keep films. ${STAYS}`;
export const FILMS_FULL = `There is not enough room in the browser’s store for this film, so it is not kept. Forget other films, or make room in the browser’s settings. ${STAYS}`;

export const FILMS_NOT_OPENED: Readonly<Record<WhyNotOpened, string>> = {
  refused: `This browser does not let the page keep films (a private window, or a setting). ${STAYS}`,
  full: FILMS_FULL,
  newer: `A newer version of this program keeps films in this browser. They are left as they are; reload the page to get that version. ${STAYS}`,
  silent: `The browser’s store of films does not answer. Close other tabs of this page and try again. ${STAYS}`,
  'other-tab': `An older version of this page is open in another tab. Close that tab and try again. ${STAYS}`,
};

export function filmFailureWords(error: unknown): string {
  const name = error instanceof Error ? error.name : '';
  if (/quota/i.test(name)) return FILMS_FULL;
  if (/^(?:NotReadable|NotFound|DataClone)Error$/.test(name)) return `The film could not be read, so it is not kept. Choose the file again. ${STAYS}`;
  return `The browser’s store of films has failed${name === '' ? '' : ` (${name})`}. ${STAYS}`;
}
