/**
 * A mouth with a second seat, in which the horn tips far up: a hand can drag the rim into it. What was left standing when the hand let go once
 * stayed there, while the record alone gave another answer; a reload changed the number.
 */
import { expect, it } from 'vitest';
import { analyse } from '../../src/core/analyse';
import type { Analysis } from '../../src/core/analysis';
import type { PlayerRecord } from '../../src/core/specs';
import { expectWithin } from '../support/expectWithin';
import { defaultRecord } from '../support/records';

const mouth: PlayerRecord = {
  ...defaultRecord('trumpet'),
  arch: {
    upper: { form: { kind: 'sextic', a: 2.42932618e-08, b: 0.0205787006 }, profile: { kind: 'arcs', inclinationDeg: 6.11, crownHeightMm: 10.2, crownRadiusMm: 14.3, gumRadiusMm: 16, gumInclinationDeg: 8 } },
    lower: { form: { kind: 'sextic', a: 3.65685594e-08, b: 0.0185384594 }, profile: { kind: 'arcs', inclinationDeg: -1.71, crownHeightMm: 9, crownRadiusMm: 28.6, gumRadiusMm: 16, gumInclinationDeg: 0 } },
    jaw: { openingMm: 3.611663818359375, forwardMm: -4.101802557706833, hingeDeg: 1.301504135131836 },
  },
  rim: { innerDiameterMm: 17.5, outerDiameterMm: 25, highPointDiameterMm: 20.6, contourRadiusMm: 3.5 },
  lips: { upper: { thicknessMm: 10.710117936134338, effectiveModulusKPa: 131.4941668510437 }, lower: { thicknessMm: 14.364007826894522, effectiveModulusKPa: 385.049045085907 }, law: 'stiffening' },
  force: { newtons: 25.020713329315186 },
  home: { note: 'F4' },
  upperLipShare: { value: 0.41449570655822754, by: 'arc' },
};
const at = (upMm: number, rightMm: number): PlayerRecord => ({
  ...mouth,
  readings: [{ note: 'F4', travel: { upMm: 0, rightMm: 0 } }, { note: 'D5', travel: { upMm, rightMm } }],
});
const elevationOf = (analysis: Analysis): number => analysis.readings.find(({ note }) => note === 'D5')!.follow.pose.elevationDeg;

it('where a hand lets go of the rim the answer is the record’s own', () => {
  const STEPS = 11;
  let analysis = analyse(at(-10.37, 8.46));
  let apart = 0;
  for (let step = 1; step <= STEPS; step++) {
    const part = step / STEPS;
    const here = at(-10.37 + part * 7.35, 8.46 - part * 8.66);
    analysis = analyse(here, analysis, 'glance');
    const fresh = elevationOf(analyse(here));
    apart = Math.max(apart, Math.abs(elevationOf(analysis) - fresh));
    expectWithin(elevationOf(analyse(here, analysis)), fresh, { abs: 1e-9 }, `let go after step ${step}`);
  }
  // The hand did find the other seat on its way; else nothing was at stake.
  expect(apart).toBeGreaterThan(1);
});
