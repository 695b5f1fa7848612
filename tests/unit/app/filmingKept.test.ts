import { describe, expect, test } from 'vitest';
import type { FilmSource } from '../../../src/app/filmingTypes';
import { type TakeAsked, takenIn } from '../../../src/app/filmingKept';
import { startHistory } from '../../../src/app/history';
import type { ReadingSpec } from '../../../src/core/specs';
import type { MeasuredNote } from '../../../src/measure/takeReadings';
import { NO_MARKS } from '../../../src/notebook/measure/marksEdits';
import { readMeasuring } from '../../../src/records/measuringSchema';

const film = {
  file: { name: 'front.mp4', bytes: 1234, digest: '0123456789abcdef' },
  view: 'front',
  work: { facts: { startS: 0, endS: 4, width: 1280, height: 720 } },
  lensMm: null,
  hornMarkMm: { value: 50, sd: 1 },
  offsetS: 0,
  anchors: startHistory([{ timeS: 1, marks: { ...NO_MARKS, rim: [{ x: 1, y: 2 }], landmarks: { 'nose-bridge': { x: 3, y: 4 } } } }]),
  followed: { trace: { view: 'front', frames: [{ timeS: 0.5, rim: null, points: { 'nose-bridge': { x: 3, y: 4, sdPx: 0.2 } } }] }, notFollowed: [], words: null, head: null, anchors: [] },
} as unknown as FilmSource;

const note = (midi: number | null, startS: number, told: Partial<MeasuredNote> = {}): MeasuredNote => ({
  note: { startS, endS: startS + 0.5, midi, cents: 0 },
  short: false,
  travel: { upMm: 1.234, rightMm: -0.5, sdMm: 0.1234, frames: 11 },
  elevation: 'lost',
  lateral: 'lost',
  lostPart: 0,
  ...told,
});

const asked = (notes: readonly MeasuredNote[]): TakeAsked => ({ measuringId: 'm1', date: '2026-05-12', films: [film], notes, tuningCents: 4, homeMidi: 58 });
const taken = (before: readonly ReadingSpec[], notes: readonly MeasuredNote[]) => {
  const result = takenIn(before, asked(notes));
  if (result.kind === 'refused') throw new Error(result.words);
  return result;
};
const typed: ReadingSpec = { note: 'Bb3', travel: { upMm: 0, rightMm: 0 } };

describe('a take goes into the lesson', () => {
  test('behind what is there, as one further take, rounded to what it is worth', () => {
    const { readings, words } = taken([typed], [note(58, 1), note(62, 2)]);
    expect(readings).toHaveLength(3);
    expect(readings[2]).toEqual({
      note: 'D4',
      take: 2,
      travel: { upMm: 1.23, rightMm: -0.5, sdMm: 0.12 },
      method: 'video',
      from: { measuring: 'm1', startS: 2.06, endS: 2.44 },
    });
    expect(words).toBe('2 readings were taken into the lesson as take 2.');
  });

  test('what nobody had seen is filled, and not repeated', () => {
    const { readings } = taken([{ note: 'Bb3' }, { note: 'F4' }], [note(58, 1)]);
    expect(readings.map((one) => [one.note, one.take])).toEqual([['F4', undefined], ['Bb3', 1]]);
  });

  test('accepted again, it takes its own place', () => {
    const first = taken([typed], [note(58, 1), note(62, 2)]);
    const again = taken(first.readings, [note(58, 1), note(62, 2), note(65, 3)]);
    expect(again.readings.map((one) => [one.note, one.take ?? 1])).toEqual([['Bb3', 1], ['Bb3', 2], ['D4', 2], ['F4', 2]]);
  });

  test('an angle that was not seen stands as at home, as one that nobody saw', () => {
    const { readings } = taken([], [note(58, 1, { lateral: { value: 2, sd: 1, frames: 9 } }), note(62, 2, { elevation: { value: -12.345, sd: 0.678, frames: 9 } })]);
    expect(readings[1]!.horn).toEqual({ elevationDeg: -12.35, lateralDeg: 2, sdDeg: 0.68, lateralSdDeg: 45 });
  });

  test('notes without a name or without anything seen are left out; nothing at all is refused', () => {
    const { readings } = taken([], [note(null, 1), note(62, 2), note(65, 3, { travel: 'lost' })]);
    expect(readings.map((one) => one.note)).toEqual(['D4']);
    const nothing = takenIn([], asked([note(null, 1)]));
    expect(nothing).toMatchObject({ kind: 'refused', words: expect.stringContaining('follow the marks') as string });
  });

  test('what is kept of it can be kept: it passes its own schema, with marks, trace and notes', () => {
    const { measuring } = taken([typed], [note(58, 1), note(62, 2, { elevation: { value: -12, sd: 0.7, frames: 9 } })]);
    const read = readMeasuring(measuring);
    if (read.kind === 'refused') throw new Error(read.message);
    expect(read.measuring).toMatchObject({ kind: 'film', take: 2, sound: { tuningCents: 4 } });
    expect(read.measuring.sources[0]).toMatchObject({ name: 'front.mp4', durationS: 4, anchors: [{ timeS: 1 }], trace: { frames: 1 } });
    expect(read.measuring.accepted.map(({ note: name, frames }) => [name, frames])).toEqual([['Bb3', 11], ['D4', 11]]);
  });
});
