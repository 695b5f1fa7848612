/** Which of several fits to prefer: Akaike's criterion with the correction for few values. Hurvich and Tsai, Biometrika 1989;76:297–307. */
import { sayCore } from '../../words/core';
import { tooTight } from '../formChecks';

/**
 * AICc where one deviation of all values is fitted too: n·ln(RSS/n) + 2k + 2k(k + 1)/(n − k − 1), up to a constant that fits of the same values share.
 * `unknowns` is k and counts that deviation, `values` n. Infinity where there are too few values to judge, n ≤ k + 1.
 */
export function aiccFitted(residualSumOfSquares: number, unknowns: number, values: number): number {
  checked(residualSumOfSquares, unknowns, values);
  return values * Math.log(residualSumOfSquares / values) + penalty(unknowns, values);
}

function penalty(unknowns: number, values: number): number {
  return values <= unknowns + 1 ? Infinity : 2 * unknowns + (2 * unknowns * (unknowns + 1)) / (values - unknowns - 1);
}

function checked(sum: number, unknowns: number, values: number): void {
  if (!(sum >= 0)) throw tooTight('sum of squares', String(sum), sayCore('atLeast', { least: 0 }));
  if (!Number.isInteger(unknowns) || unknowns < 0) throw tooTight('unknowns', String(unknowns), sayCore('wholeFrom', { least: 0 }));
  if (!Number.isInteger(values) || values < 1) throw tooTight('values', String(values), sayCore('wholeFrom', { least: 1 }));
}
