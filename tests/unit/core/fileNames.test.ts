import fc from 'fast-check';
import { expect, it } from 'vitest';
import { fileNamePart } from '../../../src/core/fileNames';

it.each([
  ['Anna B.', 'Anna-B'],
  ['../../etc/passwd', 'etc-passwd'],
  ['Jörg / 3. Stunde', 'Jörg-3-Stunde'],
  ['Zoë K. (5a)', 'Zoë-K-5a'],
  ['演奏', '演奏'],
  ['<script>', 'script'],
  ['con', 'player'],
  ['LPT1', 'player'],
  ['', 'player'],
  [' / \\ : ', 'player'],
  ['a'.repeat(200), 'a'.repeat(40)],
  [`${'x'.repeat(39)} y`, 'x'.repeat(39)],
])('%j: %s', (label, expected) => {
  expect(fileNamePart(label)).toBe(expected);
});

it('another word where nothing is left', () => {
  expect(fileNamePart('?', 'readings')).toBe('readings');
});

it('letters, digits and hyphens only, whatever the label', () => {
  fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 80 }), (label) => {
    const part = fileNamePart(label);
    expect(part).toMatch(/^[\p{L}\p{N}]+(-[\p{L}\p{N}]+)*$/u);
    expect([...part].length).toBeLessThanOrEqual(40);
  }));
});
