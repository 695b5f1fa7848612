/** The ellipse fit against a published worked example, a search that shares no code with it, and simulated marks. */
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { type EllipseFit, fitEllipse } from '../../../src/measure/ellipseFit';
import { formOf, numbersOf } from '../../../src/measure/ellipseForm';
import type { Point } from '../../../src/measure/picture';
import type { RimEllipse } from '../../../src/measure/traces';
import { expectWithin } from '../../support/expectWithin';

/** Eight points and their best fit by Gander, Golub & Strebel, BIT 34, 1994, 558–578: read in published example code that repeats both, not in the paper itself. */
const PUBLISHED: readonly Point[] = [1, 2, 5, 7, 9, 3, 6, 8].map((x, index) => ({ x, y: [7, 6, 8, 7, 5, 7, 2, 4][index]! }));
const BEST = { x: 2.6996, y: 3.816, a: 6.5187, b: 3.0319, angle: 0.3596 };
/** Norm of the distances at the best fit: value from memory of the same paper. */
const BEST_NORM = 1.1719;
/** Half a unit of the last printed digit, and a little. */
const PRINTED = 6e-5;

/** The points of the example cover less of the ellipse than a rim is asked for. */
const ANY_ARC = { leastArcDeg: 0 };

describe('the worked example of Gander, Golub and Strebel', () => {
  const fit = fitted(fitEllipse(PUBLISHED, ANY_ARC));

  it('gives the published centre, axes and angle', () => {
    expectWithin(fit.ellipse.centre.x, BEST.x, { abs: PRINTED }, 'centre x');
    expectWithin(fit.ellipse.centre.y, BEST.y, { abs: PRINTED }, 'centre y');
    expectWithin(fit.ellipse.semiMajorPx, BEST.a, { abs: PRINTED }, 'semi-major');
    expectWithin(fit.ellipse.semiMinorPx, BEST.b, { abs: PRINTED }, 'semi-minor');
    expectWithin(fit.ellipse.angleRad, BEST.angle, { abs: PRINTED }, 'angle');
    expectWithin(fit.rmsPx * Math.sqrt(PUBLISHED.length), BEST_NORM, { abs: PRINTED }, 'norm of the distances');
  });

  it('is a least by a dense search of the distances: no step of one number or two helps', () => {
    const best = denseCost(PUBLISHED, fit.ellipse);
    expectWithin(best, PUBLISHED.length * fit.rmsPx ** 2, { rel: DENSE_ERROR }, 'sum of squares');
    const numbers = [fit.ellipse.centre.x, fit.ellipse.centre.y, fit.ellipse.semiMajorPx, fit.ellipse.semiMinorPx, fit.ellipse.angleRad];
    for (let i = 0; i < 5; i++) {
      for (let j = 0; j < 5; j++) {
        for (const sign of [-1, 1]) {
          const moved = [...numbers];
          moved[i]! += sign * STEP;
          if (j !== i) moved[j]! += STEP;
          expect(denseCost(PUBLISHED, ellipseFrom(moved)), `numbers ${i} and ${j}, ${sign}`).toBeGreaterThan(best);
        }
      }
    }
  });
});

describe('marks drawn with a known deviation', () => {
  const truth: RimEllipse = { centre: { x: 641.3, y: 355.8 }, semiMajorPx: 75, semiMinorPx: 68, angleRad: 0.4 };
  it.each([
    { count: 8, sdPx: 0.5, arcDeg: 360, seed: 301 },
    { count: 12, sdPx: 1, arcDeg: 360, seed: 302 },
    { count: 20, sdPx: 0.5, arcDeg: 220, seed: 303 },
    { count: 72, sdPx: 0.2, arcDeg: 360, seed: 304 },
  ])('1.96 deviations hold centre and axes in 90 to 98 %: $count points, $sdPx px, $arcDeg° (seed $seed)', ({ count, sdPx, arcDeg, seed }) => {
    const random = createRandom(seed);
    const inside = [0, 0, 0, 0, 0];
    let fits = 0;
    for (let trial = 0; trial < TRIALS; trial++) {
      const marks = marksOn(truth, count, arcDeg, () => sdPx * random.normal());
      const answer = fitEllipse(marks, { pointSdPx: sdPx, leastArcDeg: LEAST_ARC_OF_TRIALS });
      if (answer.kind !== 'fitted') continue;
      fits++;
      const seen = numbersOf(answer.form);
      const true5 = numbersOf(formOf(truth));
      seen.forEach((value, index) => {
        if (Math.abs(value - true5[index]!) <= 1.96 * Math.sqrt(answer.formCovariance[index]![index]!)) inside[index]!++;
      });
    }
    expect(fits).toBe(TRIALS);
    for (const count5 of inside) expect(count5 / fits).toBeGreaterThan(0.9);
    for (const count5 of inside) expect(count5 / fits).toBeLessThan(0.98);
  });
});

const TRIALS = 1500;
const LEAST_ARC_OF_TRIALS = 180;
const STEP = 1e-3;
/** 200,000 points on the ellipse: distances err by the square of half their spacing, far below this part. */
const DENSE_ERROR = 1e-7;

function denseCost(points: readonly Point[], ellipse: RimEllipse): number {
  const steps = 200_000;
  const least = points.map(() => Infinity);
  const [cosine, sine] = [Math.cos(ellipse.angleRad), Math.sin(ellipse.angleRad)];
  for (let step = 0; step < steps; step++) {
    const t = (2 * Math.PI * step) / steps;
    const [u, v] = [ellipse.semiMajorPx * Math.cos(t), ellipse.semiMinorPx * Math.sin(t)];
    const [x, y] = [ellipse.centre.x + cosine * u - sine * v, ellipse.centre.y + sine * u + cosine * v];
    for (let index = 0; index < points.length; index++) {
      const square = (points[index]!.x - x) ** 2 + (points[index]!.y - y) ** 2;
      if (square < least[index]!) least[index] = square;
    }
  }
  return least.reduce((sum, square) => sum + square, 0);
}

const ellipseFrom = (numbers: readonly number[]): RimEllipse => ({
  centre: { x: numbers[0]!, y: numbers[1]! },
  semiMajorPx: numbers[2]!,
  semiMinorPx: numbers[3]!,
  angleRad: numbers[4]!,
});

function marksOn(ellipse: RimEllipse, count: number, arcDeg: number, error: () => number): Point[] {
  const [cosine, sine] = [Math.cos(ellipse.angleRad), Math.sin(ellipse.angleRad)];
  return Array.from({ length: count }, (_, index) => {
    const t = ((arcDeg * Math.PI) / 180) * (index / (arcDeg === 360 ? count : count - 1));
    const [u, v] = [ellipse.semiMajorPx * Math.cos(t), ellipse.semiMinorPx * Math.sin(t)];
    return { x: ellipse.centre.x + cosine * u - sine * v + error(), y: ellipse.centre.y + sine * u + cosine * v + error() };
  });
}

function fitted(answer: ReturnType<typeof fitEllipse>): EllipseFit {
  if (answer.kind !== 'fitted') throw new Error(`refused: ${answer.reason}`);
  return answer;
}
