/** While a note is held the rim rests on the head: which frames belong to which rest, and how far the rim stirs about it. */
import type { Vec3 } from '../core/vector';
import type { FrameSeen } from './frameEquations';
import type { Bundle } from './headBundle';
import { median } from './median';

export interface Stir {
  readonly sdMm: number;
  readonly alike: number;
}

/** How far the rim stirs about its rest while a note is held, mm, and how like it stirs from one chosen frame to the next: until the film tells. */
export const FIRST_STIR: Stir = { sdMm: 0.15, alike: 0.7 };
/** In the fit no stir counts as less than this, mm: a rest that is believed too firmly draws the whole head after it. */
const LEAST_STIR_MM = 0.03;
/** Nor is less than this ever told, mm: what the picture's own grain leaves. A judgement. */
const LEAST_TOLD_MM = 0.005;
const MOST_STIR_ALIKE = 0.95;
/** A stir this many times larger or smaller than was counted on is worth a further round. */
export const STIR_MOVED = 1.3;

/** Notes with two chosen frames or more, numbered. The more frames stand for one note, the less each says of its rest. */
export function restsOf(
  steady: readonly (readonly number[])[] | undefined, indices: readonly number[], stir: Stir,
): { count: number; of: Map<number, { number: number; sdMm: number }> } {
  const chosen = new Set(indices);
  const of = new Map<number, { number: number; sdMm: number }>();
  let count = 0;
  for (const note of steady ?? []) {
    const shown = note.filter((index) => chosen.has(index));
    if (shown.length < 2) continue;
    const sdMm = stir.sdMm * Math.min(timesAlike(stir), Math.sqrt(shown.length));
    shown.forEach((index) => of.set(index, { number: count, sdMm }));
    count++;
  }
  return { count, of };
}

/** A stir as the fit counts on it. */
export const countedStir = (stir: Stir): Stir => ({ ...stir, sdMm: Math.max(LEAST_STIR_MM, stir.sdMm) });

/** By how much a stir counts as larger because neighbouring frames stir alike. */
export const timesAlike = ({ alike }: Stir): number => Math.sqrt((1 + alike) / (1 - alike));

/** What the rim's distances from its rests tell of the stir; null without rests. */
export function stirOf(seen: readonly FrameSeen[], bundle: Bundle): Stir | null {
  const byRest = bundle.shared.rests.map((): Vec3[] => []);
  seen.forEach(({ rest }, i) => {
    if (rest) byRest[rest.number]!.push(bundle.frames[i]!.rim);
  });
  const variances: number[] = [];
  let products = 0;
  let squares = 0;
  let counted = 0;
  for (const rims of byRest) {
    const n = rims.length;
    if (n < 2) continue;
    for (const k of [0, 1] as const) {
      const mean = rims.reduce((sum, rim) => sum + rim[k], 0) / n;
      const off = rims.map((rim) => rim[k] - mean);
      variances.push(off.reduce((sum, each) => sum + each * each, 0) / (n - 1));
      off.slice(1).forEach((each, i) => {
        products += each * off[i]!;
        squares += (each * each + off[i]! ** 2) / 2;
        counted++;
      });
    }
  }
  if (variances.length === 0) return null;
  // Taken about each note's own mean the likeness comes out too low, by about (1 + 4 alike)/n (value from memory).
  const notesLength = counted / variances.length + 1;
  const seenAlike = squares > 0 ? products / squares : 0;
  const alike = notesLength > 5 ? (seenAlike + 1 / notesLength) / (1 - 4 / notesLength) : FIRST_STIR.alike;
  return {
    sdMm: Math.max(LEAST_TOLD_MM, Math.sqrt(median(variances))),
    alike: Math.min(MOST_STIR_ALIKE, Math.max(0, alike)),
  };
}
