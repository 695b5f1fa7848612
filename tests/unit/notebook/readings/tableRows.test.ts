import { describe, expect, test } from 'vitest';
import type { ReadingSpec } from '../../../../src/core/specs';
import { createTableRows } from '../../../../src/notebook/readings/tableRows';

const readings = (...notes: string[]): ReadingSpec[] => notes.map((note) => ({ note }));
const wrong = { text: '3x', allowed: 'a number' };

describe('rows of the table', () => {
  test('a row stays the same where it is changed, moved, and where others come and go', () => {
    const rows = createTableRows();
    const [c, d, e] = readings('C4', 'D4', 'E4') as [ReadingSpec, ReadingSpec, ReadingSpec];
    const [idC, idD, idE] = rows.of([c, d, e]).map(({ id }) => id);
    const changed = { ...d, ease: 3 };
    expect(rows.of([c, changed, e]).map(({ id }) => id)).toEqual([idC, idD, idE]);
    expect(rows.of([e, c, changed]).map(({ id }) => id)).toEqual([idE, idC, idD]);
    const [added] = readings('F4') as [ReadingSpec];
    const ids = rows.of([e, added, c, changed]).map(({ id }) => id);
    expect([ids[0], ids[2], ids[3]]).toEqual([idE, idC, idD]);
    expect([idC, idD, idE]).not.toContain(ids[1]);
    expect(rows.of([e, changed]).map(({ id }) => id)).toEqual([idE, idD]);
    // A step back brings the earlier objects.
    expect(rows.of([c, d, e]).map(({ id }) => id)).toEqual([idC, idD, idE]);
  });

  test('one object twice in the list makes two rows', () => {
    const rows = createTableRows();
    const [c] = readings('C4') as [ReadingSpec];
    const ids = rows.of([c, c]).map(({ id }) => id);
    expect(ids[0]).not.toBe(ids[1]);
  });

  test('what could not be taken goes on with its row and goes back with the step that brought it', () => {
    const rows = createTableRows();
    const [c, d] = readings('C4', 'D4') as [ReadingSpec, ReadingSpec];
    rows.of([c, d]);
    rows.mark(d, 'travelUp', wrong);
    const changed = { ...d, ease: 3 };
    expect(rows.of([c, changed])[1]?.wrong.get('travelUp')).toEqual(wrong);
    expect(rows.of([changed, c])[0]?.wrong.get('travelUp')).toEqual(wrong);
    rows.mark(changed, 'travelUp', null);
    expect(rows.of([changed, c])[0]?.wrong.size).toBe(0);
    expect(rows.of([c, d])[1]?.wrong.get('travelUp')).toEqual(wrong);
  });

  test('marks are told of, and only where they change', () => {
    const rows = createTableRows();
    const [c] = readings('C4') as [ReadingSpec];
    let heard = 0;
    const stop = rows.subscribe(() => (heard += 1));
    const before = rows.version();
    rows.mark(c, 'ease', null);
    expect([heard, rows.version()]).toEqual([0, before]);
    rows.mark(c, 'ease', wrong);
    expect(heard).toBe(1);
    expect(rows.version()).not.toBe(before);
    stop();
    rows.mark(c, 'ease', null);
    expect(heard).toBe(1);
  });
});
