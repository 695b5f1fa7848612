import { afterEach, describe, expect, test } from 'vitest';
import { sayCore } from '../../../src/words/core';
import { dayWords, shortDayWords } from '../../../src/words/days';
import { isLanguage, languageNow, speak } from '../../../src/words/language';
import { readyMessage } from '../../../src/words/messageFormat';
import { decimalSign, fixed, saidNumber } from '../../../src/words/numbers';
import { speaker } from '../../../src/words/speaker';

afterEach(() => speak('en'));

test('English until another language is asked for, and English again', async () => {
  expect(languageNow()).toBe('en');
  expect(sayCore('not-converged')).toBe('no balanced seat was found there');
  await speak('de');
  expect(sayCore('not-converged')).toBe('dort wurde kein Sitz im Gleichgewicht gefunden');
  await speak('en');
  expect(sayCore('not-converged')).toBe('no balanced seat was found there');
});

test('numbers in a message are written as the language writes them', async () => {
  const values = { upMm: -1.25, rightMm: 2, why: '…' };
  expect(sayCore('homeUnseated', values)).toBe("home (-1.25 mm up, 2 mm to the player's right of the origin): …");
  await speak('de');
  expect(sayCore('homeUnseated', values)).toBe('Grundstellung (−1,25 mm nach oben, 2 mm zur Rechten des Spielers vom Ursprung aus): …');
});

test('plurals and choices follow the language', () => {
  const ready = readyMessage('{count, plural, one {one note} other {{count} notes}}{late, select, yes {, late} other {}}', 'en-GB');
  expect([ready({ count: 1, late: 'no' }), ready({ count: 1234, late: 'yes' })]).toEqual(['one note', '1234 notes, late']);
});

test('a value that is missing is a fault, not a gap in the sentence', () => {
  expect(() => sayCore('above')).toThrow('low');
});

test('an area that is in no other language is a fault where that is spoken', async () => {
  const say = speaker('nowhere', { a: 'A' });
  expect(say('a')).toBe('A');
  await speak('de');
  expect(() => say('a')).toThrow('nowhere.a');
});

test('text between angle brackets is text', () => {
  expect(sayCore('rightToLeft')).toBe("from the player's right (x < 0) to the left (x > 0)");
});

describe('numbers and days', () => {
  test('have the language’s decimal sign and keep every digit', async () => {
    expect([decimalSign(), fixed(2.345, 1), fixed(-0.04, 1), saidNumber(1234.5)]).toEqual(['.', '2.3', '-0.0', '1234.5']);
    await speak('de');
    expect([decimalSign(), fixed(2.345, 1), fixed(-2.5, 1), saidNumber(1234.5)]).toEqual([',', '2,3', '−2,5', '1234,5']);
  });

  test('days in words; what no calendar has is given back or shown as typed', async () => {
    expect(['2026-03-01', '2026-02-31', '2026-13-01', 'soon'].map(dayWords)).toEqual(['1 March 2026', '31 February 2026', '2026-13-01', 'soon']);
    expect(['2026-12-01', 'soon'].map(shortDayWords)).toEqual(['1 Dec 2026', 'soon']);
    await speak('de');
    expect(dayWords('2026-03-01')).toBe('1. März 2026');
    expect(shortDayWords('2026-12-01')).toBe('1. Dez. 2026');
  });
});

test('only languages that are spoken are taken for one', () => {
  expect(['en', 'de', 'fr', null].map(isLanguage)).toEqual([true, true, false, false]);
});
