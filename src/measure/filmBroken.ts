/** A film that opened but cannot be read to its end. */
import { sayMeasure } from '../words/measure';
import { fixed } from '../words/numbers';
import { filmRefusals } from './refusals';

/** The message is for people. */
export class FilmBroken extends Error {
  /** The last place that could be read, seconds on the file's clock. */
  readonly atS: number;

  constructor(words: string, atS: number, cause: unknown) {
    super(words, { cause });
    this.name = 'FilmBroken';
    this.atS = atS;
  }
}

/** `cause`: what the reader or the decoder threw, if anything. */
export function brokenFilm(atS: number, cause?: unknown): FilmBroken {
  const isGone = cause instanceof DOMException && GONE.includes(cause.name);
  const words = isGone ? filmRefusals.unreadable().words : sayMeasure('damagedPast', { seconds: fixed(atS, 1) });
  return new FilmBroken(words, atS, cause);
}

/** A film may change the size of its pictures midway, as recorded calls do; null where this one has the film's own. */
export function changedSize(atS: number, picture: PictureSize, film: PictureSize): FilmBroken | null {
  if (picture.width === film.width && picture.height === film.height) return null;
  const { width, height } = picture;
  const words = sayMeasure('changedSize', { seconds: fixed(atS, 1), width, height, filmWidth: film.width, filmHeight: film.height });
  return new FilmBroken(words, atS, undefined);
}

interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** What a browser says of a file that was moved or changed since it was chosen. */
const GONE = ['NotReadableError', 'NotFoundError'];
