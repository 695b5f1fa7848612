import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dayWords, shortened, shortenedLines, tryOutsText } from '../../../src/print/sheetText';

test('a short text stays as it is; a long one ends with "…" at a word', () => {
  expect(shortened('Anna, Tuesdays', 20)).toBe('Anna, Tuesdays');
  expect(shortened('One two three four five six', 20)).toBe('One two three four…');
  expect(shortened('x'.repeat(300), 20)).toBe(`${'x'.repeat(19)}…`);
  expect(shortened('two\nlines\u2028here', 20)).toBe('two lines here');
});

test('no text is longer than its room', () => {
  fc.assert(fc.property(fc.string({ unit: 'grapheme', maxLength: 400 }), fc.integer({ min: 1, max: 60 }), (text, limit) => {
    expect([...shortened(text, limit)].length).toBeLessThanOrEqual(limit);
  }));
});

test('lines: kept where they fit, cut with "…" where letters or lines run out', () => {
  expect(shortenedLines('one\ntwo\n', 100, 5, 30)).toBe('one\ntwo');
  expect(shortenedLines('a\nb\nc\nd', 100, 3, 30)).toBe('a\nb\nc …');
  expect(shortenedLines('x'.repeat(200), 90, 5, 30)).toBe(`${'x'.repeat(89)}…`);
});

test('lines never take more rows than there are', () => {
  fc.assert(fc.property(fc.array(fc.string({ maxLength: 120 }), { maxLength: 30 }), (lines) => {
    const shown = shortenedLines(lines.join('\n'), 340, 9, 34);
    expect(shown.split('\n').reduce((rows, line) => rows + Math.max(1, Math.ceil(line.length / 34)), 0)).toBeLessThanOrEqual(9);
    expect(shown.length).toBeLessThanOrEqual(340 + 30);
  }));
});

test('days in words', () => {
  expect(dayWords('2026-03-01')).toBe('1 March 2026');
  expect(dayWords('2026-13-01')).toBe('2026-13-01');
  expect(dayWords('in spring')).toBe('in spring');
});

test('try-outs become a first text', () => {
  const readings = [{ note: 'F4', ease: 4 }] as const;
  const tryOuts = [
    { id: 'a', change: { kind: 'let-horn-follow' }, readings, remark: 'easier at the top' },
    { id: 'b', change: { kind: 'place-rim', upMm: -2 }, readings },
    { id: 'c', change: { kind: 'bring-horn-round', lateralDeg: 3 }, readings, remark: ' ' },
  ] as const;
  expect(tryOutsText(tryOuts, 'held')).toBe('Tried: the horn follows the rim. easier at the top\nTried: the rim 2.0\u00a0mm lower.\nTried: the horn 3° to the player’s right.');
  expect(tryOutsText(tryOuts, 'lap')).toContain('Tried: the head turned 3° to the left.');
  expect(tryOutsText([], 'held')).toBe('');
  // Begun, and nothing seen of it: nothing was tried.
  expect(tryOutsText([{ id: 'd', change: { kind: 'hold-horn' }, readings: [{ note: 'F4', direction: 'up' }] }], 'held')).toBe('');
});
