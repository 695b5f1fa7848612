import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { crossCorrelation, likeness, powerSpectrum } from '../../../src/measure/crossCorrelation';
import { expectWithin } from '../../support/expectWithin';

const ROUNDING = 1e-9;

describe.each([[1, 1], [5, 3], [40, 57], [128, 128]])('rows of %i and %i numbers (seed 4)', (lengthA, lengthB) => {
  const random = createRandom(4);
  const rows = (length: number): number[][] => [0, 1].map(() => Array.from({ length }, () => random.normal()));
  const [first, second] = [rows(lengthA), rows(lengthB)];

  it('correlate as the sum written out', () => {
    const { firstShift, values } = crossCorrelation(first[0]!, second[0]!);
    expect([firstShift, values.length]).toEqual([1 - lengthB, lengthA + lengthB - 1]);
    values.forEach((value, at) => expectWithin(value, directly(first[0]!, second[0]!, at + firstShift).product, { abs: ROUNDING }));
  });

  it('are as alike as written out', () => {
    const { firstShift, values } = likeness(first, second, 2);
    values.forEach((value, at) => {
      const sums = first.map((row, which) => directly(row, second[which]!, at + firstShift));
      const whole = sums.reduce((a, b) => ({ product: a.product + b.product, squareA: a.squareA + b.squareA, squareB: a.squareB + b.squareB, pairs: a.pairs }));
      expectWithin(value, whole.pairs < 2 ? 0 : whole.product / Math.sqrt(whole.squareA * whole.squareB), { abs: ROUNDING });
    });
  });
});

it('a spectrum is the sum written out', () => {
  const row = Array.from({ length: 16 }, (_, at) => Math.sin(at) + at / 7);
  const power = powerSpectrum(16)(row);
  power.forEach((value, k) => {
    const [re, im] = [Math.cos, Math.sin].map((of) => row.reduce((sum, each, at) => sum + each * of((2 * Math.PI * k * at) / 16), 0)) as [number, number];
    expectWithin(value, re * re + im * im, { abs: ROUNDING });
  });
});

it('empty rows are refused', () => {
  expect(() => crossCorrelation([], [1])).toThrow(/rows of 0 and 1 numbers; allowed: one number at least in each/);
  expect(() => likeness([[1]], [], 1)).toThrow(/1 and 0 rows/);
});

function directly(first: readonly number[], second: readonly number[], shift: number) {
  const sums = { product: 0, squareA: 0, squareB: 0, pairs: 0 };
  second.forEach((b, at) => {
    const a = first[at + shift];
    if (a === undefined) return;
    sums.product += a * b;
    sums.squareA += a * a;
    sums.squareB += b * b;
    sums.pairs++;
  });
  return sums;
}
