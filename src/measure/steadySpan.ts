/** The steady middle of a note, and one value with its deviation from the frames in it. docs/numerics.md §21. */
import type { NoteHeard } from './traces';

/** Left out at each end of a note, seconds: within it one pitch in six was wrong, and the rim is on its way. */
export const ENDS_S = 0.06;
/** A steady part shorter than this is none, seconds: of such notes the middle third is taken. */
const SHORTEST_STEADY_S = 0.06;

export interface SteadySpan {
  readonly startS: number;
  readonly endS: number;
  /** Whether only the middle third of a short note was left. */
  readonly short: boolean;
}

export function steadySpan({ startS, endS }: Pick<NoteHeard, 'startS' | 'endS'>): SteadySpan {
  if (!(endS > startS)) throw new RangeError(`steadySpan: ${startS} to ${endS} s; allowed: an end after the start`);
  if (endS - startS - 2 * ENDS_S >= SHORTEST_STEADY_S) return { startS: startS + ENDS_S, endS: endS - ENDS_S, short: false };
  const third = (endS - startS) / 3;
  return { startS: startS + third, endS: endS - third, short: true };
}

/** For each note the places of the frames in its steady part; `offsetS` is added to the frames' times to give the notes'. */
export function steadyFrames(timesS: readonly number[], notes: readonly Pick<NoteHeard, 'startS' | 'endS'>[], offsetS = 0): number[][] {
  return notes.map((note) => {
    const { startS, endS } = steadySpan(note);
    return timesS.flatMap((timeS, index) => (timeS + offsetS >= startS && timeS + offsetS <= endS ? [index] : []));
  });
}

export interface Told {
  readonly value: number;
  readonly sd: number;
  readonly frames: number;
}

/** A median of normal values is less sure than their mean by this: √(π/2). */
const MEDIAN_AGAINST_MEAN = Math.sqrt(Math.PI / 2);
/** Half the middle half of a normal spread, as a part of its deviation. */
const QUARTILE = 0.6744897501960817;
/** Neighbours cannot be told to be more alike than this from a handful of frames. */
const MOST_CORRELATED = 0.98;

/**
 * The median of frames in order of time. Its deviation is the larger of the frames' own scatter (with as many independent frames as their
 * likeness from one to the next leaves) and of what the frames say of themselves, which may be one error shared by all. null for none.
 */
export function medianOver(frames: readonly { readonly value: number; readonly sd: number }[]): Told | null {
  if (frames.length === 0) return null;
  const value = median(frames.map((each) => each.value));
  const stated = median(frames.map((each) => each.sd));
  if (frames.length === 1) return { value, sd: stated, frames: 1 };
  const spread = median(frames.map((each) => Math.abs(each.value - value))) / QUARTILE;
  const own = (MEDIAN_AGAINST_MEAN * spread) / Math.sqrt(effectiveFrames(frames.map((each) => each.value)));
  return { value, sd: Math.max(own, stated), frames: frames.length };
}

/** How many independent values say as much as these, in which each is like the one before (a first-order chain); 1 at least. */
export function effectiveFrames(values: readonly number[]): number {
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length;
  const square = values.reduce((sum, each) => sum + (each - mean) ** 2, 0);
  if (!(square > 0)) return values.length;
  const product = values.slice(1).reduce((sum, each, at) => sum + (each - mean) * (values[at]! - mean), 0);
  // So few values seem less alike than they are: to first order by (1 + 3ρ)/n (Marriott and Pope 1954, value from memory).
  const found = product / square;
  const like = Math.min(MOST_CORRELATED, Math.max(0, found + (1 + 3 * found) / values.length));
  return Math.max(1, (values.length * (1 - like)) / (1 + like));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
