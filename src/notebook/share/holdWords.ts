/** What the part on printing says. */
import type { HeldFigures } from '../../solids/heldThings';
import { counted } from '../../core/words';

export const HOLD_HEADING = 'Things to print and hold';
export const HOLD_INTRO =
  'The arch, the rim and a peg for each note as files for a 3D printer: roll a real rim over the printed arch, or put one peg after another into the tray and watch the axis move and swing.';
/** One caution, where the files are. */
export const HOLD_CAUTION =
  'This is the geometry of a model, the smooth face that is computed with: not a cast of anybody’s teeth, and nothing to put in the mouth.';
export const HOLD_NOTHING = 'There is nothing to make yet: the record cannot be computed.';
export const MAKE = 'Make them from this record';
export const MAKE_ANEW = 'The record has changed. Make them anew';
export const MAKING = 'Making what can be printed';
export const CANCEL = 'Cancel';
export const WITH_LABEL = 'put the player’s label into the files’ names';
export const FILES_NOTE =
  'STL files are for printing, in millimetres. GLB files are for looking at: they open in true size, and their corners are millimetres under a node that is scaled to glTF’s metres.';

export type HeldId = 'surface' | 'upper' | 'lower' | 'both' | 'rim' | 'pegs';

export const HELD_NAMES: Readonly<Record<HeldId, string>> = {
  surface: 'The arch',
  both: 'Both jaws as they bite',
  upper: 'Upper jaw',
  lower: 'Lower jaw',
  rim: 'Rim',
  pegs: 'Path pegs and their tray',
};

export const making = (done: number, of: number): string => `${MAKING}: ${done} of ${of}`;
export const madeWords = (count: number): string => `${counted(count, 'thing')} made. Each was checked: closed, with its outside outward.`;
export const savedAs = (fileName: string): string => `Saved as ${fileName}.`;

/** "58 × 50 × 40 mm; prints in one piece on its back, without supports; a real rim of 27 mm rolls over it." */
export function sizeWords(id: HeldId, { sizeMm, bodies }: HeldFigures, rimMm: number): string {
  const size = `${sizeMm.map((one) => Math.max(1, Math.round(one))).join(' × ')} mm`;
  switch (id) {
    case 'rim':
      return `${size}; prints in one piece on its flat back.`;
    case 'pegs':
      return `A tray and ${counted(bodies - 1, 'peg')}, ${size} side by side${sizeMm[0] > COMMON_BED_MM || sizeMm[1] > COMMON_BED_MM ? ', more than many printers hold: the printing program can lay them closer or print some at a time' : ''}; each prints standing, without supports.`;
    default:
      return `${size}; prints in one piece on its back, without supports; a real rim of ${Number(rimMm.toFixed(1))} mm rolls over it.`;
  }
}

/** How fine the triangles are. */
export function finenessWords(id: HeldId, { triangles, chordMm }: HeldFigures): string {
  const count = counted(triangles, 'triangle');
  if (chordMm === null) return `${count}.`;
  return `${count}, within ${Math.max(0.001, chordMm).toFixed(3)} mm of ${id === 'rim' ? 'the rim’s own contour' : 'the computed face where a rim can be'}.`;
}

/** What stands on the pegs; where they carry numbers, what each number is. */
export function pegWords(raised: readonly string[], names: readonly string[], leftOut: number): string {
  const numbered = raised.every((one, place) => one === String(place + 1));
  const key = numbered ? names.map((name, place) => `${place + 1} is ${name}`).join(', ') : names.join(', ');
  const rest = leftOut === 0 ? '' : ` ${counted(leftOut, 'note')} between them left out.`;
  return `Raised on the feet: ${key}.${rest} A rod leans as the horn does in the picture, and stands on its foot where the rim’s centre stands, counted from home.`;
}

export const COMMON_BED_MM = 200;
