import { describe, expect, test } from 'vitest';
import { keptPictures, marksInLesson } from '../../../src/app/measuringKept';
import { countedHome, lensOf } from '../../../src/app/measuringResults';
import type { MeasuringSource } from '../../../src/app/measuring';
import { startHistory } from '../../../src/app/history';
import type { LessonSpec } from '../../../src/core/specs';
import { NO_MARKS, withMark } from '../../../src/notebook/measure/marksEdits';
import { readMeasuring } from '../../../src/records/measuringSchema';
import { faultOfMeasuring } from '../../../src/records/tracedReadings';
import { expectWithin } from '../../support/expectWithin';
import { fullPlayer } from '../../support/records';

const FILE = { name: 'a.jpg', bytes: 1234, digest: '0123456789abcdef' };
const marks = withMark(withMark(withMark(NO_MARKS, 'rim-0', { x: 1, y: 2 }), 'horn-from', { x: 3, y: 4 }), 'horn-to', { x: 50, y: 6 });
const source: MeasuringSource = {
  id: 's',
  file: FILE,
  picture: { width: 4000, height: 3000, shown: {} as ImageBitmap, small: null, grey: { width: 1, height: 1, luma: new Uint8Array(1) }, equivalentMm: null },
  view: 'left',
  note: 'F4',
  marks: startHistory(marks),
  lensMm: null,
};
const NOTE = { note: 'F4', source: 0, travel: null, elevation: { deg: 4, sdDeg: 2 }, lateral: null, share: null };

describe('measured pictures in a lesson', () => {
  const lesson: LessonSpec = fullPlayer().lessons.at(-1)!;

  test('can be kept, and the same file finds its marks whatever it is called now', () => {
    const measuring = keptPictures('m', '2026-05-12', [source], [NOTE]);
    expect(faultOfMeasuring(lesson, measuring)).toBeNull();
    const kept = { ...lesson, measurings: [measuring] };
    expect(marksInLesson(kept, { ...FILE, name: 'b.jpg' }, readMeasuring)).toEqual({ view: 'left', note: 'F4', marks });
    expect(marksInLesson(kept, { ...FILE, bytes: 1 }, readMeasuring)).toBeNull();
  });

  test('one that cannot be read is passed over', () => {
    expect(marksInLesson({ ...lesson, measurings: [{ id: 'broken' }] }, FILE, readMeasuring)).toBeNull();
  });
});

describe('the lens', () => {
  test('is the person’s before the file’s, and the file’s before what is assumed', () => {
    const withLens = (lensMm: number | null, equivalentMm: number | null) => lensOf({ ...source, lensMm, picture: { ...source.picture, equivalentMm } });
    expect(withLens(50, 26)).toEqual({ millimetres: 50, from: 'person' });
    expect(withLens(null, 26)).toEqual({ millimetres: 26, from: 'picture' });
    expect(withLens(null, null).from).toBe('assumed');
    // The middle of what it may be, there and back through pixels: rounding alone.
    expectWithin(withLens(null, null).millimetres, 45, { abs: 1e-9 });
  });
});

describe('home', () => {
  test('counts where the lesson has none, or where it is of the lesson’s own note, however that is spelled', () => {
    const state = (note: string | null) => ({ sources: [{ ...source, note }], homeId: 's' });
    expect(countedHome(state('C5'), undefined)).toBe('s');
    expect(countedHome(state('Bb4'), 'A#4')).toBe('s');
    expect(countedHome(state('C5'), 'F4')).toBeNull();
    expect(countedHome(state(null), 'F4')).toBeNull();
  });
});
