import { describe, expect, test } from 'vitest';
import type { FilmSource } from '../../../src/app/filmingTypes';
import { type TakeAsked, takenIn, tellingFilms } from '../../../src/app/filmingKept';
import { startHistory } from '../../../src/app/history';
import { noteName } from '../../../src/core/pitch';
import type { ReadingSpec } from '../../../src/core/specs';
import type { MeasuredNote } from '../../../src/measure/takeReadings';
import { NO_MARKS } from '../../../src/notebook/measure/marksEdits';
import { readMeasuring } from '../../../src/records/measuringSchema';

const film = {
  id: 'front',
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
  travel: { upMm: 1.234, rightMm: -0.5, sdMm: 0.1234, rightSdMm: 0.2345, frames: 11 },
  elevation: 'lost',
  lateral: 'lost',
  lostPart: 0,
  ...told,
});

const asked = (notes: readonly MeasuredNote[], more: Partial<TakeAsked> = {}): TakeAsked => ({
  ...{ measuringId: 'm1', date: '2026-05-12', films: [film], notes, notesOf: new Map([['front', notes]]), tuningCents: 4, homeMidi: 58, isHomeChosen: false, before: null, nameOf: ({ midi }) => noteName(midi!) },
  ...more,
});
const taken = (before: readonly ReadingSpec[], notes: readonly MeasuredNote[], more: Partial<TakeAsked> = {}) => {
  const result = takenIn(before, asked(notes, more));
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
      travel: { upMm: 1.23, rightMm: -0.5, sdMm: 0.12, rightSdMm: 0.23 },
      method: 'video',
      from: { measuring: 'm1', startS: 2.06, endS: 2.44 },
    });
    expect(words).toBe('2 readings were taken into the lesson as take 2.');
  });

  test('what nobody had seen is filled, and not repeated', () => {
    const { readings } = taken([{ note: 'Bb3' }, { note: 'F4' }], [note(58, 1)]);
    expect(readings.map((one) => [one.note, one.take])).toEqual([['Bb3', 1], ['F4', undefined]]);
  });

  test('accepted again, it takes its own place', () => {
    const first = taken([typed], [note(58, 1), note(62, 2)]);
    const again = taken(first.readings, [note(58, 1), note(62, 2), note(65, 3)]);
    expect(again.readings.map((one) => [one.note, one.take ?? 1])).toEqual([['Bb3', 1], ['Bb3', 2], ['D4', 2], ['F4', 2]]);
  });

  test('what was typed at a note that nobody had measured stays with what is measured there', () => {
    const said: ReadingSpec = { note: 'Bb3', ease: 4, remark: 'fuzzy', airstream: 'down', upperLipShare: 0.6, direction: 'up' };
    const { readings } = taken([said, { note: 'Bb3', direction: 'down' }], [note(58, 1), note(58, 2)]);
    expect(readings).toHaveLength(2);
    expect(readings[0]).toMatchObject({ ...said, take: 1, travel: { upMm: 1.23 }, from: { startS: 1.06 } });
    expect(readings[1]).toMatchObject({ direction: 'down', from: { startS: 2.06 } });
  });

  test('accepted again, what was typed since at its own readings stays: words, an angle that no film tells, a note that is no longer told', () => {
    const first = taken([], [note(58, 1), note(62, 2)]);
    const typedSince = [
      { ...first.readings[0]!, remark: 'loud', ease: 2, horn: { elevationDeg: -20, lateralDeg: 0, sdDeg: 2, lateralSdDeg: 45 } },
      { ...first.readings[1]!, remark: 'soft' },
    ];
    const again = taken(typedSince, [note(58, 1.02, { lateral: { value: 3, sd: 1, frames: 9 } })], { before: first.measuring });
    expect(again.readings).toHaveLength(2);
    expect(again.readings[0]).toMatchObject({ remark: 'loud', ease: 2, horn: { elevationDeg: -20, sdDeg: 2, lateralDeg: 3, lateralSdDeg: 1 } });
    expect(again.readings[1]).toEqual({ note: 'D4', take: 1, remark: 'soft' });
    const without = taken(first.readings, [note(58, 1)], { before: first.measuring });
    expect(without.readings.map((one) => one.note)).toEqual(['Bb3']);
  });

  test('a note with numbers that cannot be is left out and named; the others go in', () => {
    const mad = note(62, 2, { travel: { upMm: 75, rightMm: 0, sdMm: 1, rightSdMm: 1, frames: 9 } });
    const { readings, words, measuring } = taken([], [note(58, 1), mad, note(65, 3, { elevation: { value: 0, sd: 50, frames: 9 } })]);
    expect(readings.map((one) => one.note)).toEqual(['Bb3']);
    expect(words).toContain('D4, F4: left out');
    expect(readMeasuring(measuring).kind).toBe('measuring');
    expect(takenIn([], asked([mad]))).toMatchObject({ kind: 'refused', words: expect.stringContaining('D4: left out') as string });
  });

  test('a film that was not brought onto the take’s clock is not kept as if it had begun with the first', () => {
    expect(tellingFilms([film, { ...film, id: 'side', offsetS: null }, { ...film, id: 'above', followed: null }]).map(({ id }) => id)).toEqual(['front']);
  });

  test('where only the second film tells, what is kept goes by that one’s clock', () => {
    const side = { ...film, id: 'side', offsetS: 7 };
    const { readings, measuring } = taken([], [note(60, 2), note(62, 8)], { films: [side], notesOf: new Map([['side', [note(60, 2), note(62, 8)]]]) });
    expect(readings[1]!.from).toEqual({ measuring: 'm1', startS: 1.06, endS: 1.44 });
    expect(measuring.sources[0]!.offsetS).toBeUndefined();
    expect(measuring.accepted[1]).toMatchObject({ startS: 1.06, endS: 1.44 });
    // The first sounded before this film began.
    expect(measuring.sound!.notes).toEqual([{ startS: 1, endS: 1.5, midi: 62, cents: 0 }]);
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

  test('of two films the one that gave a reading is named, with its own frames', () => {
    const angle = { value: -12, sd: 0.7, frames: 21 };
    const [both, onlySide] = [note(58, 1, { elevation: angle }), note(62, 2, { travel: 'lost', elevation: angle })];
    const ofSide = [note(58, 1, { travel: 'lost', elevation: { ...angle, frames: 9 } }), note(62, 2, { travel: 'lost', elevation: { ...angle, frames: 12 } })];
    const ofFront = [note(58, 1, { elevation: { ...angle, frames: 11 } }), note(62, 2, { travel: 'lost' })];
    const { readings, measuring } = taken([], [both, onlySide], { films: [film, { ...film, id: 'side' }], notesOf: new Map([['front', ofFront], ['side', ofSide]]) });
    expect(readings.map(({ from }) => from?.source)).toEqual([undefined, 1]);
    expect(measuring.accepted.map(({ source, frames }) => [source, frames])).toEqual([[undefined, 11], [1, 12]]);
  });

  test('the note chosen as home is kept with it, where the lesson names none', () => {
    expect(taken([], [note(58, 1)]).measuring.home).toBeUndefined();
    const { measuring } = taken([], [note(58, 1)], { isHomeChosen: true });
    expect(measuring.home).toBe('Bb3');
    expect(readMeasuring(measuring).kind).toBe('measuring');
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
