import { describe, expect, test } from 'vitest';
import {
  fromPixels,
  linePath,
  nearest,
  pitchScale,
  placeLabels,
  roundDomain,
  roundStep,
  stripPath,
  tickText,
  ticks,
  toPixels,
} from '../../../src/notebook/chart/scale';
import { expectWithin } from '../../support/expectWithin';

const EXACT = { abs: 1e-9, rel: 1e-12 };

describe('scales', () => {
  const scale = { from: [-4, 6], to: [200, 100] } as const;

  test('ends, middle and back', () => {
    expect([toPixels(scale, -4), toPixels(scale, 6), toPixels(scale, 1)]).toEqual([200, 100, 150]);
    for (const value of [-4, -0.3, 0, 2.2, 6, 9]) expectWithin(fromPixels(scale, toPixels(scale, value)), value, EXACT);
  });

  test('a domain without width answers with the middle, not with infinity', () => {
    expect(toPixels({ from: [3, 3], to: [0, 10] }, 3)).toBe(5);
    expect(fromPixels({ from: [0, 1], to: [5, 5] }, 7)).toBe(0);
  });

  test('one note stands in the middle of the pitch axis, several span it', () => {
    expect(toPixels(pitchScale([60], 0, 100), 60)).toBe(50);
    expect([53, 60, 67].map((midi) => toPixels(pitchScale([53, 60, 67], 20, 80), midi))).toEqual([20, 50, 80]);
  });
});

describe('ticks', () => {
  test('steps are 1, 2 or 5 times a power of ten and make no more parts than asked', () => {
    for (const span of [0.07, 0.3, 1, 3.3, 9, 10, 22, 170]) {
      for (const most of [2, 5, 8]) {
        const step = roundStep(span, most);
        expect([1, 2, 5]).toContain(Number((step / 10 ** Math.floor(Math.log10(step) + 1e-9)).toPrecision(6)));
        expect(span / step).toBeLessThanOrEqual(most * (1 + 1e-9));
      }
    }
    expect(roundStep(10, 5)).toBe(2);
  });

  test('a step of nothing is refused', () => {
    expect(() => roundStep(0, 5)).toThrow(/span 0.*above 0/);
  });

  test('ticks are multiples within the domain, with a zero that is zero', () => {
    expect(ticks([-4, 6], 5)).toEqual([-4, -2, 0, 2, 4, 6]);
    expect(ticks([-0.3, 0.3], 6)).toEqual([-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3]);
    expect(Object.is(ticks([-1, 1], 2)[1], 0)).toBe(true);
  });

  test('a true minus and as many decimals as the step has', () => {
    expect(tickText(-4, 2)).toBe('−4');
    expect(tickText(-0.5, 0.5)).toBe('−0.5');
    expect(tickText(1, 0.05)).toBe('1.00');
    expect(tickText(20, 10)).toBe('20');
  });

  test('a domain holds all values, zero and air, and is never narrower than asked', () => {
    for (const values of [[], [0], [3], [-7, -2], [1, 20], [0.01, -0.02]]) {
      const [low, high] = roundDomain(values, 4);
      expect(low).toBeLessThan(Math.min(0, ...values));
      expect(high).toBeGreaterThan(Math.max(0, ...values));
      expect(high - low).toBeGreaterThanOrEqual(4);
    }
  });
});

describe('labels under the axis', () => {
  const place = (xPx: number, priority = 2) => ({ xPx, widthPx: 24, priority });

  test('what fits stays in one row', () => {
    expect(placeLabels([place(0), place(30), place(60)]).map(({ row }) => row)).toEqual([0, 0, 0]);
  });

  test('close neighbours take turns, and none overlap', () => {
    const labels = placeLabels(Array.from({ length: 12 }, (_, index) => place(index * 13)));
    for (const a of labels) {
      for (const b of labels) {
        if (a !== b && a.row === b.row) expect(Math.abs(a.xPx - b.xPx)).toBeGreaterThanOrEqual(24);
      }
    }
    expect(labels.length).toBeGreaterThan(6);
  });

  test('the more important one is kept in the first row', () => {
    const labels = placeLabels([place(0), place(5), place(10, 0)]);
    expect(labels).toEqual([
      { index: 0, xPx: 0, row: 1 },
      { index: 2, xPx: 10, row: 0 },
    ]);
  });
});

test('the nearest place, and none among none', () => {
  expect(nearest(17, [0, 10, 20])).toBe(2);
  expect(nearest(14, [0, 10, 20])).toBe(1);
  expect(nearest(3, [])).toBeNull();
});

test('paths: a line, a closed strip, and nothing from too few points', () => {
  expect(linePath([[0, 1], [2, 3]])).toBe('M0.00 1.00L2.00 3.00');
  expect(stripPath([{ x: 0, high: 1, low: 5 }, { x: 9, high: 2, low: 6 }])).toBe('M0.00 1.00L9.00 2.00L9.00 6.00L0.00 5.00Z');
  expect(stripPath([{ x: 0, high: 1, low: 5 }])).toBe('');
});
