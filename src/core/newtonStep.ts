/** One Newton step of a symmetric 3 × 3 system, shifted to be positive definite where it is not. */

/** Smallest pivot, as a part of the largest diagonal entry, at which a matrix still counts as positive definite. */
const LEAST_PIVOT_PART = 1e-13;
const FIRST_SHIFT_PART = 1e-3;

/**
 * Solves (H + μI)·step = −gradient by Cholesky with the least μ tried (0 first) that makes it positive definite. H is packed
 * (00, 01, 02, 11, 12, 22). Writes `step`, returns μ: 0 means that H itself is positive definite.
 */
export function solveShifted(h: Float64Array, gradient: Float64Array, step: Float64Array): number {
  const size = Math.max(Math.abs(h[0]!), Math.abs(h[3]!), Math.abs(h[5]!), 1e-300);
  let shift = 0;
  while (!factorAndSolve(h, shift, LEAST_PIVOT_PART * size, gradient, step)) {
    shift = shift === 0 ? FIRST_SHIFT_PART * size : shift * 4;
  }
  return shift;
}

function factorAndSolve(h: Float64Array, shift: number, least: number, g: Float64Array, step: Float64Array): boolean {
  const d0 = h[0]! + shift;
  if (!(d0 > least)) return false;
  const l10 = h[1]! / d0;
  const l20 = h[2]! / d0;
  const d1 = h[3]! + shift - l10 * h[1]!;
  if (!(d1 > least)) return false;
  const off = h[4]! - l20 * h[1]!;
  const l21 = off / d1;
  const d2 = h[5]! + shift - l20 * h[2]! - l21 * off;
  if (!(d2 > least)) return false;
  const y0 = -g[0]!;
  const y1 = -g[1]! - l10 * y0;
  const y2 = -g[2]! - l20 * y0 - l21 * y1;
  const s2 = y2 / d2;
  const s1 = y1 / d1 - l21 * s2;
  step[2] = s2;
  step[1] = s1;
  step[0] = y0 / d0 - l10 * s1 - l20 * s2;
  return true;
}
