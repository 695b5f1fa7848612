/**
 * The page's quiet tone as samples, for files: the same harmonics, opened at the attack by the same low-pass, summed up directly. A note that begins
 * while another sounds slides there without a new attack, as on the page.
 */
import { hertz } from '../core/pitch';
import type { SoundedNote } from './filmPlan';

/** Of sound in files. */
export const SOUND_RATE = 48_000;
/** −12 dB of full scale: louder than on the page, since a file is turned down by whoever plays it. */
const PEAK_GAIN = 0.25;
/** As in the page's tone: amplitudes of harmonics 1, 2, 3 …; our choice by ear of a soft brass sound, no measured instrument. */
const HARMONICS = [1, 0.72, 0.5, 0.3, 0.18, 0.1, 0.06];
const SUM = HARMONICS.reduce((sum, one) => sum + one, 0);
const ATTACK_S = 0.06;
const RELEASE_S = 0.18;
const GLIDE_S = 0.03;
const BRIGHTNESS = 6;
const DARK = 1.5;
/** Samples after which pitch, loudness and brightness are worked out anew: two thirds of a millisecond. */
const STEP = 32;

/** The whole of the sound, in pieces of a tenth of a second, so that a page need not wait for it. */
export function* toneSteps(notes: readonly SoundedNote[], durationS: number): Generator<number, Float32Array<ArrayBuffer>> {
  const samples = new Float32Array(Math.round(durationS * SOUND_RATE));
  const voice: Voice = { phase: 0, hertz: 0, brightness: DARK, level: 0, endsAtS: -1, startedAtS: 0, target: 0 };
  let next = 0;
  for (let start = 0; start < samples.length; start += STEP) {
    const nowS = start / SOUND_RATE;
    for (; next < notes.length && notes[next]!.atS <= nowS; next++) begin(voice, notes[next]!, nowS);
    move(voice, nowS);
    writeStep(voice, samples.subarray(start, start + STEP));
    if (start % PIECE === 0) yield start / samples.length;
  }
  return samples;
}

const PIECE = STEP * 150;

interface Voice {
  /** Of the first harmonic, in turns. */
  phase: number;
  hertz: number;
  target: number;
  brightness: number;
  level: number;
  startedAtS: number;
  endsAtS: number;
}

function begin(voice: Voice, { midi, seconds }: SoundedNote, nowS: number): void {
  voice.target = hertz(midi);
  const sounds = voice.endsAtS > nowS;
  voice.endsAtS = nowS + Math.max(seconds, ATTACK_S + RELEASE_S);
  if (sounds) return;
  voice.hertz = voice.target;
  voice.startedAtS = nowS;
  voice.brightness = DARK;
}

/** Pitch slides, the low-pass opens, the level rises over the attack and fades before the end. */
function move(voice: Voice, nowS: number): void {
  const step = STEP / SOUND_RATE;
  voice.hertz += (voice.target - voice.hertz) * (1 - Math.exp(-step / GLIDE_S));
  voice.brightness += (BRIGHTNESS - voice.brightness) * (1 - Math.exp(-step / ATTACK_S));
  if (nowS >= voice.endsAtS - RELEASE_S) voice.level *= Math.exp(-step / (RELEASE_S / 4));
  else voice.level = Math.min(1, voice.level + step / ATTACK_S);
}

function writeStep(voice: Voice, out: Float32Array): void {
  if (voice.level < SILENT) return;
  const turns = voice.hertz / SOUND_RATE;
  for (let sample = 0; sample < out.length; sample++) {
    voice.phase = (voice.phase + turns) % 1;
    let sum = 0;
    for (let harmonic = 1; harmonic <= HARMONICS.length; harmonic++) {
      // Second-order low-pass at `brightness` times the pitch, without a peak.
      const weight = HARMONICS[harmonic - 1]! / Math.sqrt(1 + (harmonic / voice.brightness) ** 4);
      sum += weight * SINES[Math.floor(((voice.phase * harmonic) % 1) * SINES.length)]!;
    }
    out[sample] = (sum / SUM) * voice.level * PEAK_GAIN;
  }
}

/** A fade is heard as over, and is cut off, at −80 dB. */
const SILENT = 1e-4;
/** One turn of a sine, fine enough that its steps lie 80 dB below it. */
const SINES = Float32Array.from({ length: 65_536 }, (_, at) => Math.sin((2 * Math.PI * at) / 65_536));
