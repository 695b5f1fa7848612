/**
 * How like the errors of neighbouring frames are. A mean over a note errs by what its frames have in common, so that is what is looked at: how far the
 * residuals' means over a note lie from 0, beside how far single ones do. Told as the likeness from one frame to the next that would
 * make such means. docs/numerics.md §17.
 */
import { residualsOf, type FrameSeen, type FrameState, type SharedState } from './frameEquations';
import { ROBUST_GAIN, ROBUST_WIDTH } from './headPose';

/** The most that one frame's error may be like the next one's. */
const MOST_ALIKE = 0.98;
/** Frames of a block where no notes are known: about half a second. */
const BLOCK_FRAMES = 15;
/** A block with fewer frames tells nothing of what its frames have in common. */
const FEWEST_IN_BLOCK = 3;
/** The shape takes of the blocks' means no more than this part for itself. */
const MOST_TAKEN = 0.5;

/** Notes with frames enough, else the film cut into stretches. */
export function blocksOf(steady: readonly (readonly number[])[] | undefined, frames: number): readonly (readonly number[])[] {
  const notes = (steady ?? []).filter(({ length }) => length >= FEWEST_IN_BLOCK);
  if (notes.length > 1) return notes;
  return Array.from({ length: Math.floor(frames / BLOCK_FRAMES) }, (_, block) => Array.from({ length: BLOCK_FRAMES }, (_, at) => block * BLOCK_FRAMES + at));
}

export interface MarksScatter {
  /** How many times larger than told the variance of what is found by the marks is. */
  readonly times: number;
  readonly alike: number;
}

/**
 * Of the landmarks, by their residuals in deviations, weighted as the fit weighs them (ψ = w·r, w = 1/(1 + (r/k)²), for which ψ′ is w² on the mean of
 * both directions): E[ψ²]/E[ψ′]² is what a mark's variance comes to, 1/(gain·E[w]) what the fit's own sums say (headPose.ts).
 */
export function marksScatter(
  seen: readonly (FrameSeen | null)[], states: readonly (FrameState | null)[], shared: SharedState, blocks: readonly (readonly number[])[],
): MarksScatter {
  const landmarks = shared.shape.length;
  const all = { weights: 0, slopes: 0, squares: 0, marks: 0, left: 0 };
  const means = { squares: 0, places: 0, left: 0, frames: 0 };
  for (const block of blocks) {
    const sums = Array.from({ length: landmarks }, () => ({ x: 0, y: 0, count: 0 }));
    for (const index of block) {
      const frame = seen[index];
      const state = states[index];
      if (!frame || !state) continue;
      residualsOf(frame, state, shared).forEach(({ x, y }, k) => {
        const { landmark, sdPx } = frame.marks[k]!;
        const weight = 1 / (1 + (x * x + y * y) / (ROBUST_WIDTH * sdPx) ** 2);
        const sum = sums[landmark]!;
        sum.x += (weight * x) / sdPx;
        sum.y += (weight * y) / sdPx;
        sum.count++;
        all.weights += weight;
        all.slopes += weight * weight;
        all.squares += (weight / sdPx) ** 2 * (x * x + y * y);
      });
      all.marks += frame.marks.length;
      // Each frame's pose takes six of its numbers for itself.
      all.left += Math.max(0, 2 * frame.marks.length - 6);
    }
    const places = sums.filter(({ count }) => count >= FEWEST_IN_BLOCK);
    for (const { x, y, count } of places) {
      means.squares += (x * x + y * y) / count ** 2;
      means.frames += count;
    }
    means.places += places.length;
    means.left += Math.max(0, 2 * places.length - 6);
  }
  if (all.left === 0 || means.left === 0) return { times: 1, alike: 0 };
  const times = (ROBUST_GAIN * (all.weights / all.marks) * (all.squares / all.left)) / (all.slopes / all.marks) ** 2;
  const taken = Math.min(MOST_TAKEN, Math.max(0, 3 * landmarks - SHAPE_FREE) / means.left);
  const part = means.squares / (means.left * (1 - taken)) / (all.squares / all.left);
  return { times: Math.max(LEAST_TIMES, times), alike: alikeFor(part, means.frames / means.places) };
}
/** No film is believed to be followed better than told by more, in squares: what every frame's pose goes along with shows in no residual. A judgement. */
const LEAST_TIMES = 0.03;
/** A shape turned, shifted or made larger against all poses changes no picture. */
const SHAPE_FREE = 7;

/** Of the rim's own depth, by its distances from each note's mean: that of its size, for nothing else is so unsure. */
export function depthsAlike(states: readonly (FrameState | null)[], steady: readonly (readonly number[])[]): number {
  let products = 0;
  let squares = 0;
  let counted = 0;
  let notes = 0;
  for (const note of steady) {
    const depths = note.flatMap((index) => (states[index] ? [states[index].rim[2]] : []));
    if (depths.length < FEWEST_IN_BLOCK) continue;
    const mean = depths.reduce((sum, each) => sum + each, 0) / depths.length;
    depths.slice(1).forEach((each, i) => {
      products += (each - mean) * (depths[i]! - mean);
      squares += ((each - mean) ** 2 + (depths[i]! - mean) ** 2) / 2;
    });
    counted += depths.length;
    notes++;
  }
  if (!(squares > 0)) return UNKNOWN_ALIKE;
  const length = counted / notes;
  // Taken about each note's own mean the likeness comes out too low, by about (1 + 4 alike)/n (value from memory).
  const found = products / squares;
  return Math.min(MOST_ALIKE, Math.max(0, length > 5 ? (found + 1 / length) / (1 - 4 / length) : UNKNOWN_ALIKE));
}
/** Where no notes tell: a judgement. */
const UNKNOWN_ALIKE = 0.5;

/** How many times larger the variance of a mean of n is when each errs like the one before by this much (first-order, stationary). */
export function timesAlike(alike: number, n: number): number {
  let times = 1;
  let power = 1;
  for (let k = 1; k < n; k++) {
    power *= alike;
    times += 2 * (1 - k / n) * power;
  }
  return times;
}

/** The likeness at which a mean of n has this part of one's own variance. */
function alikeFor(part: number, n: number): number {
  const whole = Math.max(2, Math.round(n));
  let [low, high] = [0, MOST_ALIKE];
  if (timesAlike(high, whole) / whole <= part) return high;
  for (let step = 0; step < 30; step++) {
    const middle = (low + high) / 2;
    if (timesAlike(middle, whole) / whole < part) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
