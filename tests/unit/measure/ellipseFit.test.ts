import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { type EllipseFit, coveredArcDeg, fitEllipse, fitEllipseRobust } from '../../../src/measure/ellipseFit';
import { eccentricFoot, ellipseOf, formOf } from '../../../src/measure/ellipseForm';
import type { Point } from '../../../src/measure/picture';
import { symmetricEigen } from '../../../src/measure/symmetricEigen';
import type { RimEllipse } from '../../../src/measure/traces';
import { expectWithin } from '../../support/expectWithin';

const RIM: RimEllipse = { centre: { x: 611.4, y: 402.7 }, semiMajorPx: 78, semiMinorPx: 61, angleRad: -1.1 };
/** Rounding of exact points: coordinates of a thousand carry 1e-13. */
const EXACT_PX = 1e-9;

describe('exact points of a known ellipse', () => {
  it.each([5, 6, 9, 72])('%d points give it back', (count) => {
    const { ellipse, rmsPx } = fitted(fitEllipse(pointsOn(RIM, count)));
    expectSame(ellipse, RIM, EXACT_PX);
    expectWithin(rmsPx, 0, { abs: EXACT_PX });
  });

  it('a rim seen all but from the side', () => {
    const thin = { ...RIM, semiMinorPx: 4 };
    expectSame(fitted(fitEllipse(pointsOn(thin, 24))).ellipse, thin, 1e-7);
  });

  it('a circle: deviations of everything but the angle stay what they are, the angle may be any', () => {
    const circle = { ...RIM, semiMinorPx: 78, angleRad: 0 };
    const { ellipse, covariance } = fitted(fitEllipse(pointsOn(circle, 12)));
    expectWithin(ellipse.semiMajorPx, 78, { abs: EXACT_PX });
    expectWithin(ellipse.semiMinorPx, 78, { abs: EXACT_PX });
    // Twelve points, each expected to err by 0.5 px; ten expectations on seven freedoms of which none was seen.
    const point = 0.5 * Math.sqrt(10 / 17);
    expectWithin(Math.sqrt(covariance[0]![0]!), point * Math.sqrt(2 / 12), { rel: 1e-6 }, 'centre');
    expectWithin(Math.sqrt(covariance[2]![2]!), point * Math.sqrt(3 / 12), { rel: 1e-6 }, 'semi-major');
    expectWithin(Math.sqrt(covariance[4]![4]!), Math.PI / Math.sqrt(12), { rel: 1e-6 }, 'angle');
  });
});

describe('what is refused', () => {
  const reason = (points: readonly Point[]) => {
    const answer = fitEllipse(points);
    return answer.kind === 'refused' ? answer.reason : answer.kind;
  };

  it('fewer than five different points', () => {
    expect(reason([])).toBe('few');
    expect(reason(pointsOn(RIM, 4))).toBe('few');
    expect(reason([...pointsOn(RIM, 4), ...pointsOn(RIM, 4)])).toBe('few');
    expect(fitEllipseRobust(pointsOn(RIM, 4))).toEqual({ kind: 'refused', reason: 'few' });
  });

  it('points on a line, exactly and all but', () => {
    const random = createRandom(801);
    const line = Array.from({ length: 9 }, (_, k) => ({ x: 100 + 31 * k, y: 50 + 17 * k }));
    expect(reason(line)).toBe('line');
    expect(reason(line.map(({ x, y }) => ({ x: x + 0.01 * random.normal(), y })))).toBe('line');
  });

  it('both branches of a hyperbola', () => {
    const branches = [-2, -1.2, -0.5, 0.3, 1.1, 1.9].flatMap((t) => [-1, 1].map((side) => ({ x: 500 + side * 40 * Math.cosh(t), y: 300 + 30 * Math.sinh(t) })));
    expect(reason(branches)).toBe('no-ellipse');
    expect(fitEllipseRobust(branches).kind).toBe('refused');
  });

  it('less than 200° of the rim, saying how much was seen', () => {
    const answer = fitEllipse(pointsOn(RIM, 20, 170));
    expect(answer).toMatchObject({ kind: 'refused', reason: 'short-arc' });
    if (answer.kind === 'refused') expectWithin(answer.arcDeg!, 170, { abs: 10 });
    expect(fitEllipse(pointsOn(RIM, 20, 230)).kind).toBe('fitted');
  });

  it('throws for what is no place', () => {
    expect(() => fitEllipse([...pointsOn(RIM, 6), { x: NaN, y: 3 }])).toThrow(/point \(NaN, 3\): allowed/);
    expect(() => fitEllipse(pointsOn(RIM, 6), { pointSdPx: -1 })).toThrow(/pointSdPx -1: allowed/);
    expect(() => fitEllipse(pointsOn(RIM, 6), { leastArcDeg: 400 })).toThrow(/leastArcDeg 400: allowed/);
  });
});

describe('points of which some lie on something else', () => {
  it.each([0.1, 0.2])('%d of them are dropped (seeds 810 to 829)', (part) => {
    for (let seed = 810; seed < 830; seed++) {
      const random = createRandom(seed);
      const points = pointsOn(RIM, 72).map(({ x, y }) => ({ x: x + 0.1 * random.normal(), y: y + 0.1 * random.normal() }));
      // Another edge further in, here and there.
      const off = points.map(() => random.uniform() < part);
      const mixed = points.map((point, k) => (off[k] ? inward(point, 4 + 10 * random.uniform()) : point));
      const { ellipse, kept } = fitted(fitEllipseRobust(mixed, { pointSdPx: 0.1 }));
      expectSame(ellipse, RIM, 0.15);
      kept.forEach((stays, k) => {
        if (off[k]) expect(stays, `seed ${seed}, point ${k}`).toBe(false);
      });
    }
  });
});

describe('parts', () => {
  it('the foot is the closest of many', () => {
    const random = createRandom(840);
    for (let trial = 0; trial < 200; trial++) {
      const a = 1 + 9 * random.uniform();
      const b = a * (0.02 + 0.98 * random.uniform());
      const [u, v] = trial < 20 ? [a * 1.2 * (random.uniform() - 0.5), 0] : [a * 3 * (random.uniform() - 0.5), a * 3 * (random.uniform() - 0.5)];
      const { cosine, sine } = eccentricFoot(a, b, u, v);
      const reach = Math.hypot(u - a * cosine, v - b * sine);
      let least = Infinity;
      for (let k = 0; k < 5000; k++) least = Math.min(least, Math.hypot(u - a * Math.cos(k / 795.7), v - b * Math.sin(k / 795.7)));
      // 5,000 places miss the closest by the square of half their spacing at most, a part of 1e-6.
      expect(reach).toBeLessThanOrEqual(least + 1e-12);
      expectWithin(reach, least, { abs: 1e-3 * a });
      expectWithin(Math.hypot(cosine, sine), 1, { abs: 1e-12 });
    }
  });

  it('an ellipse comes back from its form', () => {
    for (const angleRad of [0, 0.7, Math.PI / 2, -1.5]) expectSame(ellipseOf(formOf({ ...RIM, angleRad })), { ...RIM, angleRad }, 1e-12);
  });

  it('the covered arc is what the widest gap leaves', () => {
    const around = (degrees: readonly number[]): Point[] => degrees.map((d) => ({ x: Math.cos((d * Math.PI) / 180), y: Math.sin((d * Math.PI) / 180) }));
    expectWithin(coveredArcDeg(around([0, 90, 180, 270]), { x: 0, y: 0 }), 270, { abs: 1e-9 });
    expectWithin(coveredArcDeg(around([170, 190, 260]), { x: 0, y: 0 }), 90, { abs: 1e-9 });
  });

  it('eigenvectors put the matrix together again', () => {
    const matrix = [
      [4, 1, -2],
      [1, 3, 0.5],
      [-2, 0.5, -1],
    ];
    const { values, vectors } = symmetricEigen(matrix);
    expect([...values].sort((one, other) => one - other)).toEqual(values);
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        expectWithin(values.reduce((sum, value, k) => sum + value * vectors[k]![i]! * vectors[k]![j]!, 0), matrix[i]![j]!, { abs: 1e-13 });
      }
    }
  });
});

function pointsOn({ centre, semiMajorPx, semiMinorPx, angleRad }: RimEllipse, count: number, arcDeg = 360): Point[] {
  const [cosine, sine] = [Math.cos(angleRad), Math.sin(angleRad)];
  return Array.from({ length: count }, (_, index) => {
    const t = 0.2 + ((arcDeg * Math.PI) / 180) * (index / (arcDeg === 360 ? count : count - 1));
    const [u, v] = [semiMajorPx * Math.cos(t), semiMinorPx * Math.sin(t)];
    return { x: centre.x + cosine * u - sine * v, y: centre.y + sine * u + cosine * v };
  });
}

function inward({ x, y }: Point, by: number): Point {
  const [dx, dy] = [RIM.centre.x - x, RIM.centre.y - y];
  const size = Math.hypot(dx, dy);
  return { x: x + (by * dx) / size, y: y + (by * dy) / size };
}

function expectSame(actual: RimEllipse, truth: RimEllipse, abs: number): void {
  expectWithin(actual.centre.x, truth.centre.x, { abs }, 'centre x');
  expectWithin(actual.centre.y, truth.centre.y, { abs }, 'centre y');
  expectWithin(actual.semiMajorPx, truth.semiMajorPx, { abs }, 'semi-major');
  expectWithin(actual.semiMinorPx, truth.semiMinorPx, { abs }, 'semi-minor');
  expectWithin(Math.sin(actual.angleRad - truth.angleRad), 0, { abs }, 'angle');
}

function fitted(answer: ReturnType<typeof fitEllipse>): EllipseFit {
  if (answer.kind !== 'fitted') throw new Error(`refused: ${answer.reason}`);
  return answer;
}
