import { describe, expect, it } from 'vitest';
import { added, boundaryMoved, joinedWithNext, notesFromTaps, removed, renamed, split } from '../../../src/measure/tapped';
import type { NoteHeard } from '../../../src/measure/traces';

const note = (startS: number, endS: number, midi: number | null = null, cents: number | null = null): NoteHeard => ({ startS, endS, midi, cents });
const two = [note(1, 2, 60, 5), note(2, 3, 62, -3)];

describe('taps', () => {
  it('begin notes, and a pause ends one', () => {
    const taps = [{ timeS: 2, kind: 'pause' as const }, { timeS: 1, kind: 'note' as const }, { timeS: 3, kind: 'note' as const }];
    expect(notesFromTaps(taps, 4)).toEqual([note(1, 2), note(3, 4)]);
  });

  it('that bounce count once', () => {
    expect(notesFromTaps([{ timeS: 1, kind: 'note' }, { timeS: 1.04, kind: 'note' }], 2)).toEqual([note(1, 2)]);
  });

  it('refuse what is no time', () => {
    expect(() => notesFromTaps([{ timeS: NaN, kind: 'note' }], 2)).toThrow(/timeS NaN; allowed: a finite number/);
  });
});

describe('changes', () => {
  it('name anew, and forget how far off the old name it was', () => {
    expect(renamed(two, 0, 61)).toEqual({ kind: 'edited', notes: [note(1, 2, 61), two[1]] });
    expect(() => renamed(two, 0, 128)).toThrow(/midi 128; allowed: a whole number from 0 to 127/);
    expect(() => renamed(two, 2, 60)).toThrow(/index 2; allowed: 0 to 1/);
  });

  it('part and join', () => {
    expect(split(two, 0, 1.5)).toEqual({ kind: 'edited', notes: [note(1, 1.5, 60, 5), note(1.5, 2, 60, 5), two[1]] });
    expect(split(two, 0, 1.95)).toEqual({ kind: 'refused', reason: 'too-short' });
    expect(joinedWithNext(two, 0)).toEqual({ kind: 'edited', notes: [note(1, 3, 60, 5)] });
    expect(joinedWithNext(two, 1)).toEqual({ kind: 'refused', reason: 'no-next' });
  });

  it('move what two notes share, and stop at what they do not', () => {
    expect(boundaryMoved(two, 1, 'start', 1.6)).toEqual({ kind: 'edited', notes: [note(1, 1.6, 60, 5), note(1.6, 3, 62, -3)] });
    const apart = [note(1, 2), note(2.5, 3)];
    expect(boundaryMoved(apart, 0, 'end', 2.6)).toEqual({ kind: 'refused', reason: 'in-the-way' });
    expect(boundaryMoved(apart, 0, 'end', 2.5)).toEqual({ kind: 'edited', notes: [note(1, 2.5), note(2.5, 3)] });
  });

  it('remove and add', () => {
    expect(removed(two, 0)).toEqual({ kind: 'edited', notes: [two[1]] });
    expect(added(two, note(0, 1))).toEqual({ kind: 'edited', notes: [note(0, 1), ...two] });
    expect(added(two, note(2.9, 3.5))).toEqual({ kind: 'refused', reason: 'in-the-way' });
  });
});
