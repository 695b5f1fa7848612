import { describe, expect, it } from 'vitest';
import { createPitchTracker } from '../../../src/measure/pitchTrack';
import { phrase } from '../../support/brassTones';
import { expectWithin } from '../../support/expectWithin';

const RATE = 48_000;
const sine = (hz: number, seconds: number): Float32Array => Float32Array.from({ length: seconds * RATE }, (_, at) => 0.5 * Math.sin((2 * Math.PI * hz * at) / RATE));

describe('a pitch track', () => {
  it('tells a tone, its level and its time', () => {
    const frames = createPitchTracker({ sampleRate: RATE, lowestHz: 165 }).feed({ timeS: 7, samples: sine(440, 0.5) });
    expectWithin(frames[0]!.timeS, 7 + 1024 / RATE, { abs: 1e-9 });
    expectWithin(frames[1]!.timeS - frames[0]!.timeS, 0.01, { abs: 1e-9 });
    for (const { hz, clarity, levelDb } of frames) {
      expectWithin(hz!, 440, { rel: 1e-3 });
      expect(clarity).toBeGreaterThan(0.99);
      // A sine of amplitude 0.5 has a mean square of 1/8.
      expectWithin(levelDb, 10 * Math.log10(0.125), { abs: 0.1 });
    }
  });

  it('is the same in blocks of any length', () => {
    const samples = sine(233, 0.6);
    const whole = createPitchTracker({ sampleRate: RATE, lowestHz: 100 }).feed({ timeS: 0, samples });
    const tracker = createPitchTracker({ sampleRate: RATE, lowestHz: 100 });
    const parts = [];
    for (let from = 0, length = 100; from < samples.length; from += length, length = (length * 7) % 5000 || 100) {
      parts.push(...tracker.feed({ timeS: from / RATE, samples: samples.subarray(from, from + length) }));
    }
    expect(parts.map(({ hz, levelDb }) => ({ hz, levelDb }))).toEqual(whole.map(({ hz, levelDb }) => ({ hz, levelDb })));
    parts.forEach(({ timeS }, at) => expectWithin(timeS, whole[at]!.timeS, { abs: 1e-9 }));
  });

  it('takes up the times again after a gap', () => {
    const tracker = createPitchTracker({ sampleRate: RATE, lowestHz: 165 });
    const before = tracker.feed({ timeS: 0, samples: sine(440, 0.1) });
    const after = tracker.feed({ timeS: 2, samples: sine(440, 0.1) });
    expect(before.length).toBeGreaterThan(3);
    expectWithin(after[0]!.timeS, 2 + 1024 / RATE, { abs: 1e-9 });
  });

  it('refuses a sample rate nobody uses', () => {
    expect(() => createPitchTracker({ sampleRate: 0, lowestHz: 100 })).toThrow(/sampleRate 0; allowed: 8000 to 192000/);
    expect(() => createPitchTracker({ sampleRate: RATE, lowestHz: 0 })).toThrow(/lowestHz 0; allowed: above 0/);
  });

  it.each([['short', 165], ['long', 41]])('with the %s window needs less than a tenth of the time it lasts', (_, lowestHz) => {
    const { samples } = phrase({ seed: 5, lowMidi: 45, highMidi: 64, notes: 8, way: 'tongued' });
    createPitchTracker({ sampleRate: RATE, lowestHz }).feed({ timeS: 0, samples: samples.subarray(0, RATE) });
    // The processor's own time: other work on the machine does not count.
    const before = process.cpuUsage();
    createPitchTracker({ sampleRate: RATE, lowestHz }).feed({ timeS: 0, samples });
    const { user } = process.cpuUsage(before);
    expect(samples.length / RATE / (user / 1e6)).toBeGreaterThan(10);
  }, 60_000);
});
