/** What the reader is told when something cannot be kept: what is the matter, and what to do. */

const SAVE_A_FILE = 'nothing is kept: save a file before you close';

export const MISSING = `This browser has no place where a page can keep things, so ${SAVE_A_FILE}.`;
export const CANNOT_KEEP = `This browser does not let the page keep anything (a private window, or a setting), so ${SAVE_A_FILE}.`;
export const NEWER_DATABASE =
  'A newer version of this program keeps players in this browser. They are left as they are; reload the page to get that version. ' +
  `Until then ${SAVE_A_FILE}.`;
export const NO_ANSWER = `The browser’s store does not answer. Close other tabs of this page and reload it; until then ${SAVE_A_FILE}.`;
export const OTHER_TAB_OLD = `An older version of this page is open in another tab. Close that tab and reload this one; until then ${SAVE_A_FILE}.`;
export const TAKEN_BY_NEWER = 'A newer version of this page was opened in another tab, so this one keeps nothing more: save a file, then reload.';
export const FULL = 'The browser’s store is full, so the last changes are not kept: save a file, then make room in the browser’s settings.';

/** `fault`: field, value and what is allowed. */
export const unreadableWords = (fault: string): string =>
  `The last changes are not kept, since they could not be read again (${fault}). Undo them, or change what is named here; what was kept before stays.`;

export function failureWords(error: unknown): string {
  const name = error instanceof Error ? error.name : '';
  if (/quota/i.test(name)) return FULL;
  return `The browser’s store has failed${name === '' ? '' : ` (${name})`}, so the last changes are not kept: save a file before you close.`;
}
