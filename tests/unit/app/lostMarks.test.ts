import { describe, expect, test } from 'vitest';
import type { FilmSource } from '../../../src/app/filmingTypes';
import { lostMarks } from '../../../src/app/lostMarks';
import { beforeAccepting } from '../../../src/app/takeNow';
import type { TakeShown } from '../../../src/app/takeResults';
import type { MeasuredNote } from '../../../src/measure/takeReadings';
import type { HeadSample, TracedFrame } from '../../../src/measure/traces';

const at = { x: 1, y: 2, sdPx: 0.1 };
const TRAVEL = { upMm: 0, rightMm: 0, sdMm: 0.2, rightSdMm: 0.2 };
const ANGLE = { deg: 1, sdDeg: 1 };

/** Twenty frames, 0.1 s apart: the head is gone in 4 and 5, the far horn mark in 10 to 15, the left ear in 18. */
const isHead = (index: number): boolean => index !== 4 && index !== 5;
const isHorn = (index: number): boolean => index < 10 || index > 15;
const frames = Array.from({ length: 20 }, (_, index): TracedFrame => ({
  timeS: index / 10,
  rim: null,
  points: { ...(isHead(index) && { 'nose-bridge': at }), ...(isHorn(index) && { 'horn-far': at }), ...(index !== 18 && { 'ear-left': at }) },
}));
const samples = frames.map(({ timeS }, index): HeadSample => ({
  timeS,
  travel: isHead(index) ? TRAVEL : null,
  elevation: isHead(index) && isHorn(index) ? ANGLE : null,
  lateral: null,
}));
const film = {
  id: 'front',
  file: { name: 'front.mp4' },
  offsetS: 0.5,
  followed: { trace: { view: 'front', frames }, notFollowed: [], words: null, head: { kind: 'found', setAside: ['ear-right'] }, anchors: [] },
} as unknown as FilmSource;
const take: TakeShown = { notes: [], notesOf: new Map(), samplesOf: new Map([['front', samples]]) };

describe('what was lost on the way', () => {
  test('is told by what it costs: everything, a part of the numbers, or a mark alone', () => {
    const round = (s: number): number => Number(s.toFixed(3));
    expect(lostMarks(film, take).stretches.map(({ startS, endS, cost, what }) => [round(startS), round(endS), cost, what])).toEqual([
      [0.9, 1, 'all', ['Bridge of the nose']],
      [1.5, 2, 'some', ['Horn, toward the bell']],
      [2.3, 2.3, 'none', ['Left ear']],
    ]);
    expect(lostMarks(film, take).onTheWay.map(({ what, cost }) => [what, cost])).toEqual([['Horn, toward the bell', 'some'], ['Bridge of the nose', 'all'], ['Left ear', 'none']]);
  });

  test('much of it is said in a sentence: what, how much, where, what it costs and what to do', () => {
    expect(lostMarks(film, take).much.map(({ words }) => words)).toEqual([
      'Horn, toward the bell was lost in 30\u00a0% of the film, longest from 1.50 to 2.00 s: a part of the numbers is missing there. Mark it again there, on something that stands out: a ring, a joint, a sticker, and follow once more.',
      'Bridge of the nose was lost in 10\u00a0% of the film, longest from 0.90 to 1.00 s: nothing is told there. Mark it again there if it is seen; on smooth skin a dot of make-up pencil, put on before filming, can be held, and follow once more.',
    ]);
  });

  test('is worked out once for what was followed and told', () => {
    expect(lostMarks({ ...film }, take)).toBe(lostMarks(film, take));
    expect(lostMarks(film, { ...take })).not.toBe(lostMarks(film, take));
    expect(lostMarks({ ...film, followed: null }, take).much).toEqual([]);
  });
});

test('before accepting: notes without a number, a mark that slipped, marks that were lost', () => {
  const note = (startS: number, travel: MeasuredNote['travel']): MeasuredNote => ({
    note: { startS, endS: startS + 0.4, midi: 60, cents: 0 },
    ...{ short: false, travel, elevation: 'not-in-this-film', lateral: 'not-in-this-film', lostPart: 0 },
  });
  const notes = [note(0.5, { ...TRAVEL, frames: 4 }), note(1, 'lost')];
  const told = beforeAccepting([film], { ...take, notes, notesOf: new Map([['front', notes]]) }, () => 'C4');
  expect(told.map(({ words }) => words)).toEqual([
    'Travel is not told at 1 of 2 notes: C4 at 1.00 s.',
    'Right ear did not move with the rest of the head and was left out: look along the film whether the mark stays in its place, and mark again where not.',
    expect.stringContaining('Horn, toward the bell was lost in 30\u00a0%'),
    expect.stringContaining('Bridge of the nose was lost in 10\u00a0%'),
  ]);
  expect(told[0]!.goTo).toEqual({ filmId: 'front', timeS: 1.2 });
  expect(told[1]!.goTo).toBeNull();
});
