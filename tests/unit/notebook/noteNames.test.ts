import { expect, it } from 'vitest';
import { readNote, shownMidi, shownNote } from '../../../src/notebook/noteNames';

it('shows and reads in the naming chosen, written or sounding', () => {
  expect(shownNote('Bb3', 0, 'german')).toBe('B3');
  expect(shownMidi(59, 0, 'german')).toBe('H3');
  expect(shownNote('A3', 2, 'german')).toBe('H3');
  expect(shownNote('Bb3', 2, 'solfège')).toBe('Do4');
  expect(readNote(' H3 ', 2, 'german')).toEqual({ kind: 'note', note: 'A3' });
  expect(readNote('Si♭3', 0, 'solfège')).toEqual({ kind: 'note', note: 'Bb3' });
});

it('says in words what is allowed in that naming', () => {
  expect(readNote('Bb3', 0, 'german')).toEqual({
    kind: 'wrong',
    words: '“Bb3” is not a note. Allowed: a German note name such as C4 (middle C), H3, B3, Cis4 or Es4, or with strokes as c’, c1, c, C or C, (from C-1 to G9).',
  });
  expect(readNote('H3', 0, 'solfège')).toMatchObject({ words: expect.stringContaining('Do4 (middle C)') as string });
});
