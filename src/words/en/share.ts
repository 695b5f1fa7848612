/** A link and its code, and one file; fetched with the chapter on sharing. */
export const SHARE = {
  linkHeading: 'A link and its code',
  fileHeading: 'One file',

  // What goes along.
  howMuch: 'How much of it',
  'extent-lesson': 'the whole lesson',
  'extent-readings': 'without try-outs',
  'extent-note': 'the chosen note and home',
  alongWithIt: 'Along with it, if you tick it',
  labelAndDay: 'label and day',
  remarks: 'remarks and what to try',
  measurings: 'what was measured from films and pictures ({count}), without the films',
  goes:
    'Goes along: teeth, lips, rim and force; {extent, select, note {the chosen note and home} other {{readings, plural, one {{readings} reading} other {{readings} readings}}}}{tryOuts, plural, =0 {} one { and {tryOuts} try-out} other { and {tryOuts} try-outs}}; the picture as it is looked at now.',
  stays:
    '{label, select, stays {No label, no day{remarks, select, stays {, no remarks} other {}}{measured, select, stays {, nothing measured from films} other {}}.} other {{remarks, select, stays {No remarks{measured, select, stays {, nothing measured from films} other {}}.} other {{measured, select, stays {Nothing measured from films.} other {}}}}}}',

  // The link.
  linkIs:
    'The link is the picture: all of it stands behind the #, which browsers send to nobody. Whoever opens it sees the picture on a page like this one.',
  link: 'The link',
  copy: 'Copy the link',
  copied: 'The link is copied.',
  notCopied: 'The browser does not let the page copy. The link is marked in its field: copy it from there.',
  handOn: 'Hand it to another program…',
  noAddress:
    'This page was opened from a disk, so it has no address of its own and there is no link to it. Give one file instead: it is made below.',
  linkRefused: 'There is no link while the record cannot be read again: {why}.',
  length: '{characters} characters.',
  linkTooLong:
    'With all this in it the link would have {characters} characters. Programs for mail and messages may cut a link, so none is made above {most}. Leave something out, or give one file: it is made below.',
  shorter: 'A shorter one:',
  withoutTicked: 'Leave out what is ticked',
  withoutTryOuts: 'Leave out the try-outs',
  onlyNote: 'Only the chosen note and home',

  // Its code.
  code: 'QR code of the link, {squares} squares a side',
  codeTooLong: 'This link is too long for a code.',
  codeTooFine: 'A code of this link would have {squares} squares a side, too fine to be read across a room; up to {most} can be.',
  large: 'Show the code large',
  largeCode: 'The code of the link',
  pointCamera: 'Point a phone’s camera at the code: the picture opens in its browser.',
  close: 'Close',

  // One file.
  fileIs:
    'One file is the whole page with this picture in it. It opens from a disk or from a message, without a network and without an installation.',
  saveFile: 'Save as one file',
  fileMaking: 'The file is being made…',
  fileMade: 'The file is among your downloads.',
  fileFailed: 'The file could not be made: {why}.',
  fileLeavesOut:
    '{here, select, yes {This page is such a file itself; another can be saved from it. } other {}}Measuring from pictures and film is left out of it, to keep it small. The file itself never changes. What somebody keeps while it is open stays in their own browser, which may hold it for all pages from a disk together; where a browser keeps nothing for such pages, the page says so.',
  notFetched: 'the page for it could not be fetched from where this page came from',
  notThere: 'where this page came from there is no page for it',
  // In the file's name where it has no label.
  picture: 'picture',
} as const;
