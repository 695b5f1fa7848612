/** The page that stands for itself as text: where its picture goes, and how it is put in. The build and the app share it. */

/** Beside the built app. */
export const ONE_FILE_NAME = 'rimpath-one-file.html';
/** The element that holds the picture as data. */
export const PICTURE_ELEMENT = 'shared-picture';
/** It stands before the script, so that the first place where this is found is the element itself. */
export const PICTURE_OPENING = `<script type="application/json" id="${PICTURE_ELEMENT}">`;
const CLOSING = '</script>';

/** The page with this picture in it; null for a text that is not such a page. Whatever words the picture holds, none can end the element. */
export function pageWithPicture(page: string, pictureText: string): string | null {
  const from = page.indexOf(PICTURE_OPENING);
  const to = page.indexOf(CLOSING, from);
  if (from < 0 || to < 0) return null;
  return `${page.slice(0, from + PICTURE_OPENING.length)}${pictureText.replaceAll('<', '\\u003c')}${page.slice(to)}`;
}
