/** Tails of the normal and the chi-square distribution. Press et al., Numerical Recipes §6.2 (from memory); held to tables in tests/reference/fits.test.ts. */
import { tooTight } from '../formChecks';

/** Two-sided 95 % of a normal distribution. */
export const NORMAL_95 = 1.959963984540054;
/** The 95 % point of chi-square with one degree of freedom: the same, squared. */
export const CHI_SQUARE_95 = NORMAL_95 * NORMAL_95;
/** So many deviations beyond a bar, 80 in 100 samples clear it. */
export const FOUR_TIMES_IN_FIVE = 0.8416212335729143;

/** Where a series or a fraction stops: a part of its sum, near a double's own rounding. */
const SERIES_REL = 1e-16;
const MOST_TERMS = 2000;
/** Keeps Lentz's fraction from dividing by nothing. */
const TINY = 1e-300;

/** P(χ² ≥ x) with `freedom` degrees of freedom (whole, from 0; none: 1). Relative error below 1e-10 for x up to 10 × freedom + 100. */
export function chiSquareTail(x: number, freedom: number): number {
  if (!(x >= 0)) throw tooTight('chi-square', String(x), 'from 0');
  if (!Number.isInteger(freedom) || freedom < 0) throw tooTight('freedom', String(freedom), 'a whole number from 0');
  if (freedom === 0 || x === 0) return 1;
  return upperGamma(freedom / 2, x / 2);
}

/** Regularised upper incomplete gamma Q(a, x): by the series below a + 1, by the continued fraction above. */
function upperGamma(a: number, x: number): number {
  const front = Math.exp(-x + a * Math.log(x) - logGammaOfHalves(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < MOST_TERMS && term > sum * SERIES_REL; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return 1 - sum * front;
  }
  let b = x + 1 - a;
  let c = 1 / TINY;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < MOST_TERMS; n++) {
    const step = -n * (n - a);
    b += 2;
    d = 1 / nonZero(step * d + b);
    c = nonZero(b + step / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) <= SERIES_REL) break;
  }
  return front * fraction;
}

const nonZero = (value: number): number => (Math.abs(value) < TINY ? TINY : value);

/** log Γ(a) for a = 1/2, 1, 3/2 …: by Γ(a + 1) = a·Γ(a) from Γ(1/2) = √π or Γ(1) = 1. */
function logGammaOfHalves(a: number): number {
  let log = Number.isInteger(a) ? 0 : Math.log(Math.PI) / 2;
  for (let factor = Number.isInteger(a) ? 1 : 0.5; factor < a; factor++) log += Math.log(factor);
  return log;
}
