/** When one film of a take began against another, from the sound in both. docs/numerics.md §21. */
import { likeness } from './crossCorrelation';
import type { SoundBlock } from './pitchTrack';
import { CHANGES_RATE, soundChanges } from './soundChanges';
import { type PieceLag, peakBetween, pieceLags } from './soundPieces';

export type SoundOffset =
  | {
      readonly kind: 'aligned';
      /** What happens at t in the second film happens at t + offsetS in the first; each by its film's own times. */
      readonly offsetS: number;
      readonly sdS: number;
      /** Correlation of the two sounds there, 0 to 1. */
      readonly quality: number;
    }
  /** `too-short`: less than two seconds of sound in one; `silent`: one is silent; `unclear`: no place, or several, where they agree. */
  | { readonly kind: 'not-aligned'; readonly reason: 'too-short' | 'silent' | 'unclear'; readonly quality: number };

export interface Sound extends SoundBlock {
  readonly sampleRate: number;
}

/** So much of the two must overlap, seconds. */
export const LEAST_OVERLAP_S = 2;
/** What microphones hear of one onset differs, seconds: 1 m of way is 3 ms. */
export const LEAST_SD_S = 0.003;
/** The best place stands out from the others' scatter so many times at least: in sounds of our own one take reached 13.7 and more, two takes 10.5 at most. */
const LEAST_HEIGHT = 12;
/** And out of the next best place by so many: what chance alone moves a place by is 1. */
const LEAST_MARGIN = 3;
/** Within this of the best, a place is the same, seconds. */
const SAME_PLACE_S = 0.15;
/** A piece asks for the same shift within this, seconds: rooms and hiss move one by up to 10 ms, another playing by 30 and more. */
const SAME_LAG_S = 0.015;
/** Pieces with so much of the weight must ask for the same shift: in sounds of our own one take or two playings of one exercise. */
const LEAST_AGREED = 0.8;
/** A normal deviation is so many times the median distance from the middle (definition). */
const NORMAL_OVER_MEDIAN = 1.4826;

/**
 * The offset at which the changes of level in 55 semitones agree best. It refuses where that place does not stand out of what chance
 * gives at the others, or where the pieces of the take do not agree on it: then the same notes were played twice.
 */
export function alignSounds(first: Sound, second: Sound): SoundOffset {
  const seconds = Math.min(...[first, second].map(({ samples, sampleRate }) => samples.length / sampleRate));
  if (seconds < LEAST_OVERLAP_S) return { kind: 'not-aligned', reason: 'too-short', quality: 0 };
  const [a, b] = [soundChanges(first.samples, first.sampleRate), soundChanges(second.samples, second.sampleRate)];
  if (!changes(a) || !changes(b)) return { kind: 'not-aligned', reason: 'silent', quality: 0 };
  const least = LEAST_OVERLAP_S * CHANGES_RATE;
  const { firstShift, values } = likeness(a, b, least);
  const columns = (at: number): number => overlap(a[0]!.length, b[0]!.length, at + firstShift);
  // By chance a likeness is as large as 1/√n: times √n all places can be compared, short overlaps and long ones.
  const heights = values.map((value, at) => value * Math.sqrt(columns(at)));
  const best = heights.reduce((most, each, at) => (each > heights[most]! ? at : most), 0);
  const away = SAME_PLACE_S * CHANGES_RATE;
  const next = heights.reduce((most, each, at) => (Math.abs(at - best) > away && each > most ? each : most), 0);
  const chance = scatter(heights.filter((_, at) => columns(at) >= least));
  // Of a sound and its copy it is 1, and by rounding a little more.
  const quality = Math.min(1, Math.max(0, values[best]!));
  const stands = heights[best]! >= LEAST_HEIGHT * chance && heights[best]! - next >= LEAST_MARGIN * chance;
  const agreed = stands ? agreedOn(pieceLags(a, b, best + firstShift)) : null;
  if (agreed === null || agreed.part < LEAST_AGREED) return { kind: 'not-aligned', reason: 'unclear', quality };
  return {
    kind: 'aligned',
    offsetS: (best + firstShift + peakBetween(values, best)) / CHANGES_RATE + first.timeS - second.timeS,
    sdS: Math.hypot(LEAST_SD_S, agreed.sdSteps / CHANGES_RATE),
    quality,
  };
}

const overlap = (first: number, second: number, shift: number): number => Math.min(first - Math.max(0, shift), second - Math.max(0, -shift));

const changes = (rows: readonly Float32Array[]): boolean => rows.some((row) => row.some((each) => each !== 0));

function scatter(values: Float64Array): number {
  const middle = median(values);
  return NORMAL_OVER_MEDIAN * median(values.map((each) => Math.abs(each - middle)));
}

const median = (values: Float64Array): number => values.slice().sort()[values.length >> 1] ?? 0;

/** The part of the weight that lies about the weighted median, and how far the mean of what lies there may be off. */
function agreedOn(lags: readonly PieceLag[]): { part: number; sdSteps: number } {
  const weightOf = (some: readonly PieceLag[]): number => some.reduce((sum, { weight }) => sum + weight, 0);
  const whole = weightOf(lags);
  let passed = 0;
  const middle = [...lags].sort((one, other) => one.lagSteps - other.lagSteps).find(({ weight }) => (passed += weight) >= whole / 2)?.lagSteps ?? 0;
  const near = lags.filter(({ lagSteps }) => Math.abs(lagSteps - middle) <= SAME_LAG_S * CHANGES_RATE);
  const weight = weightOf(near);
  const mean = near.reduce((sum, each) => sum + each.weight * each.lagSteps, 0) / weight;
  const squares = near.reduce((sum, each) => sum + (each.weight * (each.lagSteps - mean)) ** 2, 0);
  return { part: whole > 0 ? weight / whole : 0, sdSteps: Math.sqrt(squares) / weight };
}
