import { expect, it } from 'vitest';
import { priorOf, type Bundle } from '../../../src/measure/headBundle';
import { isNoHead } from '../../../src/measure/headMisfit';
import { GENERIC_HEAD } from '../../../src/measure/headShape';
import { headSpots } from '../../../src/measure/markedAgain';
import { LANDMARK_NAMES } from '../../../src/measure/marks';

const rim = { centre: { x: 1, y: 2 }, semiMajorPx: 40, semiMinorPx: 40, angleRad: 0, centreSdPx: 0.1, axesSdPx: 0.1 };
const points = Object.fromEntries(LANDMARK_NAMES.map((name) => [name, { x: 1, y: 2, sdPx: 0.1 }]));
const spots = headSpots({ view: 'front', frames: [{ timeS: 0, rim, points }] }, LANDMARK_NAMES);
const prior = priorOf(spots.spots, 0, { px: 1000, relativeSd: 0.05 }, { mm: 13.5, relativeSd: 0.004, markSd: 0.01, marked: 1 }, 0);

/** Every landmark off by so many of its own deviations, to and fro, so that no larger head and no nod explains it. */
function fitted(deviations: number, iterations: number): Bundle {
  const shape = prior.mean.shape.map((place, spot) => {
    const { sideSdMm } = GENERIC_HEAD[spots.spots[spot]!.name];
    return place.map((each, k) => each + (spot % 2 === 0 ? 1 : -1) * deviations * sideSdMm[k]!) as [number, number, number];
  });
  return { kind: 'fitted', shared: { ...prior.mean, shape }, frames: [], cost: 0, iterations };
}

it('a head as people have them is believed however long the fit took', () => {
  expect(isNoHead(prior, fitted(0, 500), spots)).toBe(false);
  expect(isNoHead(prior, fitted(1, 500), spots)).toBe(false);
});

it('one as nobody has is not, where the fit settled slowly; what settled sooner is believed as it stands', () => {
  expect(isNoHead(prior, fitted(5, 101), spots)).toBe(true);
  expect(isNoHead(prior, fitted(5, 100), spots)).toBe(false);
});
