/** Pitch, clarity and level of a sound, frame by frame, by McLeod's method as pitchy has it. docs/numerics.md §21. */
import { PitchDetector } from 'pitchy';

export interface PitchFrame {
  /** Middle of the window, seconds by the film's own times. */
  readonly timeS: number;
  /** null: no period at all. */
  readonly hz: number | null;
  /** 0 to 1: how alike the sound is to itself one period later. */
  readonly clarity: number;
  /** Mean square in a bell-shaped window about `timeS`, decibels; 0 is a full square wave. */
  readonly levelDb: number;
  /** The same of the sound's differences over 0.2 ms, which up to some 2 kHz weigh every octave 6 dB above the one below. */
  readonly brightDb: number;
}

/** One channel of sound; `timeS` is the first sample's, by the film's own times. */
export interface SoundBlock {
  readonly timeS: number;
  readonly samples: Float32Array;
}

export interface PitchTracker {
  /** Takes the next block, of any length, and answers the frames that it completes. Blocks come in order of time. */
  feed(block: SoundBlock): PitchFrame[];
}

export interface PitchTrackOptions {
  /** Samples a second, 8,000 to 192,000. */
  readonly sampleRate: number;
  /** The lowest note to be heard, hertz: below `LONG_WINDOW_BELOW_HZ` the window is twice as long. */
  readonly lowestHz: number;
}

/** From frame to frame, seconds: a fifth of the 50 ms that a note's boundary may be off. */
export const FRAME_STEP_S = 0.01;
/** Windows are a multiple of this long, so that they can be halved. */
const WHOLE_SAMPLES = 16;
/** Two periods of the lowest note must lie in a window well: 43 ms down to here, 85 ms below. */
export const LONG_WINDOW_BELOW_HZ = 90;
/** 2,048 samples at 48 kHz. */
const SHORT_WINDOW_S = 2048 / 48_000;
/** Half a period of 2.5 kHz: over single samples the hiss of a room would drown the partials. */
const BRIGHT_LAG_S = 2e-4;
/** The fewest samples a second for the shorter and the longer window: finer ones are halved, which costs half the time. */
const ENOUGH_SAMPLES = { short: 40_000, long: 20_000 } as const;
/** A block that begins further than this from where the last one ended begins anew, seconds: half a frame's step. */
const SAME_STREAM_S = 0.005;
/** Level of digital silence, decibels: below the least step of 24 bits. */
export const SILENCE_DB = -150;
/** Samples a second that can be listened to. */
export const SAMPLE_RATES = [8000, 192_000] as const;

/**
 * A tracker over blocks of sound, about 10 ms a frame. Where blocks leave a gap, no window reaches over it. Throws RangeError for a
 * sample rate or a lowest note out of range.
 */
export function createPitchTracker({ sampleRate, lowestHz }: PitchTrackOptions): PitchTracker {
  const [low, high] = SAMPLE_RATES;
  if (!(sampleRate >= low && sampleRate <= high)) throw new RangeError(`createPitchTracker: sampleRate ${sampleRate}; allowed: ${low} to ${high} a second`);
  if (!(lowestHz > 0)) throw new RangeError(`createPitchTracker: lowestHz ${lowestHz}; allowed: above 0`);
  const lag = Math.max(1, Math.round(BRIGHT_LAG_S * sampleRate));
  const bell = bellOf(WHOLE_SAMPLES * Math.round((SHORT_WINDOW_S * sampleRate) / WHOLE_SAMPLES));
  const long = lowestHz < LONG_WINDOW_BELOW_HZ;
  const length = long ? 2 * bell.length : bell.length;
  const halvings = Math.max(0, Math.floor(Math.log2(sampleRate / ENOUGH_SAMPLES[long ? 'long' : 'short'])));
  const step = Math.round(FRAME_STEP_S * sampleRate);
  const detector = PitchDetector.forFloat32Array(length >> halvings);
  let held = new Float32Array(0);
  /** Time of the first sample held. */
  let heldFromS = 0;
  return {
    feed({ timeS, samples }) {
      const expected = heldFromS + held.length / sampleRate;
      if (held.length === 0 || Math.abs(timeS - expected) > SAME_STREAM_S) {
        held = samples.slice();
        heldFromS = timeS;
      } else held = joined(held, samples);
      const frames: PitchFrame[] = [];
      let from = 0;
      for (; from + length <= held.length; from += step) {
        const window = held.subarray(from, from + length);
        const levels = levelsOf(window, bell, lag);
        const [hz, clarity] = levels.levelDb > SILENCE_DB ? detector.findPitch(halved(window, halvings), sampleRate / 2 ** halvings) : [0, 0];
        const heard = hz > 0 && Number.isFinite(hz) && Number.isFinite(clarity);
        frames.push({ timeS: heldFromS + (from + length / 2) / sampleRate, hz: heard ? hz : null, clarity: heard ? clarity : 0, ...levels });
      }
      held = held.slice(from);
      heldFromS += from / sampleRate;
      return frames;
    },
  };
}

function joined(first: Float32Array, second: Float32Array): Float32Array<ArrayBuffer> {
  const both = new Float32Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}

/** Hann's window with sum 1: its zeros swallow the ripple of a 58 Hz tone, which a straight window of that length would show. */
function bellOf(length: number): Float64Array {
  return Float64Array.from({ length }, (_, at) => (1 - Math.cos((2 * Math.PI * (at + 0.5)) / length)) / length);
}

/** Of the middle of the window, so that a long window tells an attack as early as a short one. */
function levelsOf(window: Float32Array, bell: Float64Array, lag: number): Pick<PitchFrame, 'levelDb' | 'brightDb'> {
  const from = (window.length - bell.length) / 2;
  let [square, steps] = [0, 0];
  for (let at = 0; at < bell.length; at++) {
    const value = window[from + at]!;
    square += bell[at]! * value ** 2;
    if (at >= lag) steps += bell[at]! * (value - window[from + at - lag]!) ** 2;
  }
  return { levelDb: decibels(square), brightDb: decibels(steps) };
}

const decibels = (square: number): number => (square > 0 ? Math.max(SILENCE_DB, 10 * Math.log10(square)) : SILENCE_DB);

/** Every other sample of the window made smooth (half-band filter −1, 0, 9, 16, 9, 0, −1 of 32), so many times over. */
function halved(window: Float32Array, times: number): Float32Array {
  if (times === 0) return window;
  const half = new Float32Array(window.length >> 1);
  const last = window.length - 1;
  const at = (index: number): number => window[index < 0 ? 0 : index > last ? last : index]!;
  for (let i = 0; i < half.length; i++) {
    const middle = 2 * i;
    half[i] = (16 * at(middle) + 9 * (at(middle - 1) + at(middle + 1)) - at(middle - 3) - at(middle + 3)) / 32;
  }
  return halved(half, times - 1);
}
