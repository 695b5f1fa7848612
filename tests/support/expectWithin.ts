import { expect } from 'vitest';

export interface Tolerance {
  /** Allowed absolute difference, in the value's own unit. */
  readonly abs?: number;
  /** Allowed difference as a part of |truth|. */
  readonly rel?: number;
}

/** Fails unless |actual − truth| ≤ abs + rel·|truth|; a NaN always fails. */
export function expectWithin(actual: number, truth: number, tolerance: Tolerance, what = 'value'): void {
  const allowed = (tolerance.abs ?? 0) + (tolerance.rel ?? 0) * Math.abs(truth);
  const difference = Math.abs(actual - truth);
  expect(
    difference <= allowed,
    `${what}: ${actual} differs from ${truth} by ${difference}, allowed ${allowed}`,
  ).toBe(true);
}
