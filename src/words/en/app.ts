/** The page's head, what stands over the whole page, and doors to what is fetched when it is opened. */
export const APP = {
  language: 'Language',
  measureChapter: 'From pictures and film',
  ownArch: 'Own arch: with a ruler, or from a bite print',
  scan: 'Own arch: from a scan',
  coming: 'Coming …',

  notShown: 'Not shown',
  close: 'Close',

  withoutNetwork: 'Without a network',
  putBy: 'This page is put by in this browser: it opens and works here without a network.',
  notPutBy: 'This page is not put by in this browser: without a network it does not open. Where browsers can put pages by, that is done a moment after the first visit.',
  needsNoNetwork: 'This page was opened from a disk, and needs no network.',
  install: 'Install it as an app…',
  installWhat: 'Installed, it has an icon and a window of its own. It is the same page, with the same players.',

  partMissing: 'This part cannot be shown: it could not be fetched, or it broke off. What you entered is kept; load the page again when it suits you.',
  readerMissing: 'What reads links could not be fetched. Load the page again where there is a network. Nothing of yours has been changed.',
} as const;
