import { expect, test } from 'vitest';
import { englishSeen } from '../../support/englishSeen';

test.each([
  ['a heading', 'Hand-out'],
  ['a word of one message', ' speed\n'],
  ['a part of a sentence', 'Mit dem Rand 4,0 mm nach oben: 70 % of the force on the upper half, 30 % auf der unteren.'],
  ['a sentence among others', 'Der Rand wandert. Nothing of it is kept here; so ist es.'],
])('finds %s', (_, text) => {
  expect(englishSeen(['Das ist deutsch.', text])).toEqual([expect.stringMatching(/\([a-z]\w+\.[\w-]+\)$/)]);
});

test('passes what both languages say, names and numbers, and German', () => {
  expect(englishSeen(['Euphonium', 'SVG', 'Name', '3,5 mm', 'Rimpath', 'English', 'Seite', 'Als PNG sichern', 'Mit dem Rand in der Grundstellung bliebe der Kopf, wie er ist.'])).toEqual([]);
});
