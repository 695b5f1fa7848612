/** One file, as it was before anything was drawn into it: what another is saved from. */
import { PICTURE_ELEMENT } from './oneFilePage';

/** The picture's text in one file; null where the page is the app on a server. */
export const embeddedPicture: string | null = globalThis.document?.getElementById(PICTURE_ELEMENT)?.textContent ?? null;

/** Read while the page's scripts begin, before the first drawing; null where the page is the app on a server. */
export const ownPage: string | null = embeddedPicture === null ? null : `<!doctype html>\n${document.documentElement.outerHTML}\n`;
