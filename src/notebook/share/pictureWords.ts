/** The sentences of the part on pictures and films that are made from numbers, and what is written into them. */
import type { HornAngles } from '../../core/analysis';
import { type Posture, swingClause } from '../../print/instrumentWords';
import { sayPictures } from '../../words/pictures';
import { travelStatement } from '../sentence';

export const filmFormatName = (container: 'mp4' | 'webm', silent: boolean): string =>
  sayPictures('format', { container: container === 'mp4' ? 'MP4' : 'WebM', silent: silent ? 'yes' : 'no' });

/** "Making the film: 40 %, about 2 minutes left". */
export function filmProgress(part: number, secondsLeft: number | null): string {
  const percent = Math.floor(part * 100);
  if (secondsLeft === null) return sayPictures('filmProgress', { percent, left: 'unknown', amount: 0 });
  const inSeconds = secondsLeft < 90;
  return sayPictures('filmProgress', {
    percent,
    left: inSeconds ? 'seconds' : 'minutes',
    amount: inSeconds ? Math.max(1, Math.round(secondsLeft)) : Math.round(secondsLeft / 60),
  });
}

/** Below a picture: where the rim is, and what the horn does. */
export function captionWords(note: string, travel: { readonly upMm: number; readonly rightMm: number }, change: HornAngles, posture: Posture, held: boolean): string {
  return sayPictures('caption', { travel: travelStatement({ note, travel }), held: held ? 'yes' : 'no', swing: swingClause(posture, change, 'after') });
}
