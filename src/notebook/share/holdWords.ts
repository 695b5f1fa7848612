/** The sentences of the part on printing that are made from numbers. */
import type { HeldFigures } from '../../solids/heldThings';
import { sayHold } from '../../words/hold';
import { fixed, saidNumber } from '../../words/numbers';

export type HeldId = 'surface' | 'upper' | 'lower' | 'both' | 'rim' | 'pegs';

/** "58 × 50 × 40 mm; prints in one piece on its back, without supports; a real rim of 27 mm rolls over it." */
export function sizeWords(id: HeldId, { sizeMm, bodies }: HeldFigures, rimMm: number): string {
  const size = sizeMm.map((one) => Math.max(1, Math.round(one))).join(' × ');
  switch (id) {
    case 'rim':
      return sayHold('rimSize', { size });
    case 'pegs':
      return sayHold('pegsSize', { pegs: bodies - 1, size, large: sizeMm[0] > COMMON_BED_MM || sizeMm[1] > COMMON_BED_MM ? 'yes' : 'no' });
    default:
      return sayHold('archSize', { size, rim: saidNumber(Number(rimMm.toFixed(1))) });
  }
}

/** How fine the triangles are. */
export function finenessWords(id: HeldId, { triangles: count, chordMm }: HeldFigures): string {
  if (chordMm === null) return sayHold('triangles', { count });
  const chord = fixed(Math.max(0.001, chordMm), 3);
  return id === 'rim' ? sayHold('rimFine', { count, chord }) : sayHold('archFine', { count, chord });
}

/** What stands on the pegs; where they carry numbers, what each number is. */
export function pegWords(raised: readonly string[], names: readonly string[], leftOut: number): string {
  const numbered = raised.every((one, place) => one === String(place + 1));
  const key = numbered ? names.map((name, place) => sayHold('numberIs', { number: place + 1, name })).join(', ') : names.join(', ');
  return sayHold('pegsAre', { key, leftOut });
}

const COMMON_BED_MM = 200;
