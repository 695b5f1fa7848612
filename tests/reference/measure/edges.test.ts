/** Edges of drawn rings whose places are known exactly. */
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { type EdgePolarity, edgePoints, polarityOf, refineRim, snapToEdge } from '../../../src/measure/edgeSnap';
import { fitEllipse } from '../../../src/measure/ellipseFit';
import type { Point } from '../../../src/measure/picture';
import { rimDrawn } from '../../../src/measure/rimDrawn';
import type { RimEllipse } from '../../../src/measure/traces';
import { type DrawnRing, drawnRing } from '../../support/drawnDiscs';
import { expectWithin } from '../../support/expectWithin';

const RIM: RimEllipse = { centre: { x: 119.37, y: 101.81 }, semiMajorPx: 76, semiMinorPx: 70, angleRad: 0.35 };
const SILVER: DrawnRing = { ellipse: RIM, innerPart: 0.63, ring: 210, outside: 120, inside: 50, noise: 4 };
const BLACK: DrawnRing = { ...SILVER, ring: 40, outside: 150, inside: 170 };
const picture = (drawn: DrawnRing, seed: number) => drawnRing(240, 200, drawn, createRandom(seed));

const TRIALS = 20;
/** Root mean square over the trials; 0.006 and 0.009 px were measured, and 0.05 and 0.06 on the faint one. Real edges are less even. */
const CLEAR = { centrePx: 0.02, axesPx: 0.03 };
const FAINT = { centrePx: 0.08, axesPx: 0.1 };

describe.each([
  ['silver on skin', SILVER, 'dark-outside', 401, CLEAR],
  ['black on skin', BLACK, 'light-outside', 402, CLEAR],
  ['a rim hardly lighter than the skin, in noise', { ...SILVER, ring: 140, noise: 8 }, 'dark-outside', 403, FAINT],
] as const)('%s', (_, drawn, polarity: EdgePolarity, seed, within) => {
  it(`an ellipse drawn by hand goes to the edge: centre to ${within.centrePx} px, axes to ${within.axesPx} px (seed ${seed})`, () => {
    const random = createRandom(seed);
    let [centre, axes, held] = [0, 0, 0];
    for (let trial = 0; trial < TRIALS; trial++) {
      const truth = { ...RIM, centre: { x: 119 + random.uniform(), y: 101 + random.uniform() } };
      const rim = refineRim(picture({ ...drawn, ellipse: truth }, seed + trial), marksOn(truth, 8, () => random.uniform() * 3 - 1.5));
      if (rim.kind !== 'fitted') throw new Error(rim.reason);
      expect(rim.polarity).toBe(polarity);
      const [dx, dy] = [rim.ellipse.centre.x - truth.centre.x, rim.ellipse.centre.y - truth.centre.y];
      centre += (dx * dx + dy * dy) / 2 / TRIALS;
      axes += ((rim.ellipse.semiMajorPx - RIM.semiMajorPx) ** 2 + (rim.ellipse.semiMinorPx - RIM.semiMinorPx) ** 2) / 2 / TRIALS;
      if (Math.abs(dx) < 1.96 * Math.sqrt(rim.covariance[0]![0]!)) held++;
      if (Math.abs(dy) < 1.96 * Math.sqrt(rim.covariance[1]![1]!)) held++;
    }
    expectWithin(Math.sqrt(centre), 0, { abs: within.centrePx }, 'centre');
    expectWithin(Math.sqrt(axes), 0, { abs: within.axesPx }, 'axes');
    // On clear rings it is all of them: what real edges share is added to the deviation, and drawn ones have none of it.
    expect(held / 2 / TRIALS).toBeGreaterThanOrEqual(0.9);
  });
});

describe.each([
  ['silver on skin', SILVER, 'dark-outside', 404],
  ['black on skin', BLACK, 'light-outside', 405],
] as const)('%s, the inner edge within reach', (_, drawn, polarity: EdgePolarity, seed) => {
  it('the polarity is told, and keeps to the outer edge', () => {
    const thin = picture({ ...drawn, innerPart: 0.95 }, seed);
    const points = edgePoints(thin, RIM, { polarity, searchPx: 8 });
    expect(points.length).toBeGreaterThan(70);
    for (const { offsetPx } of points) expectWithin(offsetPx, 0, { abs: 0.5 });
    expect(polarityOf(picture(drawn, seed), RIM, 4)).toBe(polarity);
  });
});

describe('six points put by hand round a rim hardly lighter than the skin', () => {
  it('are drawn to its edge all round: the ellipse through them to 0.1 px, a third of what each snapped by itself leaves', () => {
    const random = createRandom(406);
    let [single, whole] = [0, 0];
    for (let trial = 0; trial < TRIALS; trial++) {
      const seen = picture({ ...SILVER, ring: 140, noise: 8 }, 406 + trial);
      const snapped = marksOn(RIM, 6, () => 1.2 * random.normal()).map((mark) => {
        const to = snapToEdge(seen, mark);
        return to.kind === 'snapped' ? to.point : mark;
      });
      single += centreOff(snapped) / TRIALS;
      whole += centreOff(rimDrawn(seen, snapped)!) / TRIALS;
    }
    expectWithin(Math.sqrt(whole), 0, { abs: 0.1 });
    expect(whole).toBeLessThan(single / 9);
  });
});

/** Squared, px², each direction. */
function centreOff(points: readonly Point[]): number {
  const fit = fitEllipse(points);
  if (fit.kind !== 'fitted') throw new Error(fit.reason);
  return ((fit.ellipse.centre.x - RIM.centre.x) ** 2 + (fit.ellipse.centre.y - RIM.centre.y) ** 2) / 2;
}

describe('a point put by hand', () => {
  const seen = picture({ ...SILVER, noise: 0 }, 410);
  it('goes to the edge next to it, along the normal', () => {
    for (let k = 0; k < 40; k++) {
      const [on, outward] = placeOn(RIM, (2 * Math.PI * k) / 40);
      const away = ((k % 9) - 4) * 1.2;
      const snapped = snapToEdge(seen, { x: on.x + away * outward.x, y: on.y + away * outward.y });
      if (snapped.kind !== 'snapped') throw new Error(snapped.reason);
      const off = (snapped.point.x - on.x) * outward.x + (snapped.point.y - on.y) * outward.y;
      expectWithin(off, 0, { abs: SNAPPED_PX }, `place ${k}`);
      expectWithin(snapped.toLight.x * outward.x + snapped.toLight.y * outward.y, -1, { abs: 0.01 }, 'toward the lighter side');
    }
  });
});

/** On an edge without noise; pixels read between by straight lines leave a few hundredths. */
const SNAPPED_PX = 0.08;

function placeOn(ellipse: RimEllipse, t: number): [Point, Point] {
  const [cosine, sine] = [Math.cos(ellipse.angleRad), Math.sin(ellipse.angleRad)];
  const [u, v] = [ellipse.semiMajorPx * Math.cos(t), ellipse.semiMinorPx * Math.sin(t)];
  const [nu, nv] = [Math.cos(t) * ellipse.semiMinorPx, Math.sin(t) * ellipse.semiMajorPx];
  const size = Math.hypot(nu, nv);
  return [
    { x: ellipse.centre.x + cosine * u - sine * v, y: ellipse.centre.y + sine * u + cosine * v },
    { x: (cosine * nu - sine * nv) / size, y: (sine * nu + cosine * nv) / size },
  ];
}

function marksOn(ellipse: RimEllipse, count: number, error: () => number): Point[] {
  return Array.from({ length: count }, (_, index) => {
    const [on] = placeOn(ellipse, (2 * Math.PI * index) / count);
    return { x: on.x + error(), y: on.y + error() };
  });
}
