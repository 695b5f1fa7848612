import { describe, expect, test } from 'vitest';
import { stepOf } from '../../../../src/notebook/measure/keySteps';
import {
  type DraftMarks,
  type MarkId,
  NO_MARKS,
  completeMarks,
  furtherMark,
  markAt,
  marksAsked,
  marksPut,
  nextMark,
  nextWithout,
  nudged,
  placeOf,
  withMark,
  withoutMark,
} from '../../../../src/notebook/measure/marksEdits';

const put = (marks: DraftMarks, ...ids: MarkId[]): DraftMarks => ids.reduce((now, id, index) => withMark(now, id, { x: index, y: 10 + index }), marks);

describe('marks are put, found and taken away', () => {
  test.each(['rim-0', 'ear-left', 'horn-to', 'level-from', 'lip-0'] satisfies MarkId[])('%s', (id) => {
    const marks = withMark(NO_MARKS, id, { x: 3, y: 4 });
    expect(markAt(marks, id)).toEqual({ x: 3, y: 4 });
    expect(marksPut(marks)).toEqual([id]);
    expect(markAt(withMark(marks, id, { x: 5, y: 6 }), id)).toEqual({ x: 5, y: 6 });
    expect(marksPut(withoutMark(marks, id))).toEqual([]);
    expect(markAt(NO_MARKS, id)).toBeNull();
  });

  test('a rim point that goes lets the others move up, and the old marks stay as they were', () => {
    const marks = put(NO_MARKS, 'rim-0', 'rim-1', 'rim-2');
    const less = withoutMark(marks, 'rim-1');
    expect(less.rim).toEqual([{ x: 0, y: 10 }, { x: 2, y: 12 }]);
    expect(marks.rim).toHaveLength(3);
    expect(furtherMark(less, 'rim')).toBe('rim-2');
  });

  test('a point beyond the last is put behind the last, without a gap', () => {
    expect(put(NO_MARKS, 'rim-7').rim).toHaveLength(1);
  });

  test('what has no place is taken away without a step', () => {
    expect(withoutMark(NO_MARKS, 'nose-bridge')).toBe(NO_MARKS);
  });

  test('every mark asked for names its place', () => {
    for (const view of ['front', 'right', 'left', 'above'] as const) {
      for (const id of marksAsked(view)) expect(['rim', 'horn', 'level', 'landmark']).toContain(placeOf(id).kind);
    }
  });
});

describe('which mark is next', () => {
  test('from the front the rim, the head and the horn, in that order; from a side only two lines', () => {
    expect(nextMark(NO_MARKS, 'front')).toBe('rim-0');
    expect(marksAsked('front')).toHaveLength(8 + 9 + 2);
    expect(marksAsked('left')).toEqual(['horn-from', 'horn-to', 'level-from', 'level-to']);
  });

  test('goes on after the one just put, and comes back to what was left out', () => {
    const asked = marksAsked('above');
    expect(nextMark(put(NO_MARKS, 'horn-to'), 'above', 'horn-to')).toBe('level-from');
    expect(nextMark(put(NO_MARKS, 'horn-to', 'level-from', 'level-to'), 'above', 'level-to')).toBe('horn-from');
    expect(nextMark(put(NO_MARKS, ...asked), 'above')).toBeNull();
  });
});

test('a mark that cannot be seen is left out for the next, or for none', () => {
  const asked = marksAsked('front');
  expect(nextWithout(put(NO_MARKS, ...asked.filter((id) => id !== 'ear-left' && id !== 'horn-to')), 'front', 'ear-left')).toBe('horn-to');
  expect(nextWithout(put(NO_MARKS, ...asked.filter((id) => id !== 'ear-left')), 'front', 'ear-left')).toBeNull();
});

describe('what is measured from', () => {
  test('lines with one end, a lip line of one point and emptied marks are left out', () => {
    const marks = withoutMark(put(NO_MARKS, 'horn-from', 'lip-0', 'nose-bridge'), 'nose-bridge');
    expect(completeMarks(marks)).toEqual({ landmarks: {} });
  });

  test('whole ones are in', () => {
    const marks = put(NO_MARKS, 'horn-from', 'horn-to', 'lip-0', 'lip-1', 'rim-0', 'ear-right');
    expect(completeMarks({ ...marks, hornMarkMm: { value: 300, sd: 5 } })).toEqual({
      rim: [{ x: 4, y: 14 }],
      landmarks: { 'ear-right': { x: 5, y: 15 } },
      horn: { from: { x: 0, y: 10 }, to: { x: 1, y: 11 } },
      hornMarkMm: { value: 300, sd: 5 },
      lipLine: [{ x: 2, y: 12 }, { x: 3, y: 13 }],
    });
  });
});

describe('steps by keys', () => {
  const key = (name: string, held: Partial<{ shiftKey: boolean; altKey: boolean; ctrlKey: boolean }> = {}) =>
    ({ key: name, shiftKey: false, altKey: false, ctrlKey: false, metaKey: false, ...held });

  test('one pixel, ten with Shift, a tenth with Alt or where that is chosen', () => {
    expect(stepOf(key('ArrowDown'), false)).toEqual({ x: 0, y: 1 });
    expect(stepOf(key('ArrowLeft', { shiftKey: true }), false)).toEqual({ x: -10, y: 0 });
    expect(stepOf(key('ArrowUp', { altKey: true }), false)).toEqual({ x: 0, y: -0.1 });
    expect(stepOf(key('ArrowRight'), true)).toEqual({ x: 0.1, y: 0 });
    expect(stepOf(key('ArrowRight', { ctrlKey: true }), false)).toBeNull();
    expect(stepOf(key('Enter'), false)).toBeNull();
  });

  test('three tenths are 0.3, and nothing leaves the picture', () => {
    const size = { width: 10, height: 20 };
    let at = { x: 0, y: 0 };
    for (let count = 0; count < 3; count++) at = nudged(at, { x: 0.1, y: 0 }, size);
    expect(at).toEqual({ x: 0.3, y: 0 });
    expect(nudged({ x: 8, y: 0 }, { x: 10, y: -1 }, size)).toEqual({ x: 9, y: 0 });
  });
});
