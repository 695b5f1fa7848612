import { describe, expect, it } from 'vitest';
import {
  centsBetween,
  hertz,
  isNote,
  midiOf,
  noteName,
  partialSemitones,
  printedNote,
  slideExtensionMm,
  soundingMidi,
  writtenMidi,
} from '../../src/core/pitch';
import { createRandom } from '../../src/core/random';
import { expectWithin } from '../support/expectWithin';

describe('midiOf', () => {
  it.each([
    ['C4', 60],
    ['Bb3', 58],
    ['B♭3', 58],
    ['bb3', 58],
    ['F#4', 66],
    ['F♯4', 66],
    ['Cb4', 59],
    ['B#3', 60],
    ['Ebb5', 74],
    ['Fx4', 67],
    ['C-1', 0],
    ['G9', 127],
  ])('reads %s as %i', (note, midi) => {
    expect(midiOf(note)).toBe(midi);
  });

  it.each(['', 'H4', 'C', '4', '60', 'C10', 'C4.5', ' C4', 'C4 ', 'Cb#4', 'C#####4', 'A9', 'Cb-1', 'C4\n', 'do4', 'NaN'])(
    'refuses %j, with the value and what is allowed',
    (note) => {
      expect(isNote(note)).toBe(false);
      expect(() => midiOf(note)).toThrow(RangeError);
      expect(() => midiOf(note)).toThrow(`note: ${JSON.stringify(note)}; allowed: a note such as C4`);
    },
  );

  it('comes back from every name, with flats and with sharps', () => {
    for (let midi = 0; midi <= 127; midi++) {
      expect(midiOf(noteName(midi))).toBe(midi);
      expect(midiOf(noteName(midi, false))).toBe(midi);
    }
  });
});

describe('noteName', () => {
  it('prefers flats unless told, and takes the nearest semitone', () => {
    expect(noteName(58)).toBe('Bb3');
    expect(noteName(58, false)).toBe('A#3');
    expect(noteName(57.6)).toBe('Bb3');
    expect(printedNote('Bb3')).toBe('B♭3');
    expect(printedNote('bb3')).toBe('B♭3');
    expect(printedNote('F#4')).toBe('F♯4');
  });

  it.each([-1, 128, Number.NaN, Number.POSITIVE_INFINITY])('refuses %d', (midi) => {
    expect(() => noteName(midi)).toThrow(/allowed: 0 to 127/);
  });
});

describe('transposition and intervals', () => {
  it('writes a part above the sound and comes back', () => {
    const trumpet = { transpositionSemitones: 2 };
    expect(noteName(writtenMidi(midiOf('Bb4'), trumpet))).toBe('C5');
    expect(soundingMidi(writtenMidi(63, trumpet), trumpet)).toBe(63);
  });

  it('measures cents both ways and refuses what has no logarithm', () => {
    expectWithin(centsBetween(440, 880), 1200, { abs: 1e-9 });
    expectWithin(centsBetween(hertz(61), hertz(60)), -100, { abs: 1e-9 });
    expect(() => centsBetween(0, 440)).toThrow(/allowed: both above 0/);
    expect(() => partialSemitones(1.5)).toThrow(/allowed: a whole number from 1/);
    expect(() => slideExtensionMm(7.5)).toThrow(/allowed: 1 to 7/);
  });
});

describe('createRandom', () => {
  it('repeats with its seed and differs with another', () => {
    const draw = (seed: number): number[] => {
      const random = createRandom(seed);
      return Array.from({ length: 5 }, () => random.uniform());
    };
    expect(draw(7)).toEqual(draw(7));
    expect(draw(7)).not.toEqual(draw(8));
    expect(() => createRandom(0.5)).toThrow(/allowed: a whole number/);
  });

  it('draws standard normals (seed 20, 20,000 draws: mean within 4 and spread within 4 standard errors)', () => {
    const random = createRandom(20);
    const draws = Array.from({ length: 20_000 }, () => random.normal());
    const mean = draws.reduce((sum, draw) => sum + draw, 0) / draws.length;
    const variance = draws.reduce((sum, draw) => sum + (draw - mean) ** 2, 0) / draws.length;
    expectWithin(mean, 0, { abs: 4 / Math.sqrt(20_000) });
    expectWithin(variance, 1, { abs: 4 * Math.sqrt(2 / 20_000) });
    // A kurtosis of 3 tells a normal from a uniform or a two-valued draw of the same spread.
    const kurtosis = draws.reduce((sum, draw) => sum + (draw - mean) ** 4, 0) / draws.length / variance ** 2;
    expectWithin(kurtosis, 3, { abs: 4 * Math.sqrt(24 / 20_000) });
  });

  it('is random from its first draws on, whatever the seed (seeds 0 to 999)', () => {
    for (const skipped of [0, 1, 2]) {
      const tenths = new Array<number>(10).fill(0);
      let products = 0;
      let before = 0.5;
      for (let seed = 0; seed < 1000; seed++) {
        const random = createRandom(seed);
        for (let draw = 0; draw < skipped; draw++) random.uniform();
        const value = random.uniform();
        tenths[Math.floor(10 * value)]! += 1;
        products += (value - 0.5) * (before - 0.5);
        before = value;
      }
      const chiSquare = tenths.reduce((sum, count) => sum + (count - 100) ** 2 / 100, 0);
      // Chi-square of 9 degrees: 33.7 is passed once in 10,000. The product of two uniforms varies by 1/144 each.
      expect(chiSquare).toBeLessThan(33.7);
      expectWithin(products, 0, { abs: (4 * Math.sqrt(1000)) / 12 }, 'seeds in a row');
    }
  });

  it('draws whole numbers at both ends of the range', () => {
    const random = createRandom(3);
    const seen = new Set(Array.from({ length: 200 }, () => random.integer(-1, 2)));
    expect([...seen].sort((a, b) => a - b)).toEqual([-1, 0, 1, 2]);
  });
});
