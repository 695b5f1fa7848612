/** One surface from its two curves, and integrals that owe nothing to the code under test. */
import { type Arch, buildArch } from '../../src/core/arch';
import type { FormSpec, ProfileSpec } from '../../src/core/specs';
import type { JawSurface } from '../../src/core/surface';

export const singleArch = (form: FormSpec, profile: ProfileSpec = { kind: 'straight' }): Arch =>
  buildArch({ single: { form, profile } });

export const singleSurface = (form: FormSpec, profile?: ProfileSpec): JawSurface => singleArch(form, profile).upper;

/**
 * Integral of a smooth function by the tanh–sinh rule, which also bears a slope that is infinite at an end (Takahasi H, Mori M,
 * Publ RIMS 1974;9:721–741; value from memory). Good to about 1e-13 of the largest value.
 */
export function integrate(f: (x: number) => number, from: number, to: number): number {
  const half = (to - from) / 2;
  const middle = (to + from) / 2;
  const step = 1 / 64;
  let sum = 0;
  for (let k = -256; k <= 256; k++) {
    const t = k * step;
    const inner = (Math.PI / 2) * Math.sinh(t);
    const weight = ((Math.PI / 2) * Math.cosh(t)) / Math.cosh(inner) ** 2;
    const x = middle + half * Math.tanh(inner);
    if (weight > 1e-300 && x > from && x < to) sum += weight * f(x);
  }
  return sum * step * half;
}
