/** Angles and shares from marks: signs, refusals and errors; outside truths are in tests/reference/measure. */
import { describe, expect, it } from 'vitest';
import { elevationFromSide, lateralFromAbove, swingFrom } from '../../../src/measure/hornAngles';
import type { LineMark } from '../../../src/measure/marks';
import { sharesSeen } from '../../../src/measure/placementSeen';
import { expectWithin } from '../../support/expectWithin';

/** A line of 200 px at an angle above the picture's right, degrees. */
const line = (deg: number, lengthPx = 200): LineMark => ({
  from: { x: 300, y: 300 },
  to: { x: 300 + lengthPx * Math.cos((deg * Math.PI) / 180), y: 300 - lengthPx * Math.sin((deg * Math.PI) / 180) },
});

describe('elevation from the side', () => {
  it('is positive where the horn points up, from either side', () => {
    const right = elevationFromSide(line(12), line(-3), 'right');
    const left = elevationFromSide(line(168), line(183), 'left');
    if (right.kind !== 'seen' || left.kind !== 'seen') throw new Error('refused');
    expectWithin(right.deg, 15, { abs: 1e-9 });
    expectWithin(left.deg, 15, { abs: 1e-9 });
  });

  it('two lines of 200 px with ends of 1 px: √2·√2/200, and the rest from what turns', () => {
    const seen = elevationFromSide(line(0), line(0), 'right', { cameraSdDeg: 0, headSdDeg: 0, other: { deg: 0, sdDeg: 0 } });
    if (seen.kind !== 'seen') throw new Error(seen.reason);
    expectWithin(seen.sdDeg, (2 / 200) * (180 / Math.PI), { rel: 1e-3 });
    expectWithin(seen.turningSdDeg, 0, { abs: 1e-12 });
  });

  it('refuses lines that are too short, run backward, look the other way or stand upright', () => {
    expect(elevationFromSide(line(0, 9), line(0), 'right')).toEqual({ kind: 'refused', reason: 'short' });
    expect(elevationFromSide(line(170), line(0), 'right')).toEqual({ kind: 'refused', reason: 'backward' });
    expect(elevationFromSide(line(170), line(180), 'right')).toEqual({ kind: 'refused', reason: 'other-side' });
    expect(elevationFromSide(line(0), line(0), 'left')).toEqual({ kind: 'refused', reason: 'other-side' });
    expect(elevationFromSide(line(90), line(80), 'right')).toEqual({ kind: 'refused', reason: 'upside-down' });
  });

  it('throws for numbers that are none', () => {
    expect(() => elevationFromSide(line(NaN), line(0), 'right')).toThrow(/horn .* allowed/);
    expect(() => elevationFromSide(line(0), line(0), 'right', { other: { deg: 80, sdDeg: 1 } })).toThrow(/other.deg 80: allowed/);
    expect(() => elevationFromSide(line(0), line(0), 'right', { cameraSdDeg: 40 })).toThrow(/cameraSdDeg 40: allowed/);
    expect(() => elevationFromSide(line(0), line(0), 'right', { endSdPx: -1 })).toThrow(/endSdPx -1: allowed/);
  });
});

describe('lateral from above', () => {
  it('is positive toward the player’s right, whichever way the player looks in the picture', () => {
    for (const facing of [90, 0, -90, 200]) {
      const seen = lateralFromAbove(line(facing - 6), line(facing));
      if (seen.kind !== 'seen') throw new Error(seen.reason);
      expectWithin(seen.deg, 6, { abs: 1e-9 });
    }
  });

  it('refuses a horn that points backward', () => {
    expect(lateralFromAbove(line(180), line(0))).toEqual({ kind: 'refused', reason: 'backward' });
  });
});

describe('a swing from home', () => {
  const at = (deg: number, levelDeg = 0) => {
    const seen = elevationFromSide(line(deg), line(levelDeg), 'right');
    if (seen.kind !== 'seen') throw new Error(seen.reason);
    return seen;
  };

  it('a level line marked 4° off in both says the same', () => {
    expectWithin(swingFrom(at(-10), at(-4)).deg, 6, { abs: 1e-9 });
    expectWithin(swingFrom(at(-10, 4), at(-4, 4)).deg, 6, { abs: 1e-9 });
  });

  it('two kinds of angle make none', () => {
    const above = lateralFromAbove(line(5), line(0));
    if (above.kind !== 'seen') throw new Error(above.reason);
    expect(() => swingFrom(at(0), above)).toThrow(/swingFrom: elevation and lateral/);
  });
});

describe('shares from a lip line', () => {
  const rim = { innerDiameterMm: 16, outerDiameterMm: 26 };
  const ellipse = { centre: { x: 300, y: 300 }, semiMajorPx: 130, semiMinorPx: 130, angleRad: 0 };
  const level = (y: number) => [250, 300, 350].map((x) => ({ x, y }));

  it('10 px a millimetre: a line 2 mm above the middle leaves 6 of 16 mm above it', () => {
    const seen = sharesSeen(ellipse, level(280), rim, { markSdPx: 1, lipDepthSdMm: 0 });
    if (seen.kind !== 'seen') throw new Error(seen.reason);
    expectWithin(seen.diameter.value, 6 / 16, { abs: 1e-12 });
    expectWithin(seen.offsetMm, 2, { abs: 1e-12 });
    // Three marks of 1 px about the middle: 1/√3 px, a tenth of it in mm, over the cup's 16 mm.
    expectWithin(seen.diameter.sd, 0.1 / Math.sqrt(3) / 16, { rel: 1e-6 });
  });

  it('eyes below in the picture turn it round', () => {
    const eyes = { 'outer-eye-right': { x: 400, y: 700 }, 'outer-eye-left': { x: 200, y: 700 } };
    const seen = sharesSeen(ellipse, level(280), rim, { landmarks: eyes });
    const nose = sharesSeen(ellipse, level(280), rim, { landmarks: { 'nose-bridge': { x: 300, y: 620 } } });
    if (seen.kind !== 'seen' || nose.kind !== 'seen') throw new Error('refused');
    expectWithin(seen.diameter.value, 10 / 16, { abs: 1e-12 });
    expectWithin(nose.diameter.value, 10 / 16, { abs: 1e-12 });
  });

  it('lean is positive with the higher end toward the player’s left, which a front picture has at its right', () => {
    const seen = sharesSeen(ellipse, [{ x: 250, y: 305 }, { x: 350, y: 295 }], rim);
    if (seen.kind !== 'seen') throw new Error(seen.reason);
    expectWithin(seen.leanDeg, (Math.atan(0.1) * 180) / Math.PI, { abs: 1e-9 });
  });

  it('refuses one mark, a line that stands, and one beyond the cup', () => {
    expect(sharesSeen(ellipse, [{ x: 300, y: 300 }], rim)).toEqual({ kind: 'refused', reason: 'few' });
    expect(sharesSeen(ellipse, [{ x: 300, y: 250 }, { x: 310, y: 350 }], rim)).toEqual({ kind: 'refused', reason: 'upright' });
    expect(sharesSeen(ellipse, level(210), rim)).toEqual({ kind: 'refused', reason: 'outside-cup' });
  });

  it('refuses a line at the cup’s very edge: no reading holds a share that rounds to 0 or 1', () => {
    // 10 px a millimetre, the cup's edge 80 px from the middle; 160 px are the whole.
    expect(sharesSeen(ellipse, level(220.5), rim)).toEqual({ kind: 'refused', reason: 'outside-cup' });
    expect(sharesSeen(ellipse, level(379.5), rim)).toEqual({ kind: 'refused', reason: 'outside-cup' });
    for (const y of [222, 378]) {
      const seen = sharesSeen(ellipse, level(y), rim);
      if (seen.kind !== 'seen') throw new Error(seen.reason);
      for (const { value } of [seen.diameter, seen.arc, seen.area]) {
        expect(Number(value.toFixed(3))).toBeGreaterThan(0);
        expect(Number(value.toFixed(3))).toBeLessThan(1);
      }
    }
  });

  it('throws for numbers that are none', () => {
    expect(() => sharesSeen(ellipse, [{ x: NaN, y: 0 }], rim)).toThrow(/lipLine \(NaN, 0\): allowed/);
    expect(() => sharesSeen(ellipse, level(300), { ...rim, innerDiameterMm: 27 })).toThrow(/innerDiameterMm 27: allowed/);
    expect(() => sharesSeen(ellipse, level(300), rim, { markSdPx: -1 })).toThrow(/markSdPx -1: allowed/);
  });
});
