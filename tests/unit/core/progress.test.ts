import { describe, expect, test } from 'vitest';
import type { CannotTell, Findings } from '../../../src/core/findings/findings';
import { type LessonFindings, dayNumber, progressOf } from '../../../src/core/findings/progress';
import { expectWithin } from '../../support/expectWithin';

const cannot: CannotTell = { kind: 'cannot-tell', reason: 'too-few-notes', needs: [] };
const nothing: LessonFindings['findings'] = { travel: [], follow: { elevation: cannot, lateral: cannot } };
const lesson = (id: string, date?: string, part: Partial<LessonFindings> = {}): LessonFindings => ({ id, date, readings: [], findings: nothing, ...part });
const places = (...dates: (string | undefined)[]): number[] => progressOf(dates.map((date, index) => lesson(String(index), date))).map(({ at }) => at);

describe('the number of a day', () => {
  test('is that of the calendar, by the language’s own clock', () => {
    for (const date of ['1970-01-01', '1969-12-31', '2000-02-29', '2000-03-01', '1900-03-01', '2026-11-26', '0001-01-01', '2400-12-31']) {
      expect(dayNumber(date), date).toBe(Date.parse(`${date}T00:00:00Z`) / 86_400_000);
    }
  });

  test.each(['2026-02-29', '1900-02-29', '2026-13-01', '2026-00-10', '2026-04-31', '26-01-01', 'yesterday', ''])('%s is no day', (date) => {
    expect(() => dayNumber(date)).toThrow(RangeError);
  });
});

describe('places in time', () => {
  test('by the days between lessons', () => expect(places('2026-01-01', '2026-01-08', '2026-02-01')).toEqual([0, 7, 31]));
  test('without dates, by their order', () => expect(places(undefined, undefined, undefined)).toEqual([0, 1, 2]));
  test('one date, or one day, orders nothing', () => {
    expect(places(undefined, '2026-01-01')).toEqual([0, 1]);
    expect(places('2026-01-01', '2026-01-01')).toEqual([0, 1]);
  });
  test('an undated lesson stands between its neighbours, or a step outside', () => {
    expect(places('2026-01-01', undefined, '2026-01-11')).toEqual([0, 5, 10]);
    expect(places(undefined, '2026-01-01', '2026-01-11', undefined).map((at) => Math.round(at * 10) / 10)).toEqual([-3.3, 0, 10, 13.3]);
  });
});

describe('what is known at a lesson', () => {
  const estimate = (value: number) => ({ value, sd: 0.1, low: value - 0.2, high: value + 0.2 });
  const travel = (direction: 'up' | 'down' | null, value: number): Findings['travel'][number] => ({
    direction,
    line: {
      kind: 'told',
      evidence: { notes: 5, readings: 5 },
      fromUpDeg: estimate(0),
      mmPerOctave: estimate(value),
      upMmPerOctave: estimate(value),
      middleMm: { upMm: 0, rightMm: 0 },
      extentMm: estimate(value),
      offLineMm: 0,
      expectedOffLineMm: 0,
      straightP: 1,
    },
    way: cannot,
    turnBack: cannot,
  });

  test('what cannot be told is null', () => {
    expect(progressOf([lesson('a')])[0]).toEqual({
      id: 'a',
      date: null,
      at: 0,
      travelMmPerOctave: null,
      followLateral: null,
      followElevation: null,
      ease: null,
    });
  });

  test('travel of the ascending readings, the ratios, and the mean of the ease that was asked for', () => {
    const ratio = { kind: 'told' as const, evidence: { notes: 5, readings: 5 }, ratio: estimate(0.8), offsetDeg: 0, points: [], fitP: 1 };
    const [point] = progressOf([
      lesson('a', '2026-03-01', {
        readings: [{ ease: 2 }, {}, { ease: 5 }],
        findings: { travel: [travel('up', 1.9), travel('down', 1.2)], follow: { elevation: cannot, lateral: ratio } },
      }),
    ]);
    expect(point?.travelMmPerOctave?.value).toBe(1.9);
    expect(point?.followLateral?.value).toBe(0.8);
    expect(point?.followElevation).toBeNull();
    expectWithin(point!.ease!.value, 3.5, { abs: 1e-12 }, 'ease');
    expect(point?.ease?.readings).toBe(2);
  });

  test('a lesson that only descends is drawn by that', () => {
    expect(progressOf([lesson('a', undefined, { findings: { ...nothing, travel: [travel('down', 1.2)] } })])[0]?.travelMmPerOctave?.value).toBe(1.2);
  });
});
