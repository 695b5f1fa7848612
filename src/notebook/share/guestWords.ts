/** What is said while something shared is on the page; apart from the chapter’s own words, which are fetched late. */

/** In the list of players, where the picture came without a label. */
export const UNNAMED_GUEST = 'Shared picture';

export const GUEST_WORDS = {
  region: 'Shared with you',
  shown: 'Shared with you. Nothing of it is kept here; your own players are as they were.',
  aside: 'The shared picture has been put aside until this page is closed.',
  shownFile: 'This file holds a picture that was saved for you. The file never changes: what you keep of it stays in this browser.',
  shownFileNowhere: 'This file holds a picture that was saved for you. The browser keeps nothing for it: what you change is gone when it is closed, unless you save a file.',
  keep: 'Keep as my own',
  back: 'Back to my own',
  putAside: 'Put it aside',
  again: 'Show it again',
} as const;

/** In the place of that chapter. */
export const MEASURING_LEFT_OUT = 'This page is one file, and measuring from pictures and film is left out of it to keep it small. The app has it.';
