import { describe, expect, test } from 'vitest';
import { saidIn } from '../../support/englishLeft';
import said from '../../support/saidInMessages.json';
import { sourcesIn } from '../../support/sources';

test.each(said.layers)('%s says everything through its messages, and nothing before the language is known', (layer) => {
  const exceptions = new Set(Object.keys(said.exceptions));
  const sources = [...sourcesIn(layer)].filter(([path]) => !exceptions.has(path));
  expect(sources.length).toBeGreaterThan(0);
  const left = sources.flatMap(([path, text]) =>
    saidIn(path, text)
      .sentences.filter(({ words }) => !exceptions.has(`${path}: ${words}`))
      .map(({ line, words }) => `${path}:${line}: ${words}`),
  );
  expect(left).toEqual([]);
  const early = sources.flatMap(([path, text]) => saidIn(path, text).tooEarly.map((call) => `${path}:${call}`));
  expect(early).toEqual([]);
});

describe('the check itself', () => {
  test.each([
    ['a sentence', `export const a = 'The rim slides off.';`, 'The rim slides off.'],
    ['a part of one', `export const a = \`\${b} to the right\`;`, '${…} to the right'],
    ['text between tags', `export const A = () => <p>Paper</p>;`, 'Paper'],
    ['a name that is read out', `export const A = () => <p aria-label="Paper" />;`, 'Paper'],
    ['a sentence as an attribute', `export const A = () => <B words="no notes yet" />;`, 'no notes yet'],
  ])('finds %s', (_, text, found) => {
    expect(saidIn('a.tsx', text).sentences).toEqual([{ line: 1, words: found }]);
  });

  test.each([
    ['a message', `export const a = () => sayCore('rimGone');`],
    ['what is thrown at programmers', `export function a() { throw new RangeError('allowed: more than 0'); }`],
    ['styles and shapes', `export const A = () => <p className="button row" style={{ transform: \`translate(\${x}px, \${y}px)\` }} />;`],
    ['a type', `export type A = 'the one' | 'the other one';`],
    ['codes', `export const a = ['off-the-arch', 'ArrowUp', 'M1,2L3,4Z', 'stage-label'];`],
  ])('passes %s', (_, text) => {
    expect(saidIn('a.tsx', text).sentences).toEqual([]);
  });

  test('finds a message said as the module is loaded, and none said in a function', () => {
    expect(saidIn('a.ts', `const A = { name: sayCore('player') };`).tooEarly).toEqual(['1: sayCore(…)']);
    expect(saidIn('a.ts', `const A = { get name() { return sayCore('player'); } }; const b = () => fixed(1, 2);`).tooEarly).toEqual([]);
  });
});
