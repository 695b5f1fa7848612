/** A film that opened but cannot be read to its end. */
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
  const damaged = `The film cannot be read past ${atS.toFixed(1)} s: it is damaged there. Copy it from the phone again, or cut it before that place.`;
  return new FilmBroken(isGone ? filmRefusals.unreadable().words : damaged, atS, cause);
}

/** A film may change the size of its pictures midway, as recorded calls do; null where this one has the film's own. */
export function changedSize(atS: number, picture: PictureSize, film: PictureSize): FilmBroken | null {
  if (picture.width === film.width && picture.height === film.height) return null;
  const words = `From ${atS.toFixed(1)} s on the film’s pictures have another size (${picture.width} × ${picture.height} px instead of ${film.width} × ${film.height}): marks cannot be followed from one to the other. Cut the film there, and measure one part.`;
  return new FilmBroken(words, atS, undefined);
}

interface PictureSize {
  readonly width: number;
  readonly height: number;
}

/** What a browser says of a file that was moved or changed since it was chosen. */
const GONE = ['NotReadableError', 'NotFoundError'];
