/** What the chapter on sharing says. */
import { counted } from '../../core/words';
import { ROOM_VERSION } from '../../print/linkCode';
import { LONGEST_LINK } from '../../records/pictureLink';
import type { ShareExtent } from '../../records/sharedPicture';
import type { WhatGoesProps } from './props';

export const CHAPTER_HEADING = 'Share, show and hold';
export const LINK_HEADING = 'A link and its code';
export const FILE_HEADING = 'One file';

const EXTENTS: readonly ShareExtent[] = ['lesson', 'readings', 'note'];
const EXTENT_NAMES: Readonly<Record<ShareExtent, string>> = { lesson: 'the whole lesson', readings: 'without try-outs', note: 'the chosen note and home' };

export const WHAT_GOES_WORDS = {
  legend: 'How much of it',
  extents: EXTENTS.map((value) => ({ value, label: EXTENT_NAMES[value] })),
  ticksLegend: 'Along with it, if you tick it',
  label: 'label and day',
  remarks: 'remarks and what to try',
  measurings: (count: number): string => `what was measured from films and pictures (${count}), without the films`,
} as const;

/** "Teeth, lips, rim and force; 8 readings and 1 try-out; the picture as it is looked at now. No label, no day, no remarks." */
export function whatGoesWords({ choice: { extent, ticks }, readings, tryOuts, measurings }: Omit<WhatGoesProps, 'onExtent' | 'onTicks'>): string {
  const seen = extent === 'note' ? 'the chosen note and home' : counted(readings, 'reading');
  const tried = extent === 'lesson' && tryOuts > 0 ? ` and ${counted(tryOuts, 'try-out')}` : '';
  const stays = [
    ...(ticks.label ? [] : ['no label, no day']),
    ...(ticks.remarks ? [] : ['no remarks']),
    ...(ticks.measurings || measurings === 0 ? [] : ['nothing measured from films']),
  ].join(', ');
  const left = stays === '' ? '' : ` ${stays.slice(0, 1).toUpperCase()}${stays.slice(1)}.`;
  return `Goes along: teeth, lips, rim and force; ${seen}${tried}; the picture as it is looked at now.${left}`;
}

export const LINK_WORDS = {
  what: 'The link is the picture: all of it stands behind the #, which browsers send to nobody. Whoever opens it sees the picture on a page like this one.',
  field: 'The link',
  copy: 'Copy the link',
  copied: 'The link is copied.',
  notCopied: 'The browser does not let the page copy. The link is marked in its field: copy it from there.',
  handOn: 'Hand it to another program…',
  large: 'Show the code large',
  noAddress: 'This page was opened from a disk, so it has no address of its own and there is no link to it. Give one file instead: it is made below.',
  shorter: 'A shorter one:',
  withoutTicked: 'Leave out what is ticked',
  withoutTryOuts: 'Leave out the try-outs',
  onlyNote: 'Only the chosen note and home',
  refused: (message: string): string => `There is no link while the record cannot be read again: ${message}.`,
} as const;

export const lengthWords = (characters: number): string => `${grouped(characters)} characters.`;

export const linkTooLongWords = (characters: number): string =>
  `With all this in it the link would have ${grouped(characters)} characters. Programs for mail and messages may cut a link, so none is made above ${grouped(LONGEST_LINK)}. Leave something out, or give one file: it is made below.`;

export const codeTooLongWords = (squaresASide: number | null): string =>
  squaresASide === null
    ? 'This link is too long for a code.'
    : `A code of this link would have ${squaresASide} squares a side, too fine to be read across a room; up to ${17 + 4 * ROOM_VERSION} can be.`;

export const codeLabel = (squaresASide: number): string => `QR code of the link, ${squaresASide} squares a side`;

export const LARGE_CODE_WORDS = {
  region: 'The code of the link',
  what: 'Point a phone’s camera at the code: the picture opens in its browser.',
  close: 'Close',
} as const;

export const FILE_WORDS = {
  what: 'One file is the whole page with this picture in it. It opens from a disk or from a message, without a network and without an installation.',
  leftOut: 'Measuring from pictures and film is left out of it, to keep it small.',
  keeps: 'The file itself never changes. What somebody keeps while it is open stays in their own browser, which may hold it for all pages from a disk together; where a browser keeps nothing for such pages, the page says so.',
  save: 'Save as one file',
  making: 'The file is being made…',
  made: 'The file is among your downloads.',
  failed: (why: string): string => `The file could not be made: ${why}.`,
  isOneFile: 'This page is such a file itself; another can be saved from it.',
  notFetched: 'the page for it could not be fetched from where this page came from',
  notThere: 'where this page came from there is no page for it',
} as const;

/** 12 345 with a narrow space that does not break. */
const grouped = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, '\u202f');
