/** How the sound's levels change, semitone by semitone: what two microphones on one take have in common. docs/numerics.md §21. */
import { powerSpectrum } from './crossCorrelation';

/** Steps a second: 10 ms; between them a parabola tells. */
export const CHANGES_RATE = 100;

/** Sound is brought down to at least so many samples a second: partials up to 3.5 kHz are enough, and it costs a sixth. */
const ENOUGH_RATE = 8000;
/** Samples of the thinned sound in a window, some 60 ms: semitones part from 300 Hz up. */
const WINDOW = 512;
/** A semitone each, from the lowest that a window can part from its neighbour a third away to where the thinned sound ends. */
const LOWEST_HZ = 140;
const BANDS = 55;
/** A band sounds for less than the rest of the time: it is quiet in this part. */
const QUIET_PART = 0.3;
/** Levels count over this many times the quiet: hiss wavers by less. */
const ABOVE_QUIET = 6;
/** Nothing below this part of the loudest counts (50 dB): a coder's own silence is not the room's. */
const LEAST_PART = 1e-5;
/** Changes are looked at over so many steps: 40 ms. */
const CHANGE_OVER = 4;
/** A change counts no more than this, nepers: else the first onset after silence were all there is. */
const MOST_CHANGE = 2;
/** The quiet is read from every so-manieth step. */
const QUIET_EVERY = 5;

/**
 * A row for each semitone: the change of its level over 40 ms, in nepers over the band's own quiet, every 10 ms from the sound's first
 * sample. Loudness, a microphone's colour and steady hiss do not count in it; which note begins or ends, and when, does.
 */
export function soundChanges(samples: Float32Array, sampleRate: number): Float32Array[] {
  const times = Math.max(1, Math.floor(sampleRate / ENOUGH_RATE));
  const levels = bandPowers(thinned(samples, times), sampleRate / times);
  const least = LEAST_PART * levels.reduce((most, band) => band.reduce((high, each) => Math.max(high, each), most), 0);
  return levels.map((band) => changesOf(band, Math.max(least, ABOVE_QUIET * quietOf(band))));
}

function bandPowers(samples: Float32Array, rate: number): Float32Array[] {
  const bell = Float64Array.from({ length: WINDOW }, (_, at) => 1 - Math.cos((2 * Math.PI * (at + 0.5)) / WINDOW));
  const bins = Array.from({ length: BANDS + 1 }, (_, at) => (LOWEST_HZ * 2 ** ((at - 0.5) / 12) * WINDOW) / rate);
  const count = Math.floor((samples.length / rate) * CHANGES_RATE);
  const bands = Array.from({ length: BANDS }, () => new Float32Array(count));
  const power = powerSpectrum(WINDOW);
  const window = new Float64Array(WINDOW);
  const sums = new Float64Array(WINDOW / 2 + 2);
  for (let step = 0; step < count; step++) {
    const from = Math.round((step * rate) / CHANGES_RATE) - WINDOW / 2;
    const [begin, end] = [Math.max(0, -from), Math.min(WINDOW, samples.length - from)];
    if (begin > 0 || end < WINDOW) window.fill(0);
    for (let at = begin; at < end; at++) window[at] = bell[at]! * samples[from + at]!;
    const powers = power(window);
    // Bin k stands for k − ½ to k + ½; a band's edge cuts through one.
    for (let at = 0; at < powers.length; at++) sums[at + 1] = sums[at]! + powers[at]!;
    let before = upTo(sums, bins[0]!);
    for (let which = 0; which < BANDS; which++) {
      const after = upTo(sums, bins[which + 1]!);
      bands[which]![step] = after - before;
      before = after;
    }
  }
  return bands;
}

function upTo(sums: Float64Array, bin: number): number {
  const place = Math.min(sums.length - 1.001, bin + 0.5);
  const whole = Math.floor(place);
  return sums[whole]! + (place - whole) * (sums[whole + 1]! - sums[whole]!);
}

function quietOf(band: Float32Array): number {
  const some = Float32Array.from({ length: Math.ceil(band.length / QUIET_EVERY) }, (_, at) => band[at * QUIET_EVERY]!).sort();
  return some[Math.floor(QUIET_PART * some.length)] ?? 0;
}

function changesOf(band: Float32Array, floor: number): Float32Array {
  if (!(floor > 0)) return new Float32Array(band.length);
  const levels = band.map((each) => Math.log(each + floor));
  return levels.map((level, at) => Math.max(-MOST_CHANGE, Math.min(MOST_CHANGE, level - levels[Math.max(0, at - CHANGE_OVER)]!)));
}

/** Every so-manieth sample of the sound, smoothed by a bell of one and a half times the distance to each side, so that little folds over. */
function thinned(samples: Float32Array, times: number): Float32Array {
  if (times === 1) return samples;
  const reach = Math.round(1.5 * times);
  const taps = Float64Array.from({ length: reach + 1 }, (_, off) => {
    const turn = (Math.PI * off) / times;
    return (off === 0 ? 1 : Math.sin(turn) / turn) * (1 + Math.cos((Math.PI * off) / (reach + 1)));
  });
  const out = new Float32Array(Math.floor(samples.length / times));
  // Where the bell would reach over an end it stays silent: some 0.2 ms.
  for (let at = Math.ceil(reach / times); at * times + reach < samples.length; at++) {
    const middle = at * times;
    let sum = taps[0]! * samples[middle]!;
    for (let off = 1; off <= reach; off++) sum += taps[off]! * (samples[middle - off]! + samples[middle + off]!);
    out[at] = sum;
  }
  return out;
}
