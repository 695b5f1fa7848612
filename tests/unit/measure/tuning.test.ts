import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { centsOff, takeTuning } from '../../../src/measure/tuning';
import { expectWithin } from '../../support/expectWithin';

const told = (midis: readonly number[]) => {
  const tuning = takeTuning(midis.map((midi) => ({ midi, weight: 1 })));
  if (tuning.kind !== 'told') throw new Error(tuning.reason);
  return tuning;
};

describe('the tuning of a take', () => {
  it.each([-49, -30, 0, 17, 49.9])('is found at %f cents', (cents) => {
    expectWithin(centsOff((told([60, 64, 67, 72].map((midi) => midi + cents / 100)).cents - cents) / 100, 0), 0, { abs: 1e-6 });
  });

  it('does not follow one note far off', () => {
    expectWithin(told([60.1, 62.1, 64.1, 65.1, 67.1, 70.1 - 0.4]).cents, 10, { abs: 1e-6 });
  });

  it('holds the truth in 90 to 98 % of 2,000 takes of ten notes that scatter by 10 cents (seed 9)', () => {
    const random = createRandom(9);
    let held = 0;
    for (let take = 0; take < 2000; take++) {
      const cents = -50 + 100 * random.uniform();
      const { cents: found, sdCents } = told(Array.from({ length: 10 }, () => random.integer(50, 80) + cents / 100 + 0.1 * random.normal()));
      if (Math.abs(centsOff((found - cents) / 100, 0)) <= 1.96 * sdCents) held++;
    }
    expect(held / 2000).toBeGreaterThanOrEqual(0.9);
    expect(held / 2000).toBeLessThanOrEqual(0.98);
  });

  it('is not told from nothing, nor from pitches that keep to no semitones', () => {
    expect(takeTuning([])).toEqual({ kind: 'unclear', reason: 'too-little' });
    expect(takeTuning([60, 61.25, 62.5, 63.75].map((midi) => ({ midi, weight: 1 })))).toEqual({ kind: 'unclear', reason: 'scattered' });
    expect(() => takeTuning([{ midi: NaN, weight: 1 }])).toThrow(/midi NaN/);
  });
});
