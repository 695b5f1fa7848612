/** Ellipse fits go along with turning, stretching and shifting the picture, and never answer with something that is no number. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitEllipse, fitEllipseRobust } from '../../src/measure/ellipseFit';
import { formOf } from '../../src/measure/ellipseForm';
import type { Point } from '../../src/measure/picture';
import { expectWithin } from '../support/expectWithin';
import { longer, propertySeed, seedWords } from '../support/seed';

const RUNS = { numRuns: longer(300), seed: propertySeed };
const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Marks of a rim: any ellipse, all round, each mark off by up to a tenth of the short axis. */
const rimMarks = fc
  .record({ ratio: number(0.3, 1), angle: number(0, 3), errors: fc.array(fc.tuple(number(-1, 1), number(-1, 1)), { minLength: 7, maxLength: 30 }) })
  .map(({ ratio, angle, errors }) =>
    errors.map(([ex, ey], k): Point => {
      const t = (2 * Math.PI * k) / errors.length;
      const [u, v] = [Math.cos(t), ratio * Math.sin(t)];
      return { x: Math.cos(angle) * u - Math.sin(angle) * v + 0.1 * ratio * ex, y: Math.sin(angle) * u + Math.cos(angle) * v + 0.1 * ratio * ey };
    }),
  );
const move = fc.record({ turn: number(-3, 3), size: number(1, 400), x: number(-2000, 2000), y: number(-2000, 2000) });

/** Part of the size by which two fits of the same points may differ: the least squares are flat to the square of this. */
const SAME = 1e-5;

describe(`ellipse fits ${seedWords}`, () => {
  it('are the same ellipse in a picture turned, stretched and shifted', () => {
    fc.assert(
      fc.property(rimMarks, move, (marks, { turn, size, x, y }) => {
        const [cosine, sine] = [size * Math.cos(turn), size * Math.sin(turn)];
        const moved = (point: Point): Point => ({ x: x + cosine * point.x - sine * point.y, y: y + sine * point.x + cosine * point.y });
        const [first, second] = [fitEllipse(marks), fitEllipse(marks.map(moved))];
        expect(second.kind).toBe(first.kind);
        if (first.kind !== 'fitted' || second.kind !== 'fitted') return;
        const [from, to] = [formOf(first.ellipse), formOf(second.ellipse)];
        const centre = moved(first.ellipse.centre);
        const [c2, s2] = [size * Math.cos(2 * turn), size * Math.sin(2 * turn)];
        expectWithin(to.x, centre.x, { abs: SAME * size });
        expectWithin(to.y, centre.y, { abs: SAME * size });
        expectWithin(to.mean, size * from.mean, { abs: SAME * size });
        expectWithin(to.p, c2 * from.p - s2 * from.q, { abs: SAME * size });
        expectWithin(to.q, s2 * from.p + c2 * from.q, { abs: SAME * size });
      }),
      RUNS,
    );
  });

  it('answer any points with finite numbers or a reason', () => {
    const place = fc.oneof(number(-1e6, 1e6), number(-5, 5), fc.integer({ min: -3, max: 3 }));
    fc.assert(
      fc.property(fc.array(fc.record({ x: place, y: place }), { maxLength: 20 }), (points) => {
        for (const answer of [fitEllipse(points), fitEllipseRobust(points), fitEllipse(points, { leastArcDeg: 0, pointSdPx: 0 })]) {
          if (answer.kind === 'refused') continue;
          const { ellipse } = answer;
          const numbers = [ellipse.centre.x, ellipse.centre.y, ellipse.semiMajorPx, ellipse.semiMinorPx, ellipse.angleRad, answer.rmsPx, answer.arcDeg];
          for (const value of [...numbers, ...answer.covariance.flat(), ...answer.formCovariance.flat()]) expect(Number.isFinite(value)).toBe(true);
          expect(ellipse.semiMajorPx).toBeGreaterThanOrEqual(ellipse.semiMinorPx);
          expect(ellipse.semiMinorPx).toBeGreaterThan(0);
        }
      }),
      RUNS,
    );
  });
});
