import { describe, expect, it } from 'vitest';
import { budgetOf } from '../../../src/core/ownArch/budget';
import { fitArch } from '../../../src/core/ownArch/fitArch';
import { asymmetryOf, fitPrint, fitPrintForms, onCard } from '../../../src/core/ownArch/fitPrint';
import { fitSpline } from '../../../src/core/ownArch/fitSpline';
import { type TwoJaws, fitBehind, ownArchMoves, withMeasures } from '../../../src/core/ownArch/ownArch';
import { CURVE_OUT, buildCurve } from '../../../src/core/planarForm';
import { FOOT_OUT, curveScratch, footOnCurve } from '../../../src/core/curveFoot';
import { createRandom } from '../../../src/core/random';
import type { BitePrintSpec, FormSpec, MeasuredArchSpec } from '../../../src/core/specs';
import { arches } from '../../../src/records/library';
import { demoPlayers } from '../../support/demos';
import { onCardAt, pointsOn, printOf } from '../../support/drawnPrint';
import { expectWithin } from '../../support/expectWithin';

const average = arches.find(({ id }) => id === 'average')!.arch as TwoJaws;
/** Rounder in front than most: 28 mm. */
const ROUND: FormSpec = { kind: 'sextic', a: 2.5e-8, b: 1 / 56 };
const lying = (places: readonly (readonly [number, number])[]): BitePrintSpec => printOf(onCardAt(places, { x: 50, y: 30 }, 0.3));
const round = lying(pointsOn(ROUND, 14, 46));
const fitOf = (measured: MeasuredArchSpec) => {
  const fit = fitArch(measured);
  if (fit.kind !== 'fitted') throw new Error(fit.reason);
  return fit;
};

describe('points that make no arch', () => {
  it.each([
    ['fewer than eight', pointsOn(ROUND, 7, 40), 'few'],
    ['on a line', Array.from({ length: 10 }, (_, x) => [x * 4 - 18, 0] as const), 'line'],
    ['in one place', Array.from({ length: 10 }, () => [3, 3] as const), 'line'],
    ['on one side only', pointsOn(ROUND, 24, 46).slice(0, 11), 'one-side'],
  ] as const)('%s: said, not fitted', (_, places, reason) => {
    expect(fitPrintForms(lying(places))).toEqual({ kind: 'not-fitted', reason });
  });

  it('a print a few tenths of a millimetre wide has forms, but no free one', () => {
    const fits = fitPrintForms(lying(pointsOn(ROUND, 14, 46).map(([x, z]) => [x / 200, z / 200] as const)));
    if ('kind' in fits) throw new Error(fits.reason);
    expect(fitSpline(lying(pointsOn(ROUND, 14, 46).map(([x, z]) => [x / 200, z / 200] as const)), fits[0]!)).toBeNull();
  });

  it('no numbers: refused', () => {
    expect(() => fitPrint({ ...round, points: [{ xMm: NaN, yMm: 0, sdMm: 1 }] }, 'beta')).toThrow('points[0].xMm');
  });
});

describe('a fitted print', () => {
  it('lies on its card as it was marked', () => {
    const fit = fitPrint(round, 'sextic');
    if (fit.kind !== 'fitted') throw new Error(fit.reason);
    fit.places.forEach(({ xMm, zMm }, at) => {
      const back = onCard(fit.pose, xMm, zMm);
      expectWithin(back.xMm, round.points[at]!.xMm, { abs: 1e-9 });
      expectWithin(back.yMm, round.points[at]!.yMm, { abs: 1e-9 });
    });
  });

  it('says how far the marked midline lies off its axis', () => {
    const middle = pointsOn(ROUND, 15, 46);
    const print = lying(middle);
    const marked = { ...print, points: print.points.map((point, at) => (at === 8 ? { ...point, tooth: 'midline' as const } : point)) };
    const fit = fitPrint(marked, 'sextic');
    if (fit.kind !== 'fitted') throw new Error(fit.reason);
    expectWithin(asymmetryOf(marked, fit).midline!.leftMm, middle[8]![0], { abs: 1e-6 });
    expect(asymmetryOf(print, fit).midline).toBeNull();
  });
});

describe('a print in an arch', () => {
  it('rounds its own jaw, is surer than what is usual, and leaves the other nearly as it was', () => {
    const [bare, own] = [fitOf({ family: 'sextic', measures: [] }), fitOf({ family: 'sextic', measures: [], prints: [round] })];
    expect(own.frontRadiiMm.upper).toBeGreaterThan(bare.frontRadiiMm.upper + 1);
    expect(own.frontRadiusPart).toBeLessThan(0.8 * bare.frontRadiusPart);
    expectWithin(own.frontRadiiMm.lower, bare.frontRadiiMm.lower, { rel: 0.04 });
    expect(own.prints[0]!.rmsMm).toBeLessThan(1e-6);
  });

  it('is a normal likelihood beside the prior', () => {
    // Of the logarithm of the front radius: 24.3 mm to 8 % and the print's own.
    const alone = fitPrint(round, 'catenary');
    if (alone.kind !== 'fitted') throw new Error(alone.reason);
    const weights = [1 / 0.08 ** 2, (alone.frontRadiusMm / alone.frontRadiusSdMm) ** 2] as const;
    const own = fitOf({ family: 'catenary', measures: [], prints: [round] });
    // The molars' places say something of a catenary's only number too.
    expect(own.frontRadiusPart).toBeLessThan(1 / Math.sqrt(weights[0] + weights[1]));
  });

  it('belongs to the arch for as long as its forms are those of the fit, and narrows the bands to the side', () => {
    const made = withMeasures(average, { family: 'sextic', measures: [], prints: [round] });
    if (made.kind !== 'arch') throw new Error(made.reason);
    expect(fitBehind(made.arch)).not.toBeNull();
    expect(fitBehind({ ...made.arch, upper: average.upper })).toBeNull();
    const { record } = demoPlayers.find(({ id }) => id === 'pushes-up')!;
    const short = { ...record, readings: [record.readings[0]!, record.readings.at(-1)!] };
    const own = withMeasures(record.arch as TwoJaws, { family: 'sextic', measures: [], prints: [lying(pointsOn({ kind: 'sextic', a: 2.3e-8, b: 0.0206 }, 14, 46))] });
    if (own.kind !== 'arch') throw new Error(own.reason);
    const budget = budgetOf({ ...short, arch: own.arch })![1]!;
    expect(budget.now.lateralSdDeg).toBeLessThan(budget.usual.lateralSdDeg);
  });

  it('one of each jaw, and none of a form that its points do not make', () => {
    expect(() => fitArch({ family: 'sextic', measures: [], prints: [round, { ...round }] })).toThrow('one print of each jaw');
    expect(fitArch({ family: 'sextic', measures: [], prints: [lying(pointsOn(ROUND, 7, 40))] })).toMatchObject({ kind: 'not-fitted', reason: 'no-print' });
  });
});

describe('a free form', () => {
  /** Flatter on the player's left: 1 mm in, a quarter of the way along. */
  const uneven = lying(pointsOn(ROUND, 15, 46).map(([x, z], at): [number, number] => {
    const part = at / 7 - 1;
    const out = -Math.max(0, Math.sin(2 * Math.PI * Math.min(0.5, Math.max(0, part))));
    const away = Math.hypot(x, z + 20);
    return [x + (1.5 * out * x) / away, z + (1.5 * out * (z + 20)) / away];
  }));
  const base = fitPrint(uneven, 'sextic');
  if (base.kind !== 'fitted') throw new Error(base.reason);
  const spline = fitSpline(uneven, base);
  if (spline === null) throw new Error('no free form');

  it('lies nearer to uneven points than any even one, through the front, and follows the side that is flatter', () => {
    expect(spline.rmsMm).toBeLessThan(0.6 * base.rmsMm);
    const curve = buildCurve(spline.form);
    const out = new Float64Array(CURVE_OUT);
    const foot = new Float64Array(FOOT_OUT);
    footOnCurve(curve, 0, 0, NaN, curveScratch(), foot);
    expectWithin(foot[0]!, 0, { abs: 1e-3 });
    curve.exact(curve.low, out);
    expect(out[0]).toBeLessThan(-20);
    const { leftOutMm, sdMm } = asymmetryOf(uneven, base);
    expect(leftOutMm).toBeLessThan(-sdMm);
  });

  it('of even points gives the even form back, and AICc does not prefer it', () => {
    const even = fitPrint(round, 'sextic');
    if (even.kind !== 'fitted') throw new Error(even.reason);
    const free = fitSpline(round, even)!;
    const radius = (form: FormSpec): number => {
      const curve = buildCurve(form);
      const out = new Float64Array(FOOT_OUT);
      footOnCurve(curve, 0, 0, NaN, curveScratch(), out);
      return 1 / out[3]!;
    };
    expectWithin(radius(free.form), even.frontRadiusMm, { rel: 0.1 });
    const random = createRandom(5);
    const shaken = { ...round, points: round.points.map((point) => ({ ...point, xMm: point.xMm + 0.5 * random.normal(), yMm: point.yMm + 0.5 * random.normal() })) };
    const best = fitPrintForms(shaken);
    if (!('length' in best)) throw new Error(best.reason);
    expect(fitSpline(shaken, best[0]!)!.aicc).toBeGreaterThan(best[0]!.aicc);
    // Too few to judge it by.
    const few = { ...round, points: round.points.slice(2, -3) };
    const nine = fitPrint(few, 'sextic');
    if (nine.kind !== 'fitted') throw new Error(nine.reason);
    expect(fitSpline(few, nine)).toBeNull();
  });

  it('in an arch: its own jaw has it, its knots move in the bands, and it is the measured one while it stands', () => {
    const made = withMeasures(average, { family: 'sextic', measures: [], prints: [{ ...uneven, isFree: true }] });
    if (made.kind !== 'arch') throw new Error(made.reason);
    expect(made.arch.upper.form.kind).toBe('points');
    expect(made.arch.lower.form.kind).toBe('sextic');
    expect(fitBehind(made.arch)).not.toBeNull();
    const moves = ownArchMoves(made.arch)!;
    const free = moves.filter(({ name }) => name === 'upper arch form');
    expect(free).toHaveLength(7);
    const moved = free[0]!.moved(made.arch, 1) as TwoJaws;
    expect(moved.upper.form).not.toEqual(made.arch.upper.form);
    expect(moved.lower).toEqual(made.arch.lower);
    const { record } = demoPlayers.find(({ id }) => id === 'pushes-up')!;
    const own = withMeasures(record.arch as TwoJaws, { family: 'sextic', measures: [], prints: [{ ...uneven, isFree: true }] });
    if (own.kind !== 'arch') throw new Error(own.reason);
    const budget = budgetOf({ ...record, readings: [record.readings[0]!, record.readings.at(-1)!], arch: own.arch })![1]!;
    expect(budget.now.lateralSdDeg).toBeGreaterThan(0);
    expect(Number.isFinite(budget.now.elevationSdDeg)).toBe(true);
  });
});
