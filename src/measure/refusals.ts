/** Why a film or a picture cannot be used, in a sentence that says what to do. */
import { sayMeasure } from '../words/measure';
import { fixed, grouped } from '../words/numbers';

export type RefusalReason =
  | 'empty' // 0 bytes
  | 'unreadable' // gone or changed since it was chosen
  | 'text'
  | 'sound-only'
  | 'other-kind' // a picture dropped as a film, a film dropped as a picture, or anything else
  | 'no-frames'
  | 'cut-short' // its end is missing
  | 'damaged'
  | 'codec' // this browser has no decoder for it
  | 'too-large'
  | 'too-long'
  | 'old-browser';

export interface Refused {
  readonly kind: 'refused';
  readonly reason: RefusalReason;
  readonly words: string;
}

export const filmRefusals = {
  empty: () => refused('empty', sayMeasure('filmEmpty')),
  unreadable: () => refused('unreadable', sayMeasure('unreadable')),
  text: (name: string) => refused('text', sayMeasure('filmText', { file: named(name) })),
  picture: (name: string) => refused('other-kind', sayMeasure('pictureAsFilm', { file: named(name) })),
  otherKind: (name: string) => refused('other-kind', sayMeasure('filmOtherKind', { file: named(name) })),
  soundOnly: (name: string) => refused('sound-only', sayMeasure('soundOnly', { file: named(name) })),
  noFrames: () => refused('no-frames', sayMeasure('noFrames')),
  cutShort: () => refused('cut-short', sayMeasure('filmCutShort')),
  damaged: () => refused('damaged', sayMeasure('filmDamaged')),
  codec: (codecWords: string) => refused('codec', sayMeasure('filmCodec', { codec: codecWords })),
  tooLarge: (width: number, height: number, mostPixels: number) =>
    refused('too-large', sayMeasure('filmTooLarge', { width, height, most: millions(mostPixels) })),
  tooLong: (durationS: number, mostS: number) =>
    refused('too-long', sayMeasure('filmTooLong', { duration: inMinutes(durationS), most: inMinutes(mostS) })),
  tooManyFrames: (count: number, most: number) =>
    refused('too-long', sayMeasure('tooManyFrames', { count: grouped(count), most: grouped(most) })),
  oldBrowser: () => refused('old-browser', sayMeasure('oldBrowser')),
} as const;

export const stillRefusals = {
  empty: () => refused('empty', sayMeasure('stillEmpty')),
  unreadable: () => refused('unreadable', sayMeasure('unreadable')),
  notFetched: () => refused('unreadable', sayMeasure('stillNotFetched')),
  text: (name: string) => refused('text', sayMeasure('stillText', { file: named(name) })),
  film: (name: string) => refused('other-kind', sayMeasure('filmAsPicture', { file: named(name) })),
  otherKind: (name: string) => refused('other-kind', sayMeasure('stillOtherKind', { file: named(name) })),
  cutShort: () => refused('cut-short', sayMeasure('stillCutShort')),
  damaged: () => refused('damaged', sayMeasure('stillDamaged')),
  codec: (codecWords: string) => refused('codec', sayMeasure('stillCodec', { codec: codecWords })),
  tooLarge: (width: number, height: number, mostPixels: number) =>
    refused('too-large', sayMeasure('stillTooLarge', { width, height, most: millions(mostPixels) })),
} as const;

function refused(reason: RefusalReason, words: string): Refused {
  return { kind: 'refused', reason, words };
}

/** How much of a file's name is repeated. */
const NAME_CHARACTERS = 60;

function named(name: string): string {
  const plain = name.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim();
  if (plain === '') return sayMeasure('theFile');
  return sayMeasure('namedFile', { name: plain.length > NAME_CHARACTERS ? `${plain.slice(0, NAME_CHARACTERS)}…` : plain });
}

const millions = (count: number): string => fixed(count / 1e6, count < 1e7 ? 1 : 0);

function inMinutes(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  if (minutes < 120) return sayMeasure('minutes', { count: minutes });
  return sayMeasure('hours', { hours: Math.floor(minutes / 60), minutes: minutes % 60 });
}
