import { expect, test } from 'vitest';
import { runGroup, spread } from '../bench/harness';
import { formatGroup } from '../bench/table';
import type { Random } from '../../src/core/random';
import { expectWithin } from '../support/expectWithin';

test('the spread is the median and the quartiles', () => {
  expect(spread([5, 1, 4, 2, 3])).toEqual({ lowerQuartile: 2, median: 3, upperQuartile: 4 });
  expect(spread([10, 20])).toEqual({ lowerQuartile: 12.5, median: 15, upperQuartile: 17.5 });
  expect(() => spread([])).toThrow(/one or more finite numbers/);
  expect(() => spread([1, NaN])).toThrow(/one or more finite numbers/);
});

test('cases of a group are prepared from the same seed and compared with the first', async () => {
  const drawn: number[] = [];
  let now = 0;
  const taking = (ms: number) => (random: Random) => {
    drawn.push(random.uniform());
    return () => (now += ms);
  };
  const result = await runGroup(
    {
      title: 'made-up costs',
      seed: 7,
      rounds: 5,
      cases: [
        { name: 'one', prepare: taking(0.5) },
        { name: 'fifty', prepare: taking(25) },
        { name: 'fifty in pieces', piecesPerCall: 100, prepare: taking(25) },
        { name: 'size', unit: 'kB', measure: () => [3, 1, 2] },
      ],
    },
    () => now,
  );
  expect(new Set(drawn).size).toBe(1);
  const rounding = { rel: 1e-9 };
  expectWithin(result.cases[0]?.value.median ?? NaN, 0.0005, rounding, 'seconds a call');
  expectWithin(result.cases[1]?.ratio?.median ?? NaN, 50, rounding, 'ratio');
  expectWithin(result.cases[2]?.ratio?.median ?? NaN, 0.5, rounding, 'ratio of a piece');
  expect(result.cases[3]).toMatchObject({ unit: 'kB', samples: 3, value: { median: 2 }, ratio: null });
  expect(formatGroup(result)).toBe(
    [
      'made-up costs (seed 7)',
      'case              median  quartiles    ratio    quartiles  samples',
      'one               500 µs    500–500   × 1.00    1.00–1.00        5',
      'fifty            25.0 ms  25.0–25.0   × 50.0    50.0–50.0        5',
      'fifty in pieces   250 µs    250–250  × 0.500  0.500–0.500        5',
      'size             2.00 kB  1.50–2.50                              3',
    ].join('\n'),
  );
});

test('work that answers NaN is refused', async () => {
  await expect(
    runGroup({ title: 'broken', seed: 1, rounds: 1, cases: [{ name: 'a', prepare: () => () => NaN }] }),
  ).rejects.toThrow(/NaN/);
});
