/** Tabulated forms against their own closed formulas, and refusals of numbers that make no form. */
import { describe, expect, it } from 'vitest';
import { CURVE_OUT, buildCurve, evaluateCurve } from '../../src/core/planarForm';
import type { FormSpec } from '../../src/core/specs';
import { expectWithin } from '../support/expectWithin';

/** Position of a quintic piece against the closed form, mm: docs/numerics.md §1. */
const POSITION_MM = 1e-9;
/** Its slope and bend by the parameter, as a part of the largest on the form. */
const SLOPE_REL = 1e-6;

const tabulated: readonly (readonly [string, FormSpec])[] = [
  ['half ellipse 60 × 45', { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.5 }],
  ['beta 60 × 45', { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.8 }],
  ['parabola 50 × 35', { kind: 'power', widthMm: 50, depthMm: 35, exponent: 1 }],
  ['catenary 55 × 40', { kind: 'catenary', widthMm: 55, depthMm: 40 }],
];

describe('a tabulated form', () => {
  it.each(tabulated)('%s: position within 1e-9 mm of its formula, slope with it', (_, spec) => {
    const curve = buildCurve(spec);
    const fast = new Float64Array(CURVE_OUT);
    const exact = new Float64Array(CURVE_OUT);
    const steps = 2357;
    for (let step = 0; step <= steps; step++) {
      const u = curve.low + ((curve.high - curve.low) * step) / steps;
      evaluateCurve(curve, u, fast);
      curve.exact(u, exact);
      for (let axis = 0; axis < 2; axis++) {
        expectWithin(fast[axis]!, exact[axis]!, { abs: POSITION_MM }, `axis ${axis} at ${u}`);
        expectWithin(fast[axis + 2]!, exact[axis + 2]!, { abs: SLOPE_REL * 60 }, `slope ${axis} at ${u}`);
      }
    }
  });
});

describe('refusals', () => {
  it.each<readonly [string, FormSpec, RegExp]>([
    ['a width of 0', { kind: 'power', widthMm: 0, depthMm: 40, exponent: 0.8 }, /form\.widthMm 0/],
    ['a sextic that opens forward', { kind: 'sextic', a: -1e-8, b: 0.02 }, /form\.a, form\.b -1e-8, 0\.02/],
    ['a circle of no size', { kind: 'circle', radiusMm: -3 }, /form\.radiusMm -3/],
    ['three points', { kind: 'points', points: [[-9, -2], [0, 0], [9, -2]] }, /form\.points 3 points/],
    ['points all on one side', { kind: 'points', points: [[1, 0], [2, 0], [3, -1], [4, -2]] }, /form\.points x from 1 to 4/],
    ['points that coincide', { kind: 'points', points: [[-9, -2], [0, 0], [0, 0.01], [9, -2]] }, /form\.points\[2\]/],
  ])('%s is refused by name', (_, spec, words) => {
    expect(() => buildCurve(spec)).toThrow(words);
  });
});
