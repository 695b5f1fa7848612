/**
 * Does travel that is seen with errors turn back, or could a player who never turns back have given it? A test that looks for turns of
 * every length at either end of the range. What it finds and how often it errs: docs/numerics.md §11.
 */
import { tooTight } from '../formChecks';
import type { Random } from '../random';
import { monotoneFit } from './isotonic';

/** Draws that a p rests on: at 0.05 it is then known to 0.005. */
export const DRAWS = 1999;
/** Fewer notes leave no room for a way there and a way back. */
export const FEWEST_NOTES = 4;

/**
 * How strongly the largest of the contrasts leads in their sum, per deviation. A sum of exp(LEAD·z) finds a turn of a length that is not known
 * about as well as any test can, for turns that lie about that many deviations from the nearest monotone player (the average likelihood ratio).
 */
const LEAD = 2.6;
/** Rise before the turn against fall after it, per semitone, in the shapes looked for. */
const RISE_TO_FALL = 3;
/**
 * The monotone fit follows the noise and so has steps where a level player has none; drawn from it as it stands, a likelihood-ratio test flags
 * 8 to 10 in 100 players who move in steps. So no contrast is taken to lie further from nothing than the fit says less this many deviations,
 * and p is raised by a factor for what that leaves. Both found by simulation: docs/numerics.md §11.
 */
const FIT_ALLOWANCE = 1.2;
const LEVEL_FACTOR = 1.25;

/** How likely a turn over so many intervals is held before looking: one note alone is mostly a slip, more than half the range is the other way of travel. */
function lengthWeight(intervals: number, notes: number): number {
  if (intervals === 1) return 0.05;
  if (intervals === 2) return 0.5;
  if (intervals <= 4) return 1;
  return intervals <= notes / 2 ? 0.3 : 0.1;
}

export interface TurnBackTest {
  /** How likely a player who never turns back gives values like these or further from monotone: at most α of such players have p ≤ α. */
  p(values: readonly number[]): number;
  /** How often a player with these true values is found at α, the deviations all being `scale` times those of the test. */
  power(trueValues: readonly number[], scale: number, alpha: number): number;
}

/**
 * For places along a line at strictly rising pitches with known, normal deviations. Rising and falling travel are each held against the readings
 * and the likelier one counts, so nothing need be known of the way of travel. One set of draws serves all questions put to it.
 */
export function createTurnBackTest(midis: readonly number[], sds: readonly number[], random: Random, draws = DRAWS): TurnBackTest {
  if (midis.length < FEWEST_NOTES || sds.length !== midis.length) {
    throw tooTight('notes', `${midis.length} with ${sds.length} deviations`, `at least ${FEWEST_NOTES}, a deviation each`);
  }
  sds.forEach((sd, i) => {
    if (!(sd > 0 && sd < Infinity)) throw tooTight(`sds[${i}]`, String(sd), 'above 0 and finite');
    if (i > 0 && !(midis[i]! > midis[i - 1]!)) throw tooTight(`midis[${i}]`, String(midis[i]), `more than ${midis[i - 1]}`);
  });
  const weights = sds.map((sd) => 1 / sd ** 2);
  const { contrasts, heft } = contrastsOf(midis, sds, weights);
  const led = drawLed(contrasts, heft, random, draws);

  const seen = (values: readonly number[]): number[] =>
    contrasts.map((contrast) => contrast.reduce((sum, each, i) => sum + (each * values[i]!) / sds[i]!, 0));
  const leads = (means: readonly number[]): Float64Array => Float64Array.from(means, (mean) => Math.exp(LEAD * mean));
  /** Where the monotone fit, with the allowance, puts each contrast. */
  const underFit = (values: readonly number[], scale: number): Float64Array =>
    leads(seen(monotoneFit(values, weights, 'rising').values).map((mean) => Math.min(0, mean / scale + FIT_ALLOWANCE)));
  /** Against players who never fall. */
  const risingP = (values: readonly number[]): number => {
    const here = seen(values).reduce((sum, z, j) => sum + heft[j]! * Math.exp(LEAD * z), 0);
    const beyond = sums(led, underFit(values, 1)).reduce((count, sum) => (sum >= here ? count + 1 : count), 1);
    return Math.min(1, (LEVEL_FACTOR * beyond) / (draws + 1));
  };
  return {
    p: (values) => Math.max(risingP(values), risingP(values.map((value) => -value))),
    power(trueValues, scale, alpha) {
      const level = sums(led, underFit(trueValues, scale)).sort();
      const allowed = Math.floor((alpha / LEVEL_FACTOR) * (draws + 1)) - 1;
      const bar = level[draws - 1 - Math.max(0, allowed)]!;
      return sums(led, leads(seen(trueValues).map((mean) => mean / scale))).reduce((count, sum) => (sum > bar ? count + 1 : count), 0) / draws;
    },
  };
}

/** The statistic of every draw, its contrasts moved by the logs of the factors. */
function sums(led: Float64Array, factors: Float64Array): Float64Array {
  const size = factors.length;
  const all = new Float64Array(led.length / size);
  for (let draw = 0, at = 0; draw < all.length; draw++) {
    let sum = 0;
    for (let j = 0; j < size; j++) sum += factors[j]! * led[at++]!;
    all[draw] = sum;
  }
  return all;
}

/**
 * For each shape looked for, what is left of it beside its nearest monotone one, brought to a deviation of 1 (in values over their own deviations).
 * No monotone player has a positive mean in any of these: what a projection on the monotone ones leaves points away from all of them.
 */
function contrastsOf(midis: readonly number[], sds: readonly number[], weights: readonly number[]): { contrasts: number[][]; heft: number[] } {
  const last = midis.length - 1;
  const contrasts: number[][] = [];
  const heft: number[] = [];
  for (let intervals = 1; intervals < last; intervals++) {
    const turns = [
      // A peak near the top; a valley near the bottom, the same seen from the other end.
      midis.map((midi) => (midi <= midis[last - intervals]! ? RISE_TO_FALL : -1) * (midi - midis[last - intervals]!)),
      midis.map((midi) => (midi >= midis[intervals]! ? RISE_TO_FALL : -1) * (midi - midis[intervals]!)),
    ];
    for (const shape of turns) {
      const fit = monotoneFit(shape, weights, 'rising').values;
      const left = shape.map((each, i) => (each - fit[i]!) / sds[i]!);
      const length = Math.hypot(...left);
      contrasts.push(left.map((each) => each / length));
      heft.push(lengthWeight(intervals, midis.length));
    }
  }
  return { contrasts, heft };
}

/** Weighted exp(LEAD·ε) of every contrast's noise ε, contrasts of one draw side by side. */
function drawLed(contrasts: readonly (readonly number[])[], heft: readonly number[], random: Random, draws: number): Float64Array {
  const notes = contrasts[0]!.length;
  const size = contrasts.length;
  const flat = Float64Array.from(contrasts.flat());
  const led = new Float64Array(draws * size);
  const noise = new Float64Array(notes);
  for (let draw = 0; draw < draws; draw++) {
    for (let i = 0; i < notes; i++) noise[i] = random.normal();
    for (let j = 0; j < size; j++) {
      let sum = 0;
      for (let i = 0; i < notes; i++) sum += flat[j * notes + i]! * noise[i]!;
      led[draw * size + j] = heft[j]! * Math.exp(LEAD * sum);
    }
  }
  return led;
}
