/** Phrases with known notes: harmonics that soften upward, attacks, slurs, vibrato, a room's echo and pink noise. Not a model of an instrument. */
import { hertz } from '../../src/core/pitch';
import { createRandom, type Random } from '../../src/core/random';

export interface PlayedNote {
  readonly startS: number;
  readonly endS: number;
  readonly midi: number;
}

export interface Phrase {
  readonly sampleRate: number;
  readonly samples: Float32Array;
  readonly notes: readonly PlayedNote[];
  readonly tuningCents: number;
}

export interface PhraseOptions {
  readonly seed: number;
  readonly lowMidi: number;
  readonly highMidi: number;
  readonly notes: number;
  readonly way: 'slurred' | 'tongued';
  readonly sampleRate?: number;
  readonly tuningCents?: number;
  readonly vibratoCents?: number;
  readonly noiseDb?: number;
  /** Seconds until the room has fallen by 60 dB; absent, no room. */
  readonly roomS?: number;
  /** Shortest and longest note, seconds. */
  readonly lengths?: readonly [number, number];
  /** Between tongued notes, seconds. */
  readonly gaps?: readonly [number, number];
  readonly pitches?: readonly number[];
}

const LEAD_S = 0.4;

export function phrase(options: PhraseOptions): Phrase {
  const { sampleRate = 48_000, tuningCents = 0, vibratoCents = 0, noiseDb = 20, lengths = [0.25, 0.7], gaps = [0.03, 0.12] } = options;
  const random = createRandom(options.seed);
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const notes: PlayedNote[] = [];
  let at = LEAD_S;
  let before = -1;
  for (let index = 0; index < options.notes; index++) {
    let midi = options.pitches?.[index] ?? random.integer(options.lowMidi, options.highMidi);
    while (options.way === 'slurred' && options.pitches === undefined && (midi === before || Math.abs(midi - before) > 12) && before >= 0) midi = random.integer(options.lowMidi, options.highMidi);
    before = midi;
    const length = between(...lengths);
    notes.push({ startS: at, endS: at + length, midi });
    at += length + (options.way === 'slurred' ? 0 : between(...gaps));
  }
  const samples = new Float32Array(Math.ceil((at + LEAD_S) * sampleRate));
  const steepness = between(1, 2);
  const glideS = between(0.02, 0.06);
  const vibratoHz = between(4.5, 6.5);
  const attackS = between(0.01, 0.03);
  const releaseS = between(0.015, 0.03);
  let phase = 0;
  let current = 0;
  for (let i = 0; i < samples.length; i++) {
    const t = i / sampleRate;
    while (current < notes.length - 1 && t >= notes[current + 1]!.startS) current++;
    const note = notes[current]!;
    const [first, last] = options.way === 'slurred' ? [notes[0]!.startS, notes.at(-1)!.endS] : [note.startS, note.endS];
    if (t < first || t >= last + releaseS) continue;
    let midi = note.midi;
    if (options.way === 'slurred') {
      // The glide is half over where one note hands over to the next.
      const [previous, next] = [notes[current - 1], notes[current + 1]];
      if (previous && t < note.startS + glideS / 2) midi = previous.midi + (note.midi - previous.midi) * (0.5 + (t - note.startS) / glideS);
      else if (next && t > next.startS - glideS / 2) midi = note.midi + (next.midi - note.midi) * (0.5 + (t - next.startS) / glideS);
    }
    const hz = hertz(midi + (tuningCents + vibratoCents * Math.sin(2 * Math.PI * vibratoHz * t)) / 100);
    phase += hz / sampleRate;
    const envelope = Math.min(1, (t - first) / attackS) * Math.min(1, Math.max(0, 1 - (t - last) / releaseS));
    let value = 0;
    const harmonics = Math.min(12, Math.floor((0.45 * sampleRate) / hz));
    for (let k = 1; k <= harmonics; k++) value += Math.sin(2 * Math.PI * k * phase + k * k) / k ** steepness;
    samples[i] = 0.2 * envelope * value;
  }
  const heard = options.roomS === undefined ? samples : inRoom(samples, sampleRate, options.roomS, random);
  return { sampleRate, samples: withPinkNoise(heard, noiseDb, random), notes, tuningCents };
}

/** Some fading echoes at uneven times: together a tail that falls by 60 dB in `roomS`. */
export function inRoom(samples: Float32Array, sampleRate: number, roomS: number, random: Random): Float32Array {
  const out = samples.slice();
  for (let tap = 1; tap <= 12; tap++) {
    const delayS = 0.012 * tap ** 1.35 * (0.85 + 0.3 * random.uniform());
    const gain = 0.45 * 10 ** ((-3 * delayS) / roomS) * (random.uniform() < 0.5 ? -1 : 1);
    const delay = Math.round(delayS * sampleRate);
    for (let i = delay; i < out.length; i++) out[i] = out[i]! + gain * samples[i - delay]!;
  }
  return out;
}

/** Noise whose power falls by 3 dB an octave (a sum of noises that are held twice as long each), so many dB below the sound. */
export function withPinkNoise(samples: Float32Array, noiseDb: number, random: Random): Float32Array {
  const pink = pinkNoise(samples.length, random);
  const power = (list: Float32Array): number => list.reduce((sum, each) => sum + each * each, 0) / list.length;
  const gain = Math.sqrt(power(samples) / power(pink)) * 10 ** (-noiseDb / 20);
  return samples.map((each, i) => each + gain * pink[i]!);
}

export function pinkNoise(length: number, random: Random): Float32Array {
  const held = new Float64Array(16);
  const out = new Float32Array(length);
  let sum = 0;
  for (let i = 0; i < length; i++) {
    for (let row = 0; row < held.length && i % 2 ** row === 0; row++) {
      const next = 2 * random.uniform() - 1;
      sum += next - held[row]!;
      held[row] = next;
    }
    out[i] = sum / held.length;
  }
  return out;
}
