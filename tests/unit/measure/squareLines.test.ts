/** Lines in space, projected point by point through cameras that look squarely, and beside the picture's middle. */
import { describe, expect, it } from 'vitest';
import { project } from '../../../src/measure/camera';
import { END_SD_PX, elevationFromSide, lateralFromAbove } from '../../../src/measure/hornAngles';
import { angleSeen } from '../../../src/measure/squareLines';
import type { CameraSpec, LineMark } from '../../../src/measure/marks';
import { toRadians } from '../../../src/core/frame';
import { type Vec3, add, scale } from '../../../src/core/vector';
import { expectWithin } from '../../support/expectWithin';

const PHONE: CameraSpec = { width: 1280, height: 720, focalPx: 950, focalRelativeSd: 0.1 };
const EXACT = { abs: 1e-9 };

const lineOf = (from: Vec3, way: Vec3): LineMark => ({ from: project(PHONE, from), to: project(PHONE, add(from, scale(way, 50))) });

describe('a level line on a cheek, 40 mm over the picture’s middle', () => {
  // The camera's frame: x right, y down, z away. From the right the face looks to the picture's right, from the left to its left.
  it.each([['right', 1], ['left', -1]] as const)('from the %s: the horn’s elevation is told exactly where the line recedes as on the generic head', (view, facing) => {
    for (const elevationDeg of [-20, 0, 8]) {
      const horn = lineOf([30 * facing, 20, 320], [facing * Math.cos(toRadians(elevationDeg)), -Math.sin(toRadians(elevationDeg)), 0]);
      const level = lineOf([-40 * facing, -40, 260], [facing, 0, 0.35]);
      const seen = angleSeen(horn, level, view, PHONE);
      if (seen.kind !== 'seen') throw new Error(seen.reason);
      expectWithin(seen.deg, elevationDeg, EXACT, 'elevation');
      const plain = elevationFromSide(horn, level, view);
      if (plain.kind !== 'seen') throw new Error(plain.reason);
      expect(Math.abs(plain.deg - elevationDeg)).toBeGreaterThan(2);
      expect(seen.sdDeg).toBeGreaterThan(plain.sdDeg);
    }
  });

  it('says less surely how far it recedes the further it is from the middle', () => {
    const sdAt = (y: number): number => {
      const seen = angleSeen(lineOf([30, 20, 320], [1, 0, 0]), lineOf([-40, y, 260], [1, 0, 0.35]), 'right', PHONE, { endSdPx: END_SD_PX });
      return seen.kind === 'seen' ? seen.turningSdDeg : NaN;
    };
    expect(sdAt(-70)).toBeGreaterThan(sdAt(0));
    expect(sdAt(70)).toBeGreaterThan(sdAt(0));
  });
});

describe('a lens that nobody knows', () => {
  const sdAt = (y: number, focalRelativeSd: number): number => {
    const seen = angleSeen(lineOf([30, 20, 320], [1, 0, 0]), lineOf([-40, y, 260], [1, 0, 0.35]), 'right', { ...PHONE, focalRelativeSd });
    return seen.kind === 'seen' ? seen.turningSdDeg : NaN;
  };

  it('leaves the angle unsure by what other lenses would make of it, and nothing where the level line lies in the middle', () => {
    // Through 950 px the line is turned by about 3°, through a lens longer by 60 % by less than 2°.
    expect(sdAt(-40, 0.6)).toBeGreaterThan(sdAt(-40, 0) + 0.5);
    expectWithin(sdAt(0, 0.6), sdAt(0, 0), { abs: 0.05 });
  });
});

describe('from above', () => {
  it('a horn that points down as usual and lies beside the picture’s middle is told exactly', () => {
    const down = Math.tan(toRadians(10));
    for (const lateralDeg of [-6, 0, 5]) {
      // The player looks to the picture's right, whose own right is at the picture's lower edge.
      const horn = lineOf([30, 40, 420], [1, Math.tan(toRadians(lateralDeg)), down]);
      const level = lineOf([-60, 20, 300], [1, 0, 0]);
      const seen = angleSeen(horn, level, 'above', PHONE);
      if (seen.kind !== 'seen') throw new Error(seen.reason);
      expectWithin(seen.deg, lateralDeg, EXACT, 'lateral');
      const plain = lateralFromAbove(horn, level);
      expect(plain.kind === 'seen' && Math.abs(plain.deg - lateralDeg)).toBeGreaterThan(0.5);
    }
  });
});

describe('a line of no length', () => {
  it('is refused as before', () => {
    const none = { from: { x: 5, y: 5 }, to: { x: 5, y: 5 } };
    expect(angleSeen(lineOf([0, 0, 300], [1, 0, 0]), none, 'right', PHONE)).toEqual({ kind: 'refused', reason: 'short' });
  });
});
