import { describe, expect, test } from 'vitest';
import type { ReadingSpec } from '../../../../src/core/specs';
import { byPitch, byTake, takesOf, withCellInAll, withDuplicate, withFurtherTake, withMoved, withNextNote } from '../../../../src/notebook/readings/readingsEdits';
import { asFurtherTakes, withMissing } from '../../../../src/notebook/readings/incoming';
import type { CellStyle } from '../../../../src/records/readingCell';

const style: CellStyle = { naming: 'scientific', transpositionSemitones: 0, decimal: 'point', form: 'page' };
const notes = (readings: readonly ReadingSpec[]): string => readings.map(({ note }) => note).join(' ');
const of = (text: string): ReadingSpec[] => text.split(' ').map((note) => ({ note }));

describe('the next note', () => {
  test.each([
    ['', -1, 'F4'],
    ['C4', 0, 'C4 D4'],
    // The interval before goes on, down too.
    ['C4 E4', 1, 'C4 E4 Ab4'],
    ['C5 Bb4', 1, 'C5 Bb4 Ab4'],
    ['C4 C4', 1, 'C4 C4 D4'],
    // A leap of more than an octave is not guessed again.
    ['C3 F4', 1, 'C3 F4 G4'],
    ['C4 G9', 1, 'C4 G9 G9'],
    ['C4 E4', 0, 'C4 D4 E4'],
  ])('after %s at %i: %s', (before, index, after) => {
    expect(notes(withNextNote(before === '' ? [] : of(before), index))).toBe(after);
  });

  test('is not put after the two hundredth, which a record could not hold', () => {
    const full: ReadingSpec[] = Array.from({ length: 200 }, () => ({ note: 'C4' }));
    expect(withNextNote(full, 199)).toBe(full);
    expect(withNextNote(full.slice(1), 198)).toHaveLength(200);
  });

  test('is of the same take and way, measured in the same way, and nothing is seen of it', () => {
    const [, next] = withNextNote([{ note: 'C4', take: 2, direction: 'down', method: 'video', ease: 3, travel: { upMm: 1, rightMm: 0 } }], 0);
    expect(next).toEqual({ note: 'D4', take: 2, direction: 'down', method: 'video' });
  });
});

describe('takes', () => {
  const first: ReadingSpec[] = [
    { note: 'C4', direction: 'up', ease: 4, travel: { upMm: 0, rightMm: 0 } },
    { note: 'E4', direction: 'up', method: 'ruler', remark: 'late' },
  ];

  test('a further one has the notes of the last in their order, and nothing seen', () => {
    const two = withFurtherTake(first);
    expect(two.slice(0, 2)).toEqual(first);
    expect(two.slice(2)).toEqual([
      { note: 'C4', direction: 'up', take: 2 },
      { note: 'E4', direction: 'up', method: 'ruler', take: 2 },
    ]);
    expect(takesOf(withFurtherTake(two))).toEqual([1, 2, 3]);
    expect(withFurtherTake(two)).toHaveLength(6);
  });

  test('there is none after the ninety-ninth', () => {
    const last: ReadingSpec[] = [{ note: 'C4', take: 99 }];
    expect(withFurtherTake(last)).toBe(last);
  });

  test('by pitch the takes of a note stand together, ascending first; by take they stand apart again', () => {
    const readings: ReadingSpec[] = [
      { note: 'E4' },
      { note: 'C4', direction: 'down' },
      { note: 'C4', take: 2 },
      { note: 'C4' },
      { note: 'Fb4', take: 2 },
    ];
    expect(byPitch(readings)).toEqual([readings[3], readings[2], readings[1], readings[0], readings[4]]);
    expect(byTake(readings)).toEqual([readings[0], readings[1], readings[3], readings[2], readings[4]]);
    const sorted = byPitch(readings);
    expect(byPitch(sorted)).toBe(sorted);
  });
});

test('rows are doubled as rows of their own and moved within the table only', () => {
  const readings = of('C4 D4');
  const doubled = withDuplicate(readings, 0);
  expect(doubled).toEqual(of('C4 C4 D4'));
  expect(doubled[1]).not.toBe(doubled[0]);
  expect(notes(withMoved(readings, 0, 1))).toBe('D4 C4');
  expect(withMoved(readings, 0, -1)).toBe(readings);
  expect(withMoved(readings, 1, 1)).toBe(readings);
});

test('one value for all is put where it can stand, and counted where it cannot', () => {
  const readings: ReadingSpec[] = [{ note: 'C4', travel: { upMm: 1, rightMm: 0 } }, { note: 'D4' }, { note: 'E4', take: 2, travel: { upMm: 2, rightMm: 0 } }];
  const all = withCellInAll(readings, 'travelSd', '0,5', style, null);
  expect(all.refused).toBe(1);
  expect(all.readings.map(({ travel }) => travel?.sdMm)).toEqual([0.5, undefined, 0.5]);
  const right = withCellInAll(all.readings, 'travelRightSd', '0,7', style, null);
  expect(right.readings.map(({ travel }) => [travel?.sdMm, travel?.rightSdMm])).toEqual([[0.5, 0.7], [undefined, undefined], [0.5, 0.7]]);
  const second = withCellInAll(readings, 'method', 'video', style, 2);
  expect(second.readings.map(({ method }) => method)).toEqual([undefined, undefined, 'video']);
  expect(second.readings[0]).toBe(readings[0]);
});

describe('readings from a file', () => {
  test('as further takes go on counting', () => {
    const joined = asFurtherTakes([{ note: 'C4' }, { note: 'C4', take: 3 }], [{ note: 'C4' }, { note: 'D4', take: 2 }]);
    expect(joined).toEqual({ kind: 'joined', firstNew: 2, readings: [{ note: 'C4' }, { note: 'C4', take: 3 }, { note: 'C4', take: 4 }, { note: 'D4', take: 5 }] });
  });

  test('beyond 99 takes or 200 readings they are refused', () => {
    expect(asFurtherTakes([{ note: 'C4', take: 99 }], [{ note: 'C4' }])).toEqual({ kind: 'refused', words: 'That would be take 100; allowed: up to 99.' });
    const many = Array.from({ length: 150 }, () => ({ note: 'C4' }));
    expect(asFurtherTakes(many, many)).toEqual({ kind: 'refused', words: 'That would be 300 readings; allowed: up to 200.' });
  });

  test('only missing notes are added, a way of its own for each', () => {
    const there: ReadingSpec[] = [{ note: 'C4', direction: 'up' }, { note: 'A#4' }];
    const joined = withMissing(there, [{ note: 'C4', direction: 'up' }, { note: 'C4', direction: 'down' }, { note: 'Bb4' }]);
    expect(joined).toEqual({ kind: 'joined', firstNew: 2, readings: [...there, { note: 'C4', direction: 'down' }] });
    expect(withMissing(there, there)).toEqual({ kind: 'joined', firstNew: 2, readings: there });
  });
});
