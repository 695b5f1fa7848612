import { expect, it } from 'vitest';
import { noteNamed } from '../../../src/core/noteNaming';
import { shownMidi, shownNote } from '../../../src/notebook/noteNames';

it('shows in the naming chosen, written or sounding, and what is shown reads back', () => {
  expect(shownNote('Bb3', 0, 'german')).toBe('B3');
  expect(shownMidi(59, 0, 'german')).toBe('H3');
  expect(shownNote('A3', 2, 'german')).toBe('H3');
  expect(shownNote('Bb3', 2, 'solfège')).toBe('Do4');
  expect(noteNamed(' H3 ', { naming: 'german', transpositionSemitones: 2 })).toBe('A3');
  expect(noteNamed('Si♭3', { naming: 'solfège', transpositionSemitones: 0 })).toBe('Bb3');
});
