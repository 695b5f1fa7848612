import { describe, expect, it } from 'vitest';
import {
  anglesFromAxis, axisFromAngles, frontalPosition, rimDirections, sideViewDegrees, toRadians, travelFromFrontal,
} from '../../../src/core/frame';
import { cross, dot, length } from '../../../src/core/vector';
import { expectWithin } from '../../support/expectWithin';

const ROUNDING = 1e-13;

describe('people’s signs and the frame’s (x to the player’s left, y up, z forward)', () => {
  it('travel up and to the right is +y and −x, and back', () => {
    expect(frontalPosition(3, 1)).toEqual({ x: -1, y: 3 });
    expect(travelFromFrontal(-1, 3)).toEqual({ upMm: 3, rightMm: 1 });
    expect(Object.is(travelFromFrontal(0, 0).rightMm, 0)).toBe(true);
  });

  it('bell up is +y, bell to the player’s right is −x', () => {
    expectWithin(axisFromAngles({ elevationDeg: 90, lateralDeg: 0 })[1], 1, { abs: ROUNDING });
    expectWithin(axisFromAngles({ elevationDeg: 0, lateralDeg: 90 })[0], -1, { abs: ROUNDING });
    expect(axisFromAngles({ elevationDeg: 0, lateralDeg: 0 })[2]).toBe(1);
  });

  it.each([[0, 0], [12, -7], [-35, 40], [70, 170], [5, -179]])('angles %d, %d come back from their axis', (elevationDeg, lateralDeg) => {
    const axis = axisFromAngles({ elevationDeg, lateralDeg });
    expectWithin(length(axis), 1, { abs: ROUNDING });
    const back = anglesFromAxis([5 * axis[0], 5 * axis[1], 5 * axis[2]]);
    expectWithin(back.elevationDeg, elevationDeg, { abs: 1e-11 });
    expectWithin(back.lateralDeg, lateralDeg, { abs: 1e-11 });
  });

  it('a side photograph shows more than the elevation when the bell points aside: tan = tan e / cos l', () => {
    const angles = { elevationDeg: 20, lateralDeg: 30 };
    const shown = sideViewDegrees(angles);
    expectWithin(Math.tan(toRadians(shown)), Math.tan(toRadians(20)) / Math.cos(toRadians(30)), { abs: ROUNDING });
    expect(shown).toBeGreaterThan(20);
    expectWithin(sideViewDegrees({ elevationDeg: -11, lateralDeg: 0 }), -11, { abs: 1e-12 });
  });

  it('the rim’s directions are right-handed, its across level, its axis the horn’s', () => {
    const { across, up, axis } = rimDirections(toRadians(17), toRadians(-25));
    cross(across, up).forEach((part, index) => expectWithin(part, axis[index]!, { abs: ROUNDING }));
    expectWithin(dot(across, up), 0, { abs: ROUNDING });
    expect(across[1]).toBe(0);
    axisFromAngles({ elevationDeg: 17, lateralDeg: -25 }).forEach((part, index) => expectWithin(part, axis[index]!, { abs: ROUNDING }));
  });

  it('refuses a vector without direction', () => {
    expect(() => anglesFromAxis([0, 0, 0])).toThrow('allowed: length > 0');
  });
});
