/** What the part on pictures and films says, and what is written into them. */
import type { HornAngles } from '../../core/analysis';
import type { Posture } from '../../print/instrumentWords';
import { swingClause } from '../../print/instrumentWords';
import { travelStatement } from '../sentence';

export const PICTURES_HEADING = 'Pictures and moving pictures';
export const PICTURES_NOTHING = 'There is no picture yet: the record cannot be computed.';
export const SHOWN = 'What is shown';
export const SHOWN_STAGE = 'the stage as it is seen now';
export const SHOWN_FLAT = 'the flat drawing, from the side and the front';
export const WIDTH = 'Width of a PNG';
export const SAVE_PNG = 'Save as PNG';
export const SAVE_SVG = 'Save as SVG';
export const SVG_NOTE = 'An SVG is always the flat drawing: lines and words that a drawing program can change. The picture in the round is saved as a PNG.';
export const FILM_HEADING = 'A film of the path';
export const FILM_NOTE = 'Every frame is computed for its own moment, so nothing stutters: thirty in a second, with the note, its travel and its swing written below.';
export const FILM_SIZE = 'Size';
export const FILM_FORMAT = 'File';
export const WAY = 'The path';
export const THERE = 'from the lowest note to the highest';
export const THERE_AND_BACK = 'and back again';
export const WITH_SOUND = 'with the sound of the notes';
export const MAKE_FILM = 'Make the film';
export const SAVE_SOUND = 'Save the sound alone (WAV)';
export const FILMING = 'Making the film';
export const CANCEL = 'Cancel';
export const WITH_LABEL = 'write the player’s label into pictures and files’ names';
export const SLOW_STAGE = 'This browser draws without a graphics card: a film of the stage takes many minutes here. One of the flat drawing is made quickly.';
export const ONE_NOTE = 'A film needs a path: measure the travel of two notes or more.';
export const NO_ENCODER = 'This browser has nothing that writes films, so none can be made here. Pictures and the sound can be saved all the same.';
export const NO_FILM_SOUND = 'This browser has no encoder for the sound of such a film: it will be silent. The sound alone can be saved.';
export const CALLED_OFF = 'The film was called off; nothing was saved.';
export const WORKING = 'Drawing the picture…';

export const filmFormatName = (container: 'mp4' | 'webm', silent: boolean): string => `${container === 'mp4' ? 'MP4' : 'WebM'}${silent ? ', silent' : ''}`;
export const savedAs = (fileName: string): string => `Saved as ${fileName}.`;
export const notMade = (fileName: string): string => `${fileName} could not be made in this browser.`;

/** "Making the film: 40 %, about 2 minutes left". */
export function filmProgress(part: number, secondsLeft: number | null): string {
  const percent = `${FILMING}: ${Math.floor(part * 100)}\u00a0%`;
  if (secondsLeft === null) return percent;
  return secondsLeft < 90 ? `${percent}, about ${Math.max(1, Math.round(secondsLeft))} s left` : `${percent}, about ${Math.round(secondsLeft / 60)} minutes left`;
}

/** Below a picture: where the rim is, and what the horn does. */
export function captionWords(note: string, travel: { readonly upMm: number; readonly rightMm: number }, change: HornAngles, posture: Posture, held: boolean): string {
  const swing = swingClause(posture, change);
  return `${travelStatement({ note, travel })} ${held ? 'Held still; where the horn follows' : 'From the horn angle at home'}, ${swing}.`;
}
