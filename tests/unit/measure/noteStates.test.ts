import { describe, expect, it } from 'vitest';
import { findNotes } from '../../../src/measure/noteFinder';
import { notesByFrame } from '../../../src/measure/noteStates';

const trumpet = { lowMidi: 52, highMidi: 82 };
const frames = (...parts: readonly (readonly [number, number | null])[]): (number | null)[] => parts.flatMap(([count, pitch]) => Array<number | null>(count).fill(pitch));
/** Lengths and semitones of what is heard. */
const heard = (pitches: readonly (number | null)[]): [number, number | null][] =>
  notesByFrame(pitches, trumpet).reduce<[number, number | null][]>((runs, { semitone }) => {
    const last = runs.at(-1);
    if (last && last[1] === semitone) last[0]++;
    else runs.push([1, semitone]);
    return runs;
  }, []);

describe('notes by frame', () => {
  it('put right an octave, or a twelfth, for a while', () => {
    expect(heard(frames([20, 70], [5, 58], [20, 70], [4, 70 - 12 * Math.log2(3)], [10, 70]))).toEqual([[59, 70]]);
  });

  it('move a whole note by an octave where the range says so, and leave one a little outside', () => {
    expect(heard(frames([30, 40]))).toEqual([[30, 52]]);
    expect(heard(frames([30, 47]))).toEqual([[30, 47]]);
  });

  it('let an octave be slurred', () => {
    expect(heard(frames([20, 58], [20, 70]))).toEqual([[20, 58], [20, 70]]);
  });

  it('do not part a note for a vibrato, a glitch or a moment without pitch', () => {
    const vibrato = Array.from({ length: 100 }, (_, at) => 70 + 0.5 * Math.sin(at / 3));
    expect(heard(vibrato)).toEqual([[100, 70]]);
    expect(heard(frames([20, 70], [3, 74.4], [20, 70], [3, null], [20, 70]))).toEqual([[66, 70]]);
  });

  it('hear a rest, and a note of 80 ms', () => {
    expect(heard(frames([20, 70], [12, null], [20, 70]))).toEqual([[20, 70], [12, null], [20, 70]]);
    expect(heard(frames([20, 70], [8, 72], [20, 74]))).toEqual([[20, 70], [8, 72], [20, 74]]);
  });
});

it('a range that is none is refused', () => {
  expect(() => findNotes([], { lowMidi: 80, highMidi: 60 })).toThrow(/range 80 to 60; allowed: two MIDI numbers/);
});

it('notes are named by A4 = 440 Hz where their own tuning is unclear, though the frames told one', () => {
  const sounding = (pitch: number | null) => ({ hz: pitch === null ? null : 440 * 2 ** ((pitch - 69) / 12), clarity: pitch === null ? 0 : 1, levelDb: pitch === null ? -90 : -10, brightDb: pitch === null ? -90 : -10 });
  // Slips too short for notes lie a quarter tone's half high; the two notes lie half a semitone apart, so that they keep to no tuning.
  const slips = Array.from({ length: 30 }, () => frames([5, 70.25], [15, null])).flat();
  const pitches = [...frames([40, 60.6], [30, null], [40, 63.1], [30, null]), ...slips];
  const { notes, tuning } = findNotes(pitches.map((pitch, at) => ({ timeS: at / 100, ...sounding(pitch) })), trumpet);
  expect(tuning).toMatchObject({ kind: 'unclear' });
  expect(notes.map(({ midi }) => midi)).toEqual([61, 63]);
});
