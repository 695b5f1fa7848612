import { describe, expect, it } from 'vitest';
import { arcShare, areaShare, lipLineOffset, shareByDiameter } from '../../../src/core/lipLine';
import { rims } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';

/** Share by diameter, rim arc and cup area, and chord over radius: geometry of a circle, worked out to eight digits. */
const table = [
  [1 / 2, 0.5, 0.5, 2],
  [0.6, 0.56409422, 0.62646996, 1.9595918],
  [2 / 3, 0.60817345, 0.70820859, 1.8856181],
  [3 / 4, 0.66666667, 0.80449889, 1.7320508],
  [4 / 5, 0.70483276, 0.85762151, 1.6],
] as const;
const PRINTED = 6e-9;

describe('the upper-lip share by its three meanings', () => {
  it.each(table)('%d of the diameter', (diameter, arc, area, chord) => {
    expectWithin(arcShare(diameter), arc, { abs: PRINTED });
    expectWithin(areaShare(diameter), area, { abs: PRINTED });
    expectWithin(shareByDiameter({ value: arc, by: 'arc' }), diameter, { abs: 3e-8 });
    expectWithin(shareByDiameter({ value: area, by: 'area' }), diameter, { abs: 3e-8 });
    expect(shareByDiameter({ value: diameter, by: 'diameter' })).toBe(diameter);
    // The line's height puts a chord of the published length across the inner circle.
    const rim = rims[0]!.rim;
    const radius = rim.innerDiameterMm / 2;
    const height = lipLineOffset(rim, { value: diameter, by: 'diameter' });
    expectWithin((2 * Math.sqrt(radius ** 2 - height ** 2)) / radius, chord, { abs: 6e-8 });
  });

  it('more than half on the upper lip puts the line below the middle', () => {
    expect(lipLineOffset(rims[0]!.rim, { value: 0.6, by: 'diameter' })).toBeLessThan(0);
    expectWithin(lipLineOffset(rims[0]!.rim, { value: 0.5, by: 'area' }), 0, { abs: 1e-12 });
  });

  it('refuses a share outside 0 … 1', () => {
    expect(() => shareByDiameter({ value: 1.2, by: 'arc' })).toThrow('upperLipShare.value 1.2: allowed is from 0 to 1');
    expect(() => shareByDiameter({ value: NaN, by: 'diameter' })).toThrow(RangeError);
  });
});
