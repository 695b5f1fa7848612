/** The sound of a made film: a brass-like tone that follows the notes, with pink noise; all seeded, nothing sampled. */
import { createRandom } from '../../../src/core/random';
import { GLIDE_HALF_S, type NotePlayed, SLUR_BELOW_S } from './notesPlayed';
import type { Scene } from './sceneTypes';

export const SOUND_HZ = 48_000;

/** Mono, −1 to 1, from the film's beginning to its end; `noiseDb` of the scene is the tone's power over the noise's while it sounds. */
export function soundOf(scene: Scene): Float32Array {
  const count = Math.round(scene.durationS * SOUND_HZ);
  const tone = new Float32Array(count);
  let from = 0;
  while (from < scene.notes.length) {
    let to = from;
    while (to + 1 < scene.notes.length && scene.notes[to + 1]!.startS - scene.notes[to]!.endS < SLUR_BELOW_S) to += 1;
    addPhrase(tone, scene, scene.notes.slice(from, to + 1), from);
    from = to + 1;
  }
  const noise = pinkNoise(scene, count);
  let sounding = 0;
  let toneEnergy = 0;
  let noiseEnergy = 0;
  for (let at = 0; at < count; at++) {
    noiseEnergy += noise[at]! ** 2;
    if (tone[at] === 0) continue;
    sounding += 1;
    toneEnergy += tone[at]! ** 2;
  }
  const tonePower = toneEnergy / Math.max(1, sounding);
  const gain = Math.sqrt(tonePower / 10 ** (scene.sound.noiseDb / 10) / (noiseEnergy / count));
  for (let at = 0; at < count; at++) tone[at] = Math.max(-1, Math.min(1, tone[at]! + gain * noise[at]!));
  return tone;
}

/** The fundamental at a time within slurred notes, Hz, without vibrato. */
export function pitchHz({ sound }: Scene, phrase: readonly NotePlayed[], timeS: number): number {
  let midi = phrase[0]!.midi;
  for (let at = 1; at < phrase.length; at++) {
    const part = Math.max(0, Math.min(1, (timeS - phrase[at]!.startS + GLIDE_HALF_S) / (2 * GLIDE_HALF_S)));
    midi += (phrase[at]!.midi - phrase[at - 1]!.midi) * part * part * (3 - 2 * part);
  }
  return 440 * 2 ** ((midi - 69 + sound.tuningCents / 100) / 12);
}

/** Notes under one breath without a new attack: one run of phase, rising at its start and falling at its end. */
function addPhrase(out: Float32Array, scene: Scene, phrase: readonly NotePlayed[], place: number): void {
  const { vibratoCents, vibratoHz, slope } = scene.sound;
  const random = createRandom(scene.seed, 1000 + place);
  const [startS, endS] = [phrase[0]!.startS, phrase.at(-1)!.endS];
  const loudness = LOUDNESS * (0.8 + 0.4 * random.uniform());
  let phase = 2 * Math.PI * random.uniform();
  let breath = 0;
  const firstAt = Math.ceil(startS * SOUND_HZ);
  const lastAt = Math.min(out.length, Math.floor(endS * SOUND_HZ));
  for (let at = firstAt; at < lastAt; at++) {
    const timeS = at / SOUND_HZ;
    const sinceS = timeS - startS;
    const vibrato = vibratoCents * Math.min(1, sinceS / 0.4) * Math.sin(2 * Math.PI * vibratoHz * timeS);
    const hz = pitchHz(scene, phrase, timeS) * 2 ** (vibrato / 1200);
    phase += (2 * Math.PI * hz) / SOUND_HZ;
    breath = 0.7 * breath + 0.3 * random.normal();
    if (at < 0) continue;
    const rise = Math.min(1, sinceS / RISE_S);
    const swell = rise * Math.min(1, (endS - timeS) / FALL_S);
    out[at]! += loudness * swell * (voice(phase, hz, slope, rise) + ATTACK_NOISE * breath * Math.exp(-sinceS / 0.015));
  }
}
const LOUDNESS = 0.22;
const RISE_S = 0.025;
const FALL_S = 0.03;
const ATTACK_NOISE = 0.5;

/** Sixteen harmonics at most, fewer near the top of hearing; the high ones come a little later than the low. */
function voice(phase: number, hz: number, slope: number, rise: number): number {
  const twice = 2 * Math.cos(phase);
  let before = 0;
  let sine = Math.sin(phase);
  let sum = 0;
  for (let harmonic = 1; harmonic <= 16 && harmonic * hz < 18_000; harmonic++) {
    sum += sine * harmonic ** -slope * Math.exp(-((harmonic * hz) ** 2) / 3.6e7) * rise ** (harmonic / 6);
    const next = twice * sine - before;
    before = sine;
    sine = next;
  }
  return sum;
}

/** Each camera hears the tone in a hiss of its own. */
const NOISE_STREAMS: Readonly<Record<Scene['view'], number>> = { front: 41, right: 42, left: 43, above: 44 };

/** White noise through three slow filters: falls by 3 dB an octave within half a decibel from 20 Hz up (the usual economy filter; coefficients are values from memory). */
function pinkNoise({ seed, view }: Scene, count: number): Float32Array {
  const random = createRandom(seed, NOISE_STREAMS[view]);
  const pink = new Float32Array(count);
  let [slow, middle, quick] = [0, 0, 0];
  for (let at = 0; at < count; at++) {
    const white = random.normal();
    slow = 0.99765 * slow + 0.099046 * white;
    middle = 0.963 * middle + 0.2965164 * white;
    quick = 0.57 * quick + 1.0526913 * white;
    pink[at] = slow + middle + quick + 0.1848 * white;
  }
  return pink;
}
