/**
 * Non-linear least squares by Gauss–Newton steps, damped as Marquardt does (J Soc Indust Appl Math 1963;11:431, from memory) where a plain
 * step does not help. Each step is a linear fit by findings/weightedLeastSquares.ts. docs/numerics.md §24.
 */
import { sayCore } from '../../words/core';
import { tooTight } from '../formChecks';
import { MOST_UNKNOWNS, weightedLeastSquares } from '../findings/weightedLeastSquares';

/** How far each value lies from what the unknowns make of it, in the value's own deviations; null where they make nothing. */
export type Misfits = (unknowns: readonly number[]) => readonly number[] | null;

export interface CurveFit {
  readonly kind: 'fitted';
  readonly unknowns: readonly number[];
  /** To first order, from the deviations as given: not scaled by what is left. */
  readonly covariance: readonly (readonly number[])[];
  /** Derivatives of the misfits by the unknowns, there. */
  readonly slopes: readonly (readonly number[])[];
  readonly misfits: readonly number[];
  readonly chi2: number;
  readonly freedom: number;
  readonly iterations: number;
}

export interface NoCurveFit {
  readonly kind: 'not-fitted';
  /** `no-value`: nothing to start from. `stuck`: no step helps. `unsure`: the values do not tell the unknowns apart. */
  readonly reason: 'no-value' | 'stuck' | 'unsure' | 'too-many-steps';
  readonly chi2: number;
  readonly iterations: number;
}

/** At rest where the next step would change the fit by less than this part of what is left. */
const REST = 1e-9;
/** The same where nothing is left, in deviations: far below what a deviation is known to. */
const REST_SDS = 1e-11;
const MOST_ITERATIONS = 400;
/** Step of the differences as a part of an unknown: the cube root of a double's rounding, which is best for central ones. */
const DIFFERENCE = 6e-6;
/** A plain step is tried first; the first damping, and the damping past which a step is shorter than rounding. */
const FIRST_DAMPING = 1e-3;
const MOST_DAMPING = 1e20;
const LEAST_DAMPING = 1e-12;

/**
 * Unknowns at which the sum of squared misfits is least, near `start`. `scales` are lengths that matter in each unknown, for differences
 * about zero; a thousandth of the start where left out. Throws RangeError where the start is not finite or there are too many unknowns.
 */
export function fitCurve(misfitsAt: Misfits, start: readonly number[], scales: readonly number[] = start.map((each) => Math.abs(each) / 1000 || 1)): CurveFit | NoCurveFit {
  if (start.length < 1 || start.length > MOST_UNKNOWNS) throw tooTight('start', String(start.length), sayCore('unknownsUpTo', { most: MOST_UNKNOWNS }));
  start.forEach((each, i) => {
    if (!Number.isFinite(each)) throw tooTight(`start[${i}]`, String(each), sayCore('finite'));
  });
  let unknowns: readonly number[] = start;
  const first = finite(misfitsAt(unknowns));
  if (first === null) return { kind: 'not-fitted', reason: 'no-value', chi2: NaN, iterations: 0 };
  let misfits = first;
  let chi2 = squares(misfits);
  let damping = 0;
  for (let iterations = 1; iterations <= MOST_ITERATIONS; iterations++) {
    const fail = (reason: NoCurveFit['reason']): NoCurveFit => ({ kind: 'not-fitted', reason, chi2, iterations });
    const slopes = slopesAt(misfitsAt, unknowns, scales);
    if (slopes === null) return fail('no-value');
    const plain = step(slopes, misfits, 0);
    if (plain !== null && changeBy(slopes, plain.by) <= REST * Math.sqrt(chi2) + REST_SDS) {
      return { kind: 'fitted', unknowns, covariance: plain.covariance, slopes, misfits, chi2, freedom: misfits.length - unknowns.length, iterations };
    }
    for (;;) {
      const moved: Step | null = damping === 0 ? plain : step(slopes, misfits, damping);
      const next: readonly number[] | null = moved && unknowns.map((each, i) => each + moved.by[i]!);
      const there: readonly number[] | null = next && finite(misfitsAt(next));
      const left = there ? squares(there) : Infinity;
      if (next && there && left < chi2) {
        unknowns = next;
        misfits = there;
        chi2 = left;
        damping = damping <= LEAST_DAMPING ? 0 : damping / 10;
        break;
      }
      if (damping >= MOST_DAMPING) {
        // No shorter step helps: either rounding has the last word, and this is the answer, or the values do not tell the unknowns apart.
        if (plain === null) return fail('unsure');
        if (changeBy(slopes, plain.by) > Math.sqrt(REST) * (1 + Math.sqrt(chi2))) return fail('stuck');
        return { kind: 'fitted', unknowns, covariance: plain.covariance, slopes, misfits, chi2, freedom: misfits.length - unknowns.length, iterations };
      }
      damping = damping === 0 ? FIRST_DAMPING : damping * 10;
    }
  }
  return { kind: 'not-fitted', reason: 'too-many-steps', chi2, iterations: MOST_ITERATIONS };
}

interface Step {
  readonly by: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/** One linear fit of the misfits; damping adds a row for each unknown that holds it, as long as its own column. */
function step(slopes: readonly (readonly number[])[], misfits: readonly number[], damping: number): Step | null {
  const size = slopes[0]!.length;
  const held = damping === 0 ? [] : Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (_, j) => (i === j ? Math.sqrt(damping) * Math.hypot(...slopes.map((row) => row[i]!)) : 0)));
  const fit = weightedLeastSquares([...slopes, ...held], [...misfits.map((each) => -each), ...held.map(() => 0)]);
  return fit.kind === 'fitted' ? { by: fit.coefficients, covariance: fit.covariance } : null;
}

function slopesAt(misfitsAt: Misfits, unknowns: readonly number[], scales: readonly number[]): number[][] | null {
  const columns: number[][] = [];
  for (const [i, each] of unknowns.entries()) {
    const by = DIFFERENCE * Math.max(Math.abs(each), scales[i]!);
    const at = (value: number) => finite(misfitsAt(unknowns.map((one, j) => (i === j ? value : one))));
    const [high, low] = [at(each + by), at(each - by)];
    if (high === null || low === null) return null;
    // The step that doubles really take.
    const taken = each + by - (each - by);
    columns.push(high.map((value, k) => (value - low[k]!) / taken));
  }
  return columns[0]!.map((_, k) => columns.map((column) => column[k]!));
}

const changeBy = (slopes: readonly (readonly number[])[], by: readonly number[]): number =>
  Math.hypot(...slopes.map((row) => row.reduce((sum, each, i) => sum + each * by[i]!, 0)));
const squares = (values: readonly number[]): number => values.reduce((sum, each) => sum + each * each, 0);
const finite = (values: readonly number[] | null): readonly number[] | null => (values?.every(Number.isFinite) === true ? values : null);
