import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { shapePreserving } from '../../../src/core/path';
import { expectWithin } from '../../support/expectWithin';
import { propertySeed, seedWords } from '../../support/seed';

/** Rounding of a cubic with values of some millimetres. */
const ROUNDING_MM = 1e-12;

const knotsAndValues = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 12 }), fc.integer({ min: -80, max: 80 })), { minLength: 2, maxLength: 12 })
  .map((steps) => {
    let knot = 40;
    return steps.map(([step, tenths]): readonly [number, number] => [(knot += step), tenths / 10]);
  });

describe('the curve through the readings', () => {
  it(`passes through every reading and nowhere leaves the span of its two neighbours ${seedWords}`, () => {
    fc.assert(
      fc.property(knotsAndValues, (readings) => {
        const curve = shapePreserving(readings.map(([knot]) => knot), readings.map(([, value]) => value));
        for (const [knot, value] of readings) expectWithin(curve.at(knot), value, { abs: ROUNDING_MM });
        readings.slice(1).forEach(([right, b], index) => {
          const [left, a] = readings[index]!;
          let before = a;
          for (let step = 1; step <= 40; step++) {
            const value = curve.at(left + ((right - left) * step) / 40);
            // Between two readings it only rises or only falls: no turn that the readings do not have.
            const along = Math.sign(b - a) * (value - before);
            if (!(along >= -ROUNDING_MM)) throw new Error(`turns back between ${left} and ${right} by ${along}`);
            if (a === b) expectWithin(value, a, { abs: ROUNDING_MM });
            before = value;
          }
        });
      }),
      { seed: propertySeed, numRuns: 300 },
    );
  });

  it('rises for readings that rise, through a long flat part and a steep one', () => {
    const curve = shapePreserving([46, 53, 58, 62, 65], [0, 0.1, 0.1, 3, 3.2]);
    let before = -Infinity;
    for (let midi = 46; midi <= 65; midi += 0.05) {
      expect(curve.at(midi)).toBeGreaterThanOrEqual(before - ROUNDING_MM);
      before = curve.at(midi);
    }
  });

  it('reproduces a straight line, and has a continuous slope at a reading', () => {
    const line = shapePreserving([40, 43, 50, 55], [1, 2.5, 6, 8.5]);
    for (let midi = 40; midi <= 55; midi += 0.37) expectWithin(line.at(midi), 1 + (midi - 40) / 2, { abs: ROUNDING_MM });
    const bent = shapePreserving([40, 45, 52, 60], [0, 2, 2.5, 4]);
    const step = 1e-6;
    for (const knot of [45, 52]) {
      const left = (bent.at(knot) - bent.at(knot - step)) / step;
      const right = (bent.at(knot + step) - bent.at(knot)) / step;
      expectWithin(left, right, { abs: 1e-5 });
    }
  });

  it('keeps the end’s value outside, and one reading’s value everywhere', () => {
    const curve = shapePreserving([50, 60], [1, 2]);
    expect([curve.at(40), curve.at(70)]).toEqual([1, 2]);
    expect(shapePreserving([50], [3]).at(90)).toBe(3);
  });

  it('refuses readings out of order, with the value', () => {
    expect(() => shapePreserving([50, 50], [1, 2])).toThrow('knots[1] 50: allowed is more than 50');
    expect(() => shapePreserving([], [])).toThrow(RangeError);
  });
});
