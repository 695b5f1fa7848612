import { expect, it } from 'vitest';
import { riddenTo, rideOn } from '../../../src/measure/ridingRim';
import { expectWithin } from '../../support/expectWithin';

const ellipse = { centre: { x: 100, y: 200 }, semiMajorPx: 40, semiMinorPx: 4, angleRad: 1.4 };
const rim = rideOn(ellipse, { from: { x: 150, y: 210 }, to: { x: 250, y: 230 } });

/** Everything turned a quarter about (100, 200) and grown twice: (u, v) goes to (−2v, 2u). */
it('turns and grows with the two marks of the horn', () => {
  const found = riddenTo(rim, { x: 80, y: 300, sdPx: 0.3 }, { x: 40, y: 500, sdPx: 0.4 })!;
  expectWithin(found.centre.x, 100, { abs: 1e-9 }, 'x');
  expectWithin(found.centre.y, 200, { abs: 1e-9 }, 'y');
  expectWithin(found.semiMajorPx, 80, { abs: 1e-9 }, 'semi-major axis');
  expectWithin(found.semiMinorPx, 8, { abs: 1e-9 }, 'semi-minor axis');
  expectWithin(found.angleRad, 1.4 - Math.PI / 2, { abs: 1e-9 }, 'angle');
  // The rim lies half the marks' distance beyond the near one: 1.5 of its deviation and 0.5 of the far one's.
  expectWithin(found.centreSdPx, Math.hypot(0.45, 0.2), { abs: 1e-9 }, 'deviation');
});

it('is lost with either mark', () => {
  expect(riddenTo(rim, undefined, { x: 1, y: 1, sdPx: 1 })).toBeNull();
  expect(riddenTo(rim, { x: 1, y: 1, sdPx: 1 }, undefined)).toBeNull();
});
