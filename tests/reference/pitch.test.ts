import { describe, expect, it } from 'vitest';
import { centsBetween, hertz, midiOf, partialCents, partialSemitones, slideExtensionMm, writtenMidi } from '../../src/core/pitch';
import { instrumentById } from '../../src/records/library';
import { expectWithin } from '../support/expectWithin';

describe('concert pitch (ISO 16:1975: A in the treble staff is 440 Hz)', () => {
  it('A4 = 440 Hz', () => {
    expect(midiOf('A4')).toBe(69);
    expectWithin(hertz(midiOf('A4')), 440, { abs: 1e-12 });
  });

  it('takes another A4, in proportion', () => {
    expectWithin(hertz(57, 442), 221, { rel: 1e-15 });
  });
});

/** MIDI numbers (A4 = 69, middle C = C4 = 60: MIDI 1.0) and equal temperament, worked out with 25 digits. */
describe('MIDI numbers and hertz', () => {
  it.each([
    ['A0', 21, 27.5],
    ['Bb0', 22, 29.13523509],
    ['F1', 29, 43.65352893],
    ['Bb1', 34, 58.27047019],
    ['Bb2', 46, 116.5409404],
    ['C3', 48, 130.8127827],
    ['A3', 57, 220],
    ['C4', 60, 261.6255653],
    ['Bb4', 70, 466.1637615],
    ['Bb5', 82, 932.327523],
    ['C6', 84, 1046.502261],
    ['C8', 108, 4186.009045],
  ])('%s is %i, %d Hz', (note, midi, frequency) => {
    expect(midiOf(note)).toBe(midi);
    // Half of the last of the ten printed digits.
    expectWithin(hertz(midi), frequency, { rel: 5e-10 });
  });
});

/** Harmonic series against equal temperament: log2 of whole numbers, exact arithmetic. */
describe('partials', () => {
  it('lie so many semitones above the fundamental', () => {
    expect(Array.from({ length: 16 }, (_, index) => partialSemitones(index + 1))).toEqual([
      0, 12, 19, 24, 28, 31, 34, 36, 38, 40, 42, 43, 44, 46, 47, 48,
    ]);
  });

  it.each([
    [2, 0],
    [3, 1.955],
    [4, 0],
    [5, -13.686],
    [6, 1.955],
    [7, -31.174],
    [8, 0],
    [9, 3.91],
    [10, -13.686],
    [11, -48.682],
    [12, 1.955],
    // 40.528 cents above 44 semitones.
    [13, 40.528],
    [14, -31.174],
    [15, -11.731],
    [16, 0],
  ])('partial %i is %d cents off its semitone', (partial, cents) => {
    expectWithin(partialCents(partial), cents, { abs: 5e-4 });
    expectWithin(centsBetween(hertz(34) * partial, hertz(34 + partialSemitones(partial))), -cents, { abs: 5e-4 });
  });
});

/**
 * Fundamentals (partial 1): B flat trumpet B♭2 and horn in F F1 from published tables of brass instruments; the others follow from
 * the tube's length in the same tables (9 ft: B♭1, 18 ft: B♭0). Many tables print the second partial, an octave higher.
 * Written against sounding pitch: value from memory.
 */
describe('instruments', () => {
  it.each([
    ['trumpet', 'Bb2', 116.54094, 2],
    ['french-horn', 'F1', 43.65353, 7],
    ['tenor-trombone', 'Bb1', 58.27047, 0],
    ['bass-trombone', 'Bb1', 58.27047, 0],
    ['euphonium', 'Bb1', 58.27047, 0],
    ['tuba', 'Bb0', 29.13524, 0],
  ])('%s: fundamental %s, %d Hz, written %i semitones above the sound', (id, note, frequency, transposition) => {
    const instrument = instrumentById(id);
    expect(instrument?.fundamentalMidi).toBe(midiOf(note));
    expectWithin(hertz(instrument?.fundamentalMidi ?? Number.NaN), frequency, { abs: 5e-6 });
    expect(instrument?.notations[0]?.transpositionSemitones).toBe(transposition);
  });

  it.each([
    ['euphonium', 14],
    ['tuba', 26],
  ])('%s in treble clef is written %i semitones above the sound (value from memory)', (id, transposition) => {
    const treble = instrumentById(id)?.notations.find(({ clef }) => clef === 'treble');
    expect(treble?.transpositionSemitones).toBe(transposition);
  });

  it('the B flat trumpet’s written C5 sounds B♭4; the horn in F’s written C5 sounds F4', () => {
    const written = (id: string, sounding: string): number =>
      writtenMidi(midiOf(sounding), instrumentById(id)?.notations[0] ?? { transpositionSemitones: Number.NaN });
    expect(written('trumpet', 'Bb4')).toBe(midiOf('C5'));
    expect(written('french-horn', 'F4')).toBe(midiOf('C5'));
  });

  /** Comfortable sounding ranges: value from memory. Tenor trombone and trumpet: partial 2 lowered six semitones, exact. */
  it.each([
    ['trumpet', 'E3', 'Bb5'],
    ['french-horn', 'B1', 'F5'],
    ['tenor-trombone', 'E2', 'Bb4'],
    ['euphonium', 'E2', 'Bb4'],
    ['tuba', 'E1', 'F4'],
  ])('%s is comfortable from %s to %s', (id, low, high) => {
    expect(instrumentById(id)?.comfortableRange).toEqual({ low, high });
  });

  it.each(['trumpet', 'tenor-trombone', 'euphonium'])('%s: its lowest note is partial 2 lowered by six semitones', (id) => {
    const instrument = instrumentById(id);
    expect(midiOf(instrument?.comfortableRange.low ?? '')).toBe((instrument?.fundamentalMidi ?? Number.NaN) + partialSemitones(2) - 6);
  });
});

/** Slide positions: half of L0 (2^((p−1)/12) − 1) with L0 = 2.74 m (9 ft, published tables), worked out; equal temperament, no end effects. */
describe('trombone slide', () => {
  it.each([
    [1, 0],
    [2, 81.46],
    [3, 167.77],
    [4, 259.21],
    [5, 356.09],
    [6, 458.73],
    [7, 567.47],
  ])('position %i is drawn out %d mm', (position, extensionMm) => {
    expectWithin(slideExtensionMm(position), extensionMm, { abs: 0.005 });
  });
});
