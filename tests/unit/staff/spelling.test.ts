/** Transpositions and clefs: common practice of brass parts, no published source. */
import { describe, expect, test } from 'vitest';
import { midiOf } from '../../../src/core/pitch';
import type { ClefName } from '../../../src/staff/props';
import { accidentals, printedLabel, staffPosition, writtenName, writtenNote } from '../../../src/staff/spelling';

const instrument = (transpositionSemitones: number, clef: ClefName = 'treble') => ({ name: 'test', clef, transpositionSemitones });
const written = (label: string, semitones: number) => writtenName(writtenNote({ midi: midiOf(label), label }, instrument(semitones)));

describe('written pitch', () => {
  test.each([
    // sounding, written − sounding, written
    ['Bb4', 2, 'C5'], // trumpet in B flat
    ['F4', 2, 'G4'],
    ['Eb5', 2, 'F5'],
    ['E4', 2, 'F♯4'],
    ['G#4', 2, 'A♯4'],
    ['F4', 7, 'C5'], // horn in F
    ['Bb2', 7, 'F3'],
    ['Eb4', 7, 'B♭4'],
    ['Bb2', 14, 'C4'], // euphonium in treble clef, a ninth up
    ['Eb2', 21, 'C4'], // E flat bass in treble clef, an octave and a sixth up
    ['C4', -3, 'A3'], // an E flat instrument that sounds higher than written
    ['Bb3', 0, 'B♭3'],
    ['A#3', 0, 'A♯3'],
  ])('sounding %s, written %d semitones away, is %s', (label, semitones, expected) => {
    expect(written(label, semitones)).toBe(expected);
  });

  test('a spelling that would need a double accidental or a white key by another name becomes the usual one', () => {
    expect(written('D#4', 2)).toBe('F4');
    expect(written('Cb5', 0)).toBe('B4');
    expect(written('B#3', 0)).toBe('C4');
  });

  test('a label that names the written pitch is taken as it stands', () => {
    const note = writtenNote({ midi: 68, label: 'Bb4' }, instrument(2));
    expect(writtenName(note)).toBe('B♭4');
    expect(writtenName(writtenNote({ midi: 68, label: 'A#4' }, instrument(2)))).toBe('A♯4');
  });

  test('a label that is no name of the pitch leaves the usual spelling', () => {
    const names = [60, 61, 63, 66, 68, 70].map((midi) => writtenName(writtenNote({ midi, label: 'low' }, instrument(0))));
    expect(names).toEqual(['C4', 'C♯4', 'E♭4', 'F♯4', 'A♭4', 'B♭4']);
  });

  test('the pitch is kept at every transposition a part may have', () => {
    for (let semitones = -24; semitones <= 24; semitones += 1) {
      for (let midi = 30; midi <= 90; midi += 1) {
        const { letter, octave, alteration } = writtenNote({ midi, label: '' }, instrument(semitones));
        const name = `${letter}${alteration < 0 ? 'b' : alteration > 0 ? '#' : ''}${octave}`;
        expect(midiOf(name), `${midi} written ${semitones}`).toBe(midi + semitones);
      }
    }
  });

  test('a pitch that cannot be written is refused with its value', () => {
    expect(() => writtenNote({ midi: 120, label: '' }, instrument(14))).toThrow(/134.*0 to 127/);
    expect(() => writtenNote({ midi: 60.5, label: '' }, instrument(0))).toThrow(/60\.5/);
  });
});

describe('place on the staff', () => {
  const position = (label: string, clef: ClefName) =>
    staffPosition(writtenNote({ midi: midiOf(label), label }, instrument(0, clef)), clef);

  test('the five lines of each clef', () => {
    const lines: Record<ClefName, string[]> = {
      treble: ['E4', 'G4', 'B4', 'D5', 'F5'],
      alto: ['F3', 'A3', 'C4', 'E4', 'G4'],
      tenor: ['D3', 'F3', 'A3', 'C4', 'E4'],
      bass: ['G2', 'B2', 'D3', 'F3', 'A3'],
    };
    for (const [clef, names] of Object.entries(lines)) {
      expect(names.map((name) => position(name, clef as ClefName)), clef).toEqual([0, 2, 4, 6, 8]);
    }
  });

  test('middle C: a ledger line below the treble, above the bass staff', () => {
    expect(position('C4', 'treble')).toBe(-2);
    expect(position('C4', 'bass')).toBe(10);
  });

  test('an accidental does not move the note', () => {
    expect(position('Bb2', 'bass')).toBe(position('B2', 'bass'));
  });
});

describe('accidentals', () => {
  const signs = (...labels: string[]) =>
    accidentals(labels.map((label) => writtenNote({ midi: midiOf(label), label }, instrument(0))));

  test('altered notes carry their sign, plain ones none', () => {
    expect(signs('Bb2', 'F3', 'F#3')).toEqual(['b', null, '#']);
  });

  test('a natural where the same place was altered before, once, and not an octave away', () => {
    expect(signs('Bb2', 'B2', 'B2', 'B3')).toEqual(['b', 'n', null, null]);
  });

  test('a flat that comes again is shown again: readings are looked at one by one', () => {
    expect(signs('Bb2', 'Bb2')).toEqual(['b', 'b']);
  });
});

test('labels are printed with real signs when they are notes', () => {
  expect(printedLabel('Bb4')).toBe('B♭4');
  expect(printedLabel('F#3')).toBe('F♯3');
  expect(printedLabel('high tab')).toBe('high tab');
});
