/** How a take is tuned: how far its semitones lie from those of A4 = 440 Hz, from what was played. docs/numerics.md §21. */

/** A pitch and how much it counts, such as a note's length in seconds. */
export interface WeighedPitch {
  /** Sounding pitch on A4 = 440 Hz, MIDI with its fraction. */
  readonly midi: number;
  readonly weight: number;
}

export type TakeTuning =
  | {
      readonly kind: 'told';
      /** From A4 = 440 Hz, cents, in (−50, 50]. */
      readonly cents: number;
      /** One standard deviation of the same, cents. */
      readonly sdCents: number;
    }
  /** `too-little`: no note, or none that counts; `scattered`: the pitches keep to no common semitones. */
  | { readonly kind: 'unclear'; readonly reason: 'too-little' | 'scattered' };

/** Pitches further than this from the middle are left out, cents: partials of brass lie up to some 30 cents off (the seventh 31). */
export const OUTLIER_CENTS = 35;
/** A mean direction shorter than this points nowhere: pitches spread evenly over the semitone give about 1/√n. */
const LEAST_AGREEMENT = 0.3;
/** Notes scatter about equal temperament even where few were played: the spread of so few tells too little, cents. Our judgement. */
const LEAST_SPREAD_CENTS = 8;
const MOST_ROUNDS = 20;
const SEMITONE_CENTS = 100;

/**
 * The middle of the pitches on the circle of one semitone: mean direction first, then the mean of those within 35 cents of it until it
 * stands still. Throws RangeError for a weight below 0 or what is no number.
 */
export function takeTuning(pitches: readonly WeighedPitch[]): TakeTuning {
  for (const { midi, weight } of pitches) {
    if (!Number.isFinite(midi)) throw new RangeError(`takeTuning: midi ${midi}; allowed: a finite number`);
    if (!(weight >= 0 && Number.isFinite(weight))) throw new RangeError(`takeTuning: weight ${weight}; allowed: 0 or above`);
  }
  const counted = pitches.filter(({ weight }) => weight > 0);
  if (counted.length === 0) return { kind: 'unclear', reason: 'too-little' };
  const total = sum(counted, ({ weight }) => weight);
  const east = sum(counted, ({ midi, weight }) => weight * Math.cos(2 * Math.PI * midi)) / total;
  const north = sum(counted, ({ midi, weight }) => weight * Math.sin(2 * Math.PI * midi)) / total;
  if (Math.hypot(east, north) < LEAST_AGREEMENT) return { kind: 'unclear', reason: 'scattered' };
  let middle = (SEMITONE_CENTS * Math.atan2(north, east)) / (2 * Math.PI);
  let near = counted;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    near = counted.filter(({ midi }) => Math.abs(centsOff(midi, middle)) <= OUTLIER_CENTS);
    const step = sum(near, ({ midi, weight }) => weight * centsOff(midi, middle)) / sum(near, ({ weight }) => weight);
    if (!Number.isFinite(step)) return { kind: 'unclear', reason: 'scattered' };
    middle += step;
    if (Math.abs(step) < 1e-9) break;
  }
  const weights = sum(near, ({ weight }) => weight);
  const spread = Math.max(LEAST_SPREAD_CENTS, Math.sqrt(sum(near, ({ midi, weight }) => weight * centsOff(midi, middle) ** 2) / weights));
  const effective = weights ** 2 / sum(near, ({ weight }) => weight ** 2);
  return { kind: 'told', cents: wrapped(middle), sdCents: spread / Math.sqrt(effective) };
}

/** How far a pitch lies above (+) or below the nearest semitone of a tuning, cents, in (−50, 50]. */
export function centsOff(midi: number, tuningCents: number): number {
  return wrapped(SEMITONE_CENTS * midi - tuningCents);
}

const wrapped = (cents: number): number => {
  const within = cents - SEMITONE_CENTS * Math.round(cents / SEMITONE_CENTS);
  return within === -SEMITONE_CENTS / 2 ? SEMITONE_CENTS / 2 : within;
};

const sum = <T>(list: readonly T[], of: (each: T) => number): number => list.reduce((total, each) => total + of(each), 0);
