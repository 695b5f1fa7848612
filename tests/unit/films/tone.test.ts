/** The made sound: its pitch, its loudness over the noise, its boundaries. */
import { expect, test } from 'vitest';
import type { NotePlayed } from '../../support/films/notesPlayed';
import { sceneOf } from '../../support/films/scene';
import { SOUND_HZ, soundOf } from '../../support/films/tone';
import { expectWithin } from '../../support/expectWithin';

const note = (midi: number, startS: number, endS: number): NotePlayed => ({ midi, startS, endS, upMm: 0, rightMm: 0, elevationDeg: -10, lateralDeg: 0 });
const QUIET = 120;

test.each([[46, 0], [58, -20], [70, 17], [82, 0]])('MIDI %i, %i cents off: the fundamental crosses zero as often as it should', (midi, tuningCents) => {
  const scene = sceneOf({ seed: 4, durationS: 3, tuningCents, soundNoiseDb: QUIET, notes: [note(midi, 0.2, 2.8)] });
  const expected = 440 * 2 ** ((midi - 69 + tuningCents / 100) / 12);
  const found = crossingsHz(lowPassed(soundOf(scene), 1.2 * expected), 0.5, 2.5);
  // Vibrato of up to 6 cents, cut within a turn of a fifth of a second over two seconds, may leave half a cent.
  expectWithin(1200 * Math.log2(found / expected), 0, { abs: 0.7 }, 'cents');
});

test('the tone stands 20 dB over the noise, and nothing sounds between the notes but noise', () => {
  const notes = [note(60, 0.5, 1.5), note(64, 2, 3)];
  const loud = soundOf(sceneOf({ seed: 9, durationS: 4, soundNoiseDb: 20, notes }));
  const alone = soundOf(sceneOf({ seed: 9, durationS: 4, soundNoiseDb: QUIET, notes }));
  const power = (samples: Float32Array, fromS: number, toS: number): number => {
    const part = samples.subarray(fromS * SOUND_HZ, toS * SOUND_HZ);
    return part.reduce((sum, value) => sum + value * value, 0) / part.length;
  };
  const noise = loud.map((value, at) => value - alone[at]!);
  const tone = (power(alone, 0.5, 1.5) + power(alone, 2, 3)) / 2;
  expectWithin(10 * Math.log10(tone / power(noise, 0, 4)), 20, { abs: 0.1 }, 'tone over noise, dB');
  expect(10 * Math.log10(tone / power(alone, 1.51, 1.99))).toBeGreaterThan(100);
  expect(loud.every((value) => Math.abs(value) < 1)).toBe(true);
});

test('the noise is pink: as much in each octave', () => {
  const length = 2 ** 17;
  const scene = { seed: 9, durationS: length / SOUND_HZ, notes: [note(60, 0.5, 1.5)] };
  const loud = soundOf(sceneOf({ ...scene, soundNoiseDb: 0 }));
  const alone = soundOf(sceneOf({ ...scene, soundNoiseDb: QUIET }));
  const noise = loud.map((value, at) => value - alone[at]!);
  const octave = (lowHz: number): number => {
    const below = lowPassed(noise, lowHz);
    const band = lowPassed(noise, 2 * lowHz).map((value, at) => value - below[at]!);
    return 10 * Math.log10(band.reduce((sum, value) => sum + value * value, 0) / length);
  };
  const levels = [200, 800, 3200].map(octave);
  // Wide filters and a finite run; white noise would rise by 6 dB from each to the next.
  for (const level of levels) expectWithin(level, levels[1]!, { abs: 1.5 }, 'level of an octave, dB');
});

test('a slur keeps sounding and glides within 40 ms each way', () => {
  const scene = sceneOf({ seed: 4, durationS: 3, tuningCents: 0, soundNoiseDb: QUIET, notes: [note(60, 0.2, 1.5), note(67, 1.5, 2.8)] });
  const samples = soundOf(scene);
  const low = 440 * 2 ** ((60 - 69) / 12);
  const high = 440 * 2 ** ((67 - 69) / 12);
  const fundamental = lowPassed(samples, 1.3 * high);
  for (const [fromS, toS, hz] of [[1.2, 1.45, low], [1.55, 1.8, high]] as const) {
    // A quarter of a second holds only part of a vibrato's turn: its whole 6 cents may be left.
    expectWithin(1200 * Math.log2(crossingsHz(lowPassed(fundamental, 1.2 * hz), fromS, toS) / hz), 0, { abs: 8 }, `cents from ${fromS} s`);
  }
  expect(Math.max(...samples.subarray(1.49 * SOUND_HZ, 1.51 * SOUND_HZ))).toBeGreaterThan(0.1);
});

/** Rising crossings of zero between two times, placed between samples. */
function crossingsHz(samples: Float32Array, fromS: number, toS: number): number {
  const times: number[] = [];
  for (let at = Math.round(fromS * SOUND_HZ); at < toS * SOUND_HZ; at++) {
    const [before, after] = [samples[at]!, samples[at + 1]!];
    if (before < 0 && after >= 0) times.push(at + before / (before - after));
  }
  return ((times.length - 1) * SOUND_HZ) / (times.at(-1)! - times[0]!);
}

/** Four poles, forward and back, so that nothing is late. */
function lowPassed(samples: Float32Array, hz: number): Float32Array {
  const keep = Math.exp((-2 * Math.PI * hz) / SOUND_HZ);
  let now = samples;
  for (let pass = 0; pass < 4; pass++) {
    const out = new Float32Array(now.length);
    let value = 0;
    for (let at = 0; at < now.length; at++) out[at] = value += (1 - keep) * (now[at]! - value);
    now = out.reverse();
  }
  return now;
}
