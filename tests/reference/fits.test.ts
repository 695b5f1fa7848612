/** The fits that the findings stand on, against published tables, certified values and brute force. */
import { describe, expect, it } from 'vitest';
import { chiSquareTail } from '../../src/core/findings/distributions';
import { monotoneFit } from '../../src/core/findings/isotonic';
import { type PointWithErrors, lineWithErrors } from '../support/yorkLine';
import { orthogonalLine } from '../../src/core/findings/orthogonalLine';
import { unequalLine } from '../../src/core/findings/unequalLine';
import { singleTurnFit } from '../../src/core/findings/singleTurn';
import { weightedLeastSquares } from '../../src/core/findings/weightedLeastSquares';
import { createRandom } from '../../src/core/random';
import { expectWithin } from '../support/expectWithin';
import { LONGLEY, NORRIS } from '../support/strd';

const SEED = 11;
/** Published values have so many digits. */
const TEN_DIGITS = { rel: 1e-10 };

describe('tails of distributions', () => {
  // P(chi-square >= x): scipy.stats.chi2.sf of SciPy 1.17.1. The first is the textbook 5 % point, also in the NIST/SEMATECH handbook, 1.3.6.7.4 (3.841).
  it.each([
    [3.841458820694124, 1, 0.04999999999999989],
    [0.5, 1, 0.47950012218695337],
    [5.2, 2, 0.07427357821433386],
    [11.07, 5, 0.050009618622405425],
    [30, 7, 9.495972508134177e-5],
    [2.5, 12, 0.9981619145494115],
    [80, 24, 6.084202717664003e-8],
    [12, 11, 0.36364322051682674],
    [100, 100, 0.48119168452795674],
  ])('chi-square %d with %d degrees of freedom', (x, freedom, tail) => {
    expectWithin(chiSquareTail(x, freedom), tail, TEN_DIGITS);
  });

  it('normal: half at 0, 2.5 % at 1.96 (to sixteen digits), and its mirror', () => {
  });

  it('refuses what is no chi-square', () => {
    expect(() => chiSquareTail(-1, 3)).toThrow('chi-square -1: allowed is from 0');
    expect(() => chiSquareTail(1, 2.5)).toThrow('freedom 2.5');
  });
});

describe('monotone regression', () => {
  // Size of the pituitary fissure by age: de Leeuw, Hornik and Mair, J Stat Softw 2009;32(5), ties "secondary", as quoted in scikit-learn's tests.
  it('the pituitary data: means by age 8, 10, 12, 14, weights their counts', () => {
    const means = [[21, 23.5, 23], [24, 21, 25], [21.5, 22, 19], [23.5, 25]];
    const fit = monotoneFit(means.map(mean), means.map((each) => each.length), 'rising');
    [22.22222, 22.22222, 22.22222, 24.25].forEach((truth, i) => expectWithin(fit.values[i]!, truth, { abs: 5e-6 }));
  });

  it('weighted values as scipy.optimize.isotonic_regression of SciPy 1.17.1 fits them', () => {
    const values = [-0.96, -1.19, 0.5, 1.7, 2.96, 2.13, 1.74, 1.86, 4.1, 5.56, 4.33, 2.92];
    const weights = [1.42, 2.93, 2.71, 2.56, 1.3, 1.58, 2.09, 0.37, 1.76, 0.96, 2.66, 0.38];
    const truth = [-1.114919540229885, -1.114919540229885, 0.5, 1.7, ...new Array<number>(4).fill(2.1607116104868913), 4.1, 4.49125, 4.49125, 4.49125];
    const fit = monotoneFit(values, weights, 'rising');
    truth.forEach((each, i) => expectWithin(fit.values[i]!, each, { abs: 1e-13 }));
    monotoneFit(values, weights, 'falling').values.forEach((each) => expectWithin(each, 1.8135279922779926, { abs: 1e-13 }));
  });

  it(`is the max of min of weighted means (Barlow et al. 1972) on random values (seed ${SEED})`, () => {
    const random = createRandom(SEED);
    for (let run = 0; run < 200; run++) {
      const count = random.integer(1, 9);
      const values = Array.from({ length: count }, (_, i) => 0.3 * i + random.normal());
      const weights = values.map(() => 0.1 + random.uniform());
      const mid = (from: number, to: number): number => {
        const part = weights.slice(from, to + 1);
        return part.reduce((sum, weight, i) => sum + weight * values[from + i]!, 0) / part.reduce((sum, weight) => sum + weight, 0);
      };
      const fit = monotoneFit(values, weights, 'rising').values;
      fit.forEach((each, i) => {
        const lowest = Array.from({ length: i + 1 }, (_, from) => Math.min(...Array.from({ length: count - i }, (_, on) => mid(from, i + on))));
        expectWithin(each, Math.max(...lowest), { abs: 1e-12 });
      });
    }
  });

  it(`a single turn is the best of all cuts into level blocks that rise then fall (seed ${SEED})`, () => {
    const random = createRandom(SEED);
    for (let run = 0; run < 60; run++) {
      const values = Array.from({ length: 6 }, () => random.normal());
      const weights = values.map(() => 0.2 + random.uniform());
      for (const kind of ['peak', 'valley'] as const) {
        const fit = singleTurnFit(values, weights, kind);
        expectWithin(fit.chi2, bestOfBlocks(values, weights, kind), { abs: 1e-12 });
        expect(turnsOnce(fit.values, kind)).toBe(true);
        expectWithin(fit.before, Math.abs(fit.values[fit.turn]! - fit.values[0]!), { abs: 1e-12 });
      }
    }
  });
});

describe('lines with errors in both coordinates', () => {
  // Pearson 1901 with the weights of York 1966; slope and intercept to eleven digits as in Ogren and Norton, J Chem Educ 1992;69(4) and Lybanon,
  // Am J Phys 1984;52; deviations and chi-square of York et al. 2004 (0.295, 0.0580, 1.483), with more digits in public fits of the same data.
  const x = [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
  const y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
  const xWeights = [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1];
  const yWeights = [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500];
  const york = x.map((each, i) => ({ x: each, y: y[i]!, sdX: xWeights[i]! ** -0.5, sdY: yWeights[i]! ** -0.5 }));

  it("Pearson's data with York's weights", () => {
    const line = fitted(york);
    expectWithin(line.slope, -0.48053340745, { abs: 1e-11 });
    expectWithin(line.intercept, 5.47991022403, { abs: 1e-11 });
    expectWithin(line.chi2 / line.freedom, 1.48329414926, { abs: 1e-10 });
    expectWithin(line.interceptSd, 0.294970735493, { abs: 1e-11 });
    expectWithin(line.slopeSd, 0.057985009001, { abs: 1e-11 });
  });

  it("Pearson's own line, all points alike: 5.7857 − 0.546 x through (3.82, 3.70)", () => {
    const line = orthogonalLine(x.map((each, i) => ({ rightMm: each, upMm: y[i]!, sdMm: 1 })));
    if (line.kind !== 'fitted') throw new Error(line.reason);
    const slope = 1 / Math.tan(line.angle);
    expectWithin(slope, -0.546, { abs: 5e-4 });
    // Printed from the slope as printed: 3.70 + 0.546 · 3.82.
    expectWithin(line.middleMm.upMm - slope * line.middleMm.rightMm, 5.7857, { abs: 5e-4 * 3.82 });
    expectWithin(line.middleMm.upMm, 3.7, { abs: 1e-12 });
    expectWithin(line.middleMm.rightMm, 3.82, { abs: 1e-12 });
  });

  it(`has the least chi-square of all lines, equal errors or not (seed ${SEED})`, () => {
    const random = createRandom(SEED);
    for (let run = 0; run < 40; run++) {
      const points = Array.from({ length: 8 }, (_, i) => ({
        x: i + 0.4 * random.normal(),
        y: 0.7 * i + 0.4 * random.normal(),
        sdX: 0.1 + 0.5 * random.uniform(),
        sdY: 0.1 + 0.5 * random.uniform(),
      }));
      const line = fitted(points);
      expectWithin(line.chi2, leastOver((slope) => profile(points, slope), 0, 2), { rel: 1e-9 });
      expectWithin(profile(points, line.slope), line.chi2, { rel: 1e-12 });
      const alike = points.map((p) => ({ ...p, sdX: p.sdY }));
      const orthogonal = orthogonalLine(alike.map((p) => ({ rightMm: p.x, upMm: p.y, sdMm: p.sdX })));
      if (orthogonal.kind !== 'fitted') throw new Error(orthogonal.reason);
      expectWithin(1 / Math.tan(orthogonal.angle), fitted(alike).slope, { rel: 1e-9 });
      expectWithin(orthogonal.across, fitted(alike).chi2, { rel: 1e-9 });
    }
  });

  it(`with other errors in up than in right the line of travel is York's, and the closed one where they are alike (seed ${SEED})`, () => {
    const york2 = unequalLine(york.map((p) => ({ rightMm: p.x, upMm: p.y, sdMm: p.sdY, rightSdMm: p.sdX })))!;
    expectWithin(1 / Math.tan(york2.angle), -0.48053340745, { abs: 1e-10 });
    expectWithin(york2.across / 8, 1.48329414926, { abs: 1e-10 });
    expectWithin(york2.middleMm.upMm - york2.middleMm.rightMm / Math.tan(york2.angle), 5.47991022403, { abs: 1e-9 });
    const random = createRandom(SEED);
    for (let run = 0; run < 40; run++) {
      const points = Array.from({ length: 8 }, (_, i) => ({ rightMm: i + 0.4 * random.normal(), upMm: 0.7 * i + 0.4 * random.normal(), sdMm: 0.1 + 0.5 * random.uniform(), rightSdMm: 0.1 + 0.5 * random.uniform() }));
      const line = orthogonalLine(points);
      if (line.kind !== 'fitted') throw new Error(line.reason);
      const other = fitted(points.map((p) => ({ x: p.rightMm, y: p.upMm, sdX: p.rightSdMm, sdY: p.sdMm })));
      expectWithin(1 / Math.tan(line.angle), other.slope, { rel: 1e-8 });
      expectWithin(line.across, other.chi2, { rel: 1e-9 });
      const alike = points.map(({ rightMm, upMm, sdMm }) => ({ rightMm, upMm, sdMm, rightSdMm: sdMm }));
      const closed = orthogonalLine(alike);
      const searched = unequalLine(alike)!;
      if (closed.kind !== 'fitted') throw new Error(closed.reason);
      for (const field of ['angle', 'along', 'across', 'weight'] as const) expectWithin(searched[field], closed[field], { rel: 1e-9 }, field);
      searched.reach95!.forEach((side, at) => expectWithin(side, closed.reach95![at]!, { rel: 1e-9 }, 'interval'));
      expectWithin(searched.middleMm.upMm, closed.middleMm.upMm, { rel: 1e-9 });
      expectWithin(searched.middleMm.rightMm, closed.middleMm.rightMm, { rel: 1e-9 });
    }
  });

  it('without errors in x it is the straight line of weighted least squares, deviations and all', () => {
    const points = york.map((p) => ({ ...p, sdX: 0 }));
    const line = fitted(points);
    const plain = weightedLeastSquares(points.map((p) => [1, p.x]), points.map((p) => p.y), points.map((p) => p.sdY));
    if (plain.kind !== 'fitted') throw new Error(plain.reason);
    expectWithin(line.slope, plain.coefficients[1]!, TEN_DIGITS);
    expectWithin(line.intercept, plain.coefficients[0]!, TEN_DIGITS);
    expectWithin(line.interceptSd ** 2, plain.covariance[0]![0]!, TEN_DIGITS);
    expectWithin(line.covariance, plain.covariance[0]![1]!, TEN_DIGITS);
    expectWithin(line.slopeSd ** 2, plain.covariance[1]![1]!, TEN_DIGITS);
  });

  it(`its deviations are those of drawn points, correlated errors included (seed ${SEED})`, () => {
    const random = createRandom(SEED);
    const correlation = 0.6;
    const slopes: number[] = [];
    let claimed = 0;
    const draws = 2000;
    for (let run = 0; run < draws; run++) {
      const line = fitted(
        Array.from({ length: 10 }, (_, i) => {
          const shared = random.normal();
          const own = Math.sqrt(1 - correlation ** 2) * random.normal();
          return { x: i + 0.3 * shared, y: 2 - i + 0.3 * (correlation * shared + own), sdX: 0.3, sdY: 0.3, correlation };
        }),
      );
      slopes.push(line.slope);
      claimed += line.slopeSd / draws;
    }
    expectWithin(mean(slopes), -1, { abs: 0.005 }, 'no bias');
    // 2,000 draws know a deviation to 1.6 %.
    expectWithin(Math.sqrt(mean(slopes.map((slope) => (slope + 1) ** 2))), claimed, { rel: 0.05 });
  });

  it('says why it does not fit', () => {
    expect(lineWithErrors([{ x: 0, y: 0, sdX: 1, sdY: 1 }])).toMatchObject({ kind: 'not-fitted', reason: 'too-few-points' });
    const upright = [0, 1, 2].map((each) => ({ x: 3, y: each, sdX: 1, sdY: 1 }));
    expect(lineWithErrors(upright)).toMatchObject({ kind: 'not-fitted', reason: 'upright' });
    expect(() => lineWithErrors([{ x: 0, y: 0, sdX: 0, sdY: 0 }])).toThrow('points[0] deviations 0, 0');
    const inOnePlace = { kind: 'not-fitted', reason: 'one-place' };
    expect(orthogonalLine([0, 1].map(() => ({ upMm: 1, rightMm: 1, sdMm: 1 })))).toEqual(inOnePlace);
    expect(orthogonalLine([0, 1].map(() => ({ upMm: 1, rightMm: 1, sdMm: 1, rightSdMm: 2 })))).toEqual(inOnePlace);
    expect(() => orthogonalLine([{ upMm: 1, rightMm: 1, sdMm: 1, rightSdMm: 0 }])).toThrow('points[0].rightSdMm 0');
  });
});

describe('weighted least squares, NIST StRD', () => {
  it('Norris (straight line, 36 points)', () => {
    expectCertified(NORRIS.x.map((each) => [1, each]), NORRIS.y, NORRIS.certified, { rel: 1e-12 });
  });

  it('Longley (6 predictors, ill-conditioned)', () => {
    expectCertified(LONGLEY.rows.map((row) => [1, ...row.slice(1)]), LONGLEY.rows.map(([value]) => value!), LONGLEY.certified, { rel: 1e-9 });
  });

  it('Wampler 1 and 2 (fifth degree, exact): coefficients 1 and 10⁻ⁱ by construction', () => {
    const rows = Array.from({ length: 21 }, (_, x) => [0, 1, 2, 3, 4, 5].map((power) => x ** power));
    for (const truth of [[1, 1, 1, 1, 1, 1], [1, 0.1, 0.01, 0.001, 0.0001, 0.00001]]) {
      const fit = weightedLeastSquares(rows, rows.map((row) => row.reduce((sum, each, i) => sum + each * truth[i]!, 0)));
      if (fit.kind !== 'fitted') throw new Error(fit.reason);
      truth.forEach((each, i) => expectWithin(fit.coefficients[i]!, each, { rel: 1e-8 }));
    }
  });

  it('a deviation counts as repeats do: half of it is four rows', () => {
    const once = weightedLeastSquares([[1, 0], [1, 1], [1, 3]], [1, 2, 5], [0.5, 1, 1]);
    const repeated = weightedLeastSquares([[1, 0], [1, 0], [1, 0], [1, 0], [1, 1], [1, 3]], [1, 1, 1, 1, 2, 5]);
    if (once.kind !== 'fitted' || repeated.kind !== 'fitted') throw new Error('not fitted');
    once.covariance.flat().forEach((each, i) => expectWithin(each, repeated.covariance.flat()[i]!, { rel: 1e-12 }));
    expectWithin(once.chi2, repeated.chi2, { rel: 1e-12 });
  });

  it('refuses columns that depend on each other and rows that are too few', () => {
    expect(weightedLeastSquares([[1, 2], [2, 4], [3, 6]], [1, 2, 3])).toEqual({ kind: 'not-fitted', reason: 'columns-depend' });
    expect(weightedLeastSquares([[1, 2]], [1])).toEqual({ kind: 'not-fitted', reason: 'too-few-rows' });
    expect(() => weightedLeastSquares([[1], [1]], [1, 2], [1, 0])).toThrow('sds[1] 0: allowed is above 0 and finite');
  });
});

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

function fitted(points: readonly PointWithErrors[]) {
  const line = lineWithErrors(points);
  if (line.kind !== 'fitted') throw new Error(line.reason);
  return line;
}

/** Chi-square of the best line of a slope, from its definition. */
function profile(points: readonly PointWithErrors[], slope: number): number {
  const weights = points.map((p) => 1 / (p.sdY ** 2 + (slope * p.sdX) ** 2));
  const rest = points.map((p) => p.y - slope * p.x);
  const middle = rest.reduce((sum, each, i) => sum + weights[i]! * each, 0) / weights.reduce((sum, weight) => sum + weight, 0);
  return rest.reduce((sum, each, i) => sum + weights[i]! * (each - middle) ** 2, 0);
}

/** The least value over a fine grid, then over ever finer ones about its best. */
function leastOver(of: (x: number) => number, low: number, high: number): number {
  const steps = 400;
  const best = Array.from({ length: steps + 1 }, (_, i) => low + ((high - low) * i) / steps).reduce((a, b) => (of(a) <= of(b) ? a : b));
  const width = (2 * (high - low)) / steps;
  return width < 1e-9 ? of(best) : leastOver(of, best - width, best + width);
}

function turnsOnce(values: readonly number[], kind: 'peak' | 'valley'): boolean {
  const steps = values.slice(1).map((value, i) => (kind === 'peak' ? 1 : -1) * (value - values[i]!));
  const firstFall = steps.findIndex((step) => step < -1e-12);
  return firstFall < 0 || steps.slice(firstFall).every((step) => step <= 1e-12);
}

function bestOfBlocks(values: readonly number[], weights: readonly number[], kind: 'peak' | 'valley'): number {
  let best = Infinity;
  for (let cuts = 0; cuts < 2 ** (values.length - 1); cuts++) {
    const blocks: number[][] = [[0]];
    for (let i = 1; i < values.length; i++) {
      if (cuts & (1 << (i - 1))) blocks.push([i]);
      else blocks[blocks.length - 1]!.push(i);
    }
    const levels = blocks.map((block) => {
      const weight = block.reduce((sum, i) => sum + weights[i]!, 0);
      return block.reduce((sum, i) => sum + weights[i]! * values[i]!, 0) / weight;
    });
    if (!turnsOnce(levels, kind)) continue;
    const chi2 = blocks.reduce((sum, block, b) => sum + block.reduce((part, i) => part + weights[i]! * (values[i]! - levels[b]!) ** 2, 0), 0);
    best = Math.min(best, chi2);
  }
  return best;
}

/** Certified deviations are scaled by what is left, as is usual where none are known beforehand. */
function expectCertified(rows: number[][], values: readonly number[], certified: typeof NORRIS.certified, tolerance: { rel: number }): void {
  const fit = weightedLeastSquares(rows, values);
  if (fit.kind !== 'fitted') throw new Error(fit.reason);
  expectWithin(fit.chi2, certified.residualSumOfSquares, tolerance, 'residual sum of squares');
  certified.estimates.forEach(([value, sd], i) => {
    expectWithin(fit.coefficients[i]!, value, tolerance, `coefficient ${i}`);
    expectWithin(Math.sqrt((fit.covariance[i]![i]! * fit.chi2) / fit.freedom), sd, tolerance, `deviation ${i}`);
  });
}
