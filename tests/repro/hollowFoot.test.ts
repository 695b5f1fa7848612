/**
 * Beside a sunk tooth a form is hollow and a point may have several feet. The seed nearest to a point need not lie in the valley of the nearest
 * foot: the gap came out up to 0.08 mm too large there, jumped, and with it the energy.
 */
import { it } from 'vitest';
import { curveScratch, FOOT_OUT, footOnCurve } from '../../src/core/curveFoot';
import { CURVE_OUT, evaluateCurve } from '../../src/core/planarForm';
import type { FormSpec, ToothSpec } from '../../src/core/specs';
import { buildArch } from '../../src/core/arch';
import { expectWithin } from '../support/expectWithin';

/** Steps of the walk: 2 µm, across which a distance of some millimetres errs by less than 1e-9 mm. */
const WALK = 60_000;
const WALKED_MM = 1e-6;

it.each<[string, FormSpec, ToothSpec, number, number]>([
  ['a catenary, tooth 22', { kind: 'catenary', widthMm: 51.834144, depthMm: 44.2627 }, { fdi: 22, outMm: -1.999932, centreMm: 11.75, widthMm: 6.5 }, 18.5, 2.94965],
  ['half an ellipse, tooth 41', { kind: 'power', widthMm: 55.094826, depthMm: 46.450007, exponent: 0.5000055 }, { fdi: 41, outMm: -1.91662, centreMm: -2.5, widthMm: 5 }, -3, 3.8146],
  ['the average form, tooth 12', { kind: 'sextic', a: 2.42932618e-8, b: 0.0205787006 }, { fdi: 12, outMm: -2, centreMm: -11.75, widthMm: 6.5 }, -12.5, -0.21875],
  ['the average form, tooth 11 out', { kind: 'sextic', a: 2.42932618e-8, b: 0.0205787006 }, { fdi: 11, outMm: 1, centreMm: -4.25, widthMm: 8.5 }, -10, 3.94],
])('%s: the foot is the nearest one', (_, form, tooth, x, z) => {
  const { curve } = buildArch({ single: { form, profile: { kind: 'straight' }, teeth: [tooth] } }).upper.placed;
  const out = new Float64Array(CURVE_OUT);
  let nearest = Infinity;
  for (let step = 0; step <= WALK; step++) {
    evaluateCurve(curve, curve.low + ((curve.high - curve.low) * step) / WALK, out);
    nearest = Math.min(nearest, Math.hypot(x - out[0]!, z - out[1]!));
  }
  const foot = new Float64Array(FOOT_OUT);
  footOnCurve(curve, x, z, NaN, curveScratch(), foot);
  expectWithin(Math.abs(foot[0]!), nearest, { abs: WALKED_MM });
});
