import { describe, expect, test } from 'vitest';
import { formatBand, formatFixed, formatNumber, readNumber, steppedNumber } from '../../../src/notebook/numberText';

const range = { min: -60, max: 60, unit: 'mm' };

describe('reading a typed number', () => {
  test.each([
    ['3.1', 3.1],
    ['3,1', 3.1],
    ['-3.1', -3.1],
    ['−3,1', -3.1],
    ['–3', -3],
    ['+2', 2],
    ['.5', 0.5],
    ['5.', 5],
    [' 7 ', 7],
    ['- 7', -7],
    ['-60', -60],
    ['60', 60],
  ])('%j is %d', (text, value) => {
    expect(readNumber(text, range)).toEqual({ kind: 'number', value });
  });

  test.each(['abc', '1.2.3', '1,234.5', '-', '1e3', 'NaN', 'Infinity', '0x10', '--3', '3 mm'])('%j is no number', (text) => {
    const answer = readNumber(text, range);
    expect(answer.kind).toBe('wrong');
    expect(answer.kind === 'wrong' && answer.words).toContain(`“${text}”`);
  });

  test('nothing typed is empty', () => {
    expect(readNumber('  ', range)).toEqual({ kind: 'empty' });
  });

  test('out of range says the value and what is allowed', () => {
    expect(readNumber('-61', range)).toEqual({
      kind: 'wrong',
      words: '−61 is out of range. Allowed: from −60 to 60\u00a0mm.',
    });
  });

  test('a range can leave out its lower end', () => {
    const force = { min: 0, max: 200, unit: 'N', aboveMin: true };
    expect(readNumber('0', force)).toEqual({ kind: 'wrong', words: '0 is out of range. Allowed: above 0, up to 200\u00a0N.' });
    expect(readNumber('0.1', force)).toEqual({ kind: 'number', value: 0.1 });
    expect(readNumber('200', force)).toEqual({ kind: 'number', value: 200 });
  });
});

describe('writing a number', () => {
  test.each([
    [3, 2, '3'],
    [3.10, 2, '3.1'],
    [-3.456, 2, '−3.46'],
    [-0.001, 2, '0'],
    [0.1 + 0.2, 6, '0.3'],
  ])('%d with at most %d places is %s', (value, places, text) => {
    expect(formatNumber(value, places)).toBe(text);
  });

  test.each([
    [3, '3.0'],
    [-1.25, '−1.3'],
    [-0.04, '0.0'],
  ])('%d in a column is %s', (value, text) => {
    expect(formatFixed(value, 1)).toBe(text);
  });

  test('what was written can be read again', () => {
    for (const value of [-59.99, -0.25, 0, 0.07, 12.5]) {
      expect(readNumber(formatNumber(value, 2), range)).toEqual({ kind: 'number', value });
    }
  });
});

test.each([
  [0.5, 1, '1.0'],
  [0.02, 1, '0.1'],
  [0.02, 2, '0.04'],
  // Home itself, from which travel counts.
  [0, 1, '0.0'],
] as const)('a deviation of %d is a band of so much at %d places, and never none: %s', (sd, places, text) => {
  expect(formatBand(sd, places)).toBe(text);
});

describe('a step with an arrow key', () => {
  const width = { min: 20, max: 55, unit: 'mm' };

  test('begins in an empty field where it is told to, else at 0, and stays within the range', () => {
    expect(steppedNumber(null, 0.1, width, 35.4)).toBe(35.4);
    expect(steppedNumber(null, -0.1, width, 35.4)).toBe(35.4);
    expect(steppedNumber(35.4, 0.1, width, 35.4)).toBe(35.5);
    expect(steppedNumber(55, 1, width, 35.4)).toBe(55);
    expect(steppedNumber(null, -0.1, range)).toBe(-0.1);
    expect(steppedNumber(0.1, -0.1, { ...range, min: 0, aboveMin: true })).toBeNull();
  });
});
