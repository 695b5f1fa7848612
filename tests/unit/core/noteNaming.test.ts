import { describe, expect, it } from 'vitest';
import { NOTE_NAMINGS, type NoteNaming, namedNote, noteNamed } from '../../../src/core/noteNaming';
import { midiOf, noteName } from '../../../src/core/pitch';

const sounding = (naming: NoteNaming) => ({ naming, transpositionSemitones: 0 });
const MIDIS = Array.from({ length: 128 }, (_, midi) => midi);

describe('German names', () => {
  // The names as any German theory primer has them: value from memory.
  it.each([
    ['H3', 'B3'], ['B3', 'Bb3'], ['Cis4', 'C#4'], ['Des4', 'Db4'], ['Es4', 'Eb4'], ['As3', 'Ab3'], ['Fis4', 'F#4'], ['His3', 'B#3'],
    ['Ces4', 'Cb4'], ['Fes4', 'Fb4'], ['Eis4', 'E#4'], ['Fisis4', 'F##4'], ['Heses3', 'Bbb3'], ['Eses4', 'Ebb4'], ['Asas4', null],
    ['Deses4', 'Dbb4'], ['F#4', 'F#4'], ['E♭4', 'Eb4'],
  ])('%s is %s', (name, note) => expect(noteNamed(name, sounding('german'))).toBe(note));

  // Octaves by strokes: c' is middle C, the small octave below it, then the great, the contra and the sub-contra octave. Value from memory.
  it.each([
    ["c'", 'C4'], ['c’', 'C4'], ['c1', 'C4'], ['c¹', 'C4'], ['c', 'C3'], ["c''", 'C5'], ['c"', 'C5'], ['c2', 'C5'], ['C', 'C2'], [',C', 'C1'], ['C,', 'C1'],
    ['C₁', 'C1'], ['C,,', 'C0'], ['h', 'B3'], ['b', 'Bb3'], ['B', 'Bb2'], ['H,', 'B1'], ["es'", 'Eb4'], ["fis''", 'F#5'], ['as1', 'Ab4'],
  ])('%s is %s', (name, note) => expect(noteNamed(name, sounding('german'))).toBe(note));

  it.each(['Bb3', 'Bes3', 'Hes3', 'B#3', 'Aes3', 'Ees3', ",c'", "C'", ',C4', 'c0', 'c-1', 'I4', '', "c''''''''''", 'Do4'])('%j is none', (name) =>
    expect(noteNamed(name, sounding('german'))).toBeNull(),
  );
});

describe('solfège', () => {
  it.each([
    ['Do4', 'C4'], ['do4', 'C4'], ['Ut4', 'C4'], ['Ré4', 'D4'], ['Re\u03014', 'D4'], ['Mi♭4', 'Eb4'], ['Sib3', 'Bb3'], ['Ti3', 'B3'], ['Sol#4', 'G#4'], ['Fa##4', 'F##4'],
    ['Labb4', 'Abb4'], ['La4', 'A4'],
  ])('%s is %s', (name, note) => expect(noteNamed(name, sounding('solfège'))).toBe(note));

  it.each(['C4', 'Do', 'Dob', 'H4', 'Doh4', 'Sol10'])('%j is none', (name) => expect(noteNamed(name, sounding('solfège'))).toBeNull());
});

it('each naming takes its own names only where they mean something else elsewhere', () => {
  expect(noteNamed('B3', sounding('scientific'))).toBe('B3');
  expect(noteNamed('B3', sounding('german'))).toBe('Bb3');
  expect(noteNamed('H3', sounding('scientific'))).toBeNull();
  expect(noteNamed('Cis4', sounding('scientific'))).toBeNull();
  expect(noteNamed('Do4', sounding('scientific'))).toBeNull();
});

describe.each(NOTE_NAMINGS)('%s', (naming) => {
  it.each([0, 2, 7, 9, 14, -12])('reads every note it shows, written %i semitones higher, sharps and flats kept', (transpositionSemitones) => {
    const style = { naming, transpositionSemitones };
    for (const midi of MIDIS) {
      for (const note of [noteName(midi), noteName(midi, false)]) expect(noteNamed(namedNote(note, style), style), note).toBe(note);
    }
  });

  it('shows different notes by different names', () => {
    expect(new Set(MIDIS.map((midi) => namedNote(noteName(midi), sounding(naming)))).size).toBe(128);
  });

  it('keeps the pitch of names that two accidentals cannot carry through a transposition', () => {
    for (const note of ['B##3', 'Cbb4', 'F##4', 'Fx4', 'Ebb4']) {
      for (let transpositionSemitones = -13; transpositionSemitones <= 13; transpositionSemitones++) {
        const back = noteNamed(namedNote(note, { naming, transpositionSemitones }), { naming, transpositionSemitones });
        expect(midiOf(back ?? ''), `${note} ${transpositionSemitones}`).toBe(midiOf(note));
      }
    }
  });
});

it('moves the spelling with the interval', () => {
  const trumpet = { naming: 'scientific', transpositionSemitones: 2 } as const;
  expect(namedNote('Bb4', trumpet)).toBe('C5');
  expect(namedNote('F#4', trumpet)).toBe('G♯4');
  expect(namedNote('Gb4', trumpet)).toBe('A♭4');
  expect(namedNote('Bb3', { naming: 'german', transpositionSemitones: 7 })).toBe('F4');
});

it('throws for what is no note, with what is allowed', () => {
  expect(() => namedNote('H4', sounding('german'))).toThrow(/note: "H4"; allowed: a note such as/);
});

it.each(['C-1', 'G9'])('the ends are reached: %s', (note) => {
  for (const naming of NOTE_NAMINGS) expect(noteNamed(namedNote(note, sounding(naming)), sounding(naming))).toBe(note);
  expect(noteNamed('Ces-1', sounding('german'))).toBeNull();
  expect(noteNamed('Gis9', sounding('german'))).toBeNull();
});
