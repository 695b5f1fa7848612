/** Planar forms that are tables or splines, and a tooth that stands out of one. */
import { describe, expect, it } from 'vitest';
import { createArcLength } from '../../../src/core/arcLength';
import { CURVE_OUT, type PlaneCurve, buildCurve, curvatureOf, evaluateCurve } from '../../../src/core/planarForm';
import type { FormSpec, ToothSpec } from '../../../src/core/specs';
import { withStandingTeeth } from '../../../src/core/standingTooth';
import { arches, toothSpec } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';

const at = (curve: PlaneCurve, u: number): Float64Array => {
  const out = new Float64Array(CURVE_OUT);
  evaluateCurve(curve, u, out);
  return out;
};

describe('a tabulated form', () => {
  it.each<[string, FormSpec]>([
    ['half an ellipse', { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.5 }],
    ['the beta form', { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.8 }],
    ['a catenary', { kind: 'catenary', widthMm: 55, depthMm: 40 }],
  ])('%s: within 1e-9 mm of its closed form', (_, form) => {
    const curve = buildCurve(form);
    const exact = new Float64Array(CURVE_OUT);
    for (let step = 0; step <= 1777; step++) {
      const u = curve.low + ((curve.high - curve.low) * step) / 1777;
      curve.exact(u, exact);
      const table = at(curve, u);
      expectWithin(table[0]!, exact[0]!, { abs: 1e-9 }, `x at ${u}`);
      expectWithin(table[1]!, exact[1]!, { abs: 1e-9 }, `z at ${u}`);
    }
  });
});

describe('arc length', () => {
  it.each<[string, FormSpec]>([
    ['half an ellipse', { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.5 }],
    ['the beta form', { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.8 }],
    ['a form flat in front', { kind: 'power', widthMm: 45, depthMm: 60, exponent: 1.6 }],
    ['a catenary', { kind: 'catenary', widthMm: 55, depthMm: 40 }],
    ['a sextic', { kind: 'sextic', a: 2.4e-8, b: 1 / 54 }],
    ['measured points', { kind: 'points', points: [[-30, -33], [-19, -10.5], [-4, -0.5], [9, -1.9], [31, -35]] }],
  ])('of %s: its inverse finds every place again, and a chord of a thousandth of a millimetre is as long as its arc', (_, form) => {
    const curve = buildCurve(form);
    const { range, parameterAt, lengthAt } = createArcLength(curve);
    for (let step = 0; step <= 300; step++) {
      const arcMm = range[0] + ((range[1] - range[0] - CHORD_MM) * step) / 300;
      expectWithin(lengthAt(parameterAt(arcMm)), arcMm, { abs: 2e-11 }, `at ${arcMm}`);
      const [from, to] = [at(curve, parameterAt(arcMm)), at(curve, parameterAt(arcMm + CHORD_MM))];
      expectWithin(Math.hypot(to[0]! - from[0]!, to[1]! - from[1]!), CHORD_MM, { abs: 1e-9 }, `chord at ${arcMm}`);
    }
  });
});

/** So short that no form bends in it: a chord on 3 mm of radius is shorter than its arc by 5e-12 mm. */
const CHORD_MM = 1e-3;

describe('a form through measured points', () => {
  const points = [[-30, -33], [-19, -10.5], [-10, -2.4], [-4, -0.5], [3, 0.2], [9, -1.9], [20, -12], [31, -35]] as const;
  const curve = buildCurve({ kind: 'points', points });

  it('passes through every one of them', () => {
    for (const [x, z] of points) {
      let nearest = Infinity;
      for (let step = 0; step <= 200_000; step++) {
        const place = at(curve, curve.low + ((curve.high - curve.low) * step) / 200_000);
        nearest = Math.min(nearest, Math.hypot(place[0]! - x, place[1]! - z));
      }
      // Half a step of the walk, some 1e-4 mm, along the form.
      expect(nearest).toBeLessThan(6e-4);
    }
  });

  it('has a continuous curvature, and runs from the player’s right to the left', () => {
    let before = curvatureOf(at(curve, curve.low));
    const steps = 20_000;
    for (let step = 1; step <= steps; step++) {
      const bend = curvatureOf(at(curve, curve.low + ((curve.high - curve.low) * step) / steps));
      expect(Math.abs(bend - before)).toBeLessThan(2e-3);
      before = bend;
    }
    expectWithin(at(curve, curve.low)[0]!, -30, { abs: 1e-12 });
    expectWithin(at(curve, curve.high)[0]!, 31, { abs: 1e-12 });
  });

  it('refuses too few points, points on one another, and points on one side', () => {
    expect(() => buildCurve({ kind: 'points', points: points.slice(0, 3) })).toThrow('form.points 3 points: allowed is at least 4 points');
    expect(() => buildCurve({ kind: 'points', points: [[-5, 0], [-1, 0], [-1, 0.01], [5, 0]] })).toThrow('form.points[2]');
    expect(() => buildCurve({ kind: 'points', points: [[1, 0], [2, 0], [3, 0], [5, 0]] })).toThrow('right (x < 0)');
  });
});

describe('one tooth standing out', () => {
  const average = arches[0]!.arch;
  if ('single' in average) throw new Error('two jaws');
  const plain = buildCurve(average.upper.form);
  const arc = createArcLength(plain);
  /** Distance from the even form along its normal at arc length s: the bumped form is walked by the even form's arc. */
  const standsOut = (teeth: readonly ToothSpec[], s: number): number => {
    const even = at(plain, arc.parameterAt(s));
    const bumped = at(withStandingTeeth(plain, teeth), s);
    const speed = Math.hypot(even[2]!, even[3]!);
    return (-(bumped[0]! - even[0]!) * even[3]! + (bumped[1]! - even[1]!) * even[2]!) / speed;
  };
  /** The table's pieces are 0.75 mm long against a bump of some millimetres. */
  const TABLE_MM = 2e-3;

  it.each([[11, 1], [22, -0.7], [13, 2]])('tooth %d by %d mm: most at its middle, half at its contacts, nothing a tooth further', (fdi, outMm) => {
    const tooth = toothSpec(fdi, outMm);
    expectWithin(standsOut([tooth], tooth.centreMm), outMm, { abs: TABLE_MM });
    for (const side of [-1, 1]) {
      expectWithin(standsOut([tooth], tooth.centreMm + side * tooth.widthMm * 1.2), 0, { abs: TABLE_MM });
      const part = standsOut([tooth], tooth.centreMm + (side * tooth.widthMm) / 2) / outMm;
      expectWithin(part, 0.5, { abs: TABLE_MM / Math.abs(outMm) });
    }
  });

  it('two teeth stand out each by itself, and none that stands out by nothing changes the form', () => {
    const teeth = [toothSpec(11, 1), toothSpec(22, -1)];
    expectWithin(standsOut(teeth, teeth[0]!.centreMm), 1, { abs: TABLE_MM });
    expectWithin(standsOut(teeth, teeth[1]!.centreMm), -1, { abs: TABLE_MM });
    expect(withStandingTeeth(plain, [toothSpec(11, 0)])).toBe(plain);
  });
});
