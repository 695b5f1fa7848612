import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { edgePoints, polarityOf, refineRim, snapToEdge } from '../../../src/measure/edgeSnap';
import type { GreyPicture } from '../../../src/measure/picture';
import { drawnRing } from '../../support/drawnDiscs';
import { expectWithin } from '../../support/expectWithin';

const flat: GreyPicture = { width: 60, height: 50, luma: new Uint8Array(60 * 50).fill(90) };
/** Dark to the left of x = 29.5 (pixel 30 is the first light one), light to the right, and a weaker step at 20.5. */
const steps: GreyPicture = { width: 60, height: 50, luma: Uint8Array.from({ length: 60 * 50 }, (_, at) => (at % 60 >= 30 ? 200 : at % 60 >= 21 ? 60 : 40)) };
const RIM = { centre: { x: 100, y: 90 }, semiMajorPx: 60, semiMinorPx: 55, angleRad: 0.3 };
const ring = drawnRing(200, 180, { ellipse: RIM, innerPart: 0.6, ring: 200, outside: 100, inside: 40, noise: 2 }, createRandom(850));
/** A step falls half-way between two pixels; the parabola through Gaussian slopes finds it to this. */
const STEP_PX = 0.01;

describe('a point put by hand', () => {
  it('goes to the strongest edge within reach, and only along the way across it', () => {
    const snapped = snapToEdge(steps, { x: 25, y: 20 }, { radiusPx: 8 });
    if (snapped.kind !== 'snapped') throw new Error(snapped.reason);
    expectWithin(snapped.point.x, 29.5, { abs: STEP_PX });
    expectWithin(snapped.point.y, 20, { abs: 1e-9 });
    expectWithin(snapped.toLight.x, 1, { abs: 1e-9 });
  });

  it('takes the weaker where the stronger is out of reach', () => {
    const snapped = snapToEdge(steps, { x: 19, y: 20 }, { radiusPx: 4 });
    if (snapped.kind !== 'snapped') throw new Error(snapped.reason);
    expectWithin(snapped.point.x, 20.5, { abs: 0.05 });
  });

  it('takes the weaker beside it, not the stronger at the end of its reach', () => {
    // 40 at 1.3 px, 60 at 7.7 px: the other edge of a thin rim.
    const thin: GreyPicture = { ...steps, luma: steps.luma.map((value, at) => (at % 60 >= 30 ? 140 : value === 60 ? 80 : 40)) };
    const nearer = snapToEdge(thin, { x: 21.8, y: 20 }, { radiusPx: 8 });
    if (nearer.kind !== 'snapped') throw new Error(nearer.reason);
    expectWithin(nearer.point.x, 20.5, { abs: STEP_PX });
  });

  it('along a given line', () => {
    const snapped = snapToEdge(steps, { x: 27, y: 20 }, { along: { x: 3, y: 3 } });
    if (snapped.kind !== 'snapped') throw new Error(snapped.reason);
    expectWithin(snapped.point.x, 29.5, { abs: STEP_PX });
    expectWithin(snapped.point.y, 22.5, { abs: STEP_PX });
  });

  it('is refused where there is no edge, or no picture', () => {
    expect(snapToEdge(flat, { x: 20, y: 20 })).toEqual({ kind: 'refused', reason: 'no-edge' });
    expect(snapToEdge(steps, { x: 20, y: 20 }, { along: { x: 0, y: 1 } })).toEqual({ kind: 'refused', reason: 'no-edge' });
    expect(snapToEdge(flat, { x: 61, y: 20 })).toEqual({ kind: 'refused', reason: 'outside' });
    expect(snapToEdge(flat, { x: NaN, y: 20 })).toEqual({ kind: 'refused', reason: 'outside' });
  });

  it('throws for options that are no numbers of their kind', () => {
    expect(() => snapToEdge(flat, { x: 20, y: 20 }, { radiusPx: 0 })).toThrow(/radiusPx 0: allowed/);
    expect(() => snapToEdge(flat, { x: 20, y: 20 }, { along: { x: 0, y: 0 } })).toThrow(/along \(0, 0\): allowed/);
  });
});

describe('a rim', () => {
  it('edge points lie on the ellipse, with the sign of the change and the ray they belong to', () => {
    const points = edgePoints(ring, RIM, { polarity: 'dark-outside', searchPx: 5, rays: 36 });
    expect(points.map(({ ray }) => ray)).toEqual(Array.from({ length: 36 }, (_, ray) => ray));
    for (const { offsetPx, slope } of points) {
      expectWithin(offsetPx, 0, { abs: 0.2 });
      expect(slope).toBeLessThan(-20);
    }
    expect(edgePoints(ring, RIM, { polarity: 'light-outside', searchPx: 5 })).toEqual([]);
    expect(polarityOf(ring, RIM, 5)).toBe('dark-outside');
    expect(polarityOf(flat, { ...RIM, semiMajorPx: 10, semiMinorPx: 9 }, 5)).toBe('either');
  });

  it('that leaves the picture keeps the rays that are in it', () => {
    const cut: GreyPicture = { width: 200, height: 100, luma: ring.luma.slice(0, 200 * 100) };
    const points = edgePoints(cut, RIM, { polarity: 'dark-outside', searchPx: 5 });
    expect(points.length).toBeGreaterThan(35);
    expect(points.length).toBeLessThan(50);
    for (const { point } of points) expect(point.y).toBeLessThanOrEqual(99);
    expect(refineRim(cut, RIM)).toEqual({ kind: 'refused', reason: 'no-edge' });
  });

  it('is refused where marks make no ellipse or the picture no edge', () => {
    expect(refineRim(ring, [{ x: 1, y: 1 }])).toEqual({ kind: 'refused', reason: 'few' });
    expect(refineRim(flat, { centre: { x: 30, y: 25 }, semiMajorPx: 15, semiMinorPx: 14, angleRad: 0 })).toEqual({ kind: 'refused', reason: 'no-edge' });
  });

  it('a highlight over a fifth of it is gone by', () => {
    const lit: GreyPicture = { ...ring, luma: ring.luma.slice() };
    // A bright patch beside the rim, its own edge 3 px outside.
    for (let y = 20; y < 60; y++) for (let x = 130; x < 175; x++) if (Math.hypot(x - 100, y - 90) > 62) lit.luma[y * 200 + x] = 230;
    const rim = refineRim(lit, RIM, { polarity: 'dark-outside' });
    if (rim.kind !== 'fitted') throw new Error(rim.reason);
    expectWithin(rim.ellipse.centre.x, 100, { abs: 0.1 });
    expectWithin(rim.ellipse.centre.y, 90, { abs: 0.1 });
  });
});
