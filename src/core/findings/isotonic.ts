/**
 * Weighted monotone regression by pooling adjacent violators: the exact least-squares answer, in one pass.
 * Ayer et al. 1955; Barlow, Bartholomew, Bremner and Brunk, Statistical Inference under Order Restrictions, 1972.
 */
import { tooTight } from '../formChecks';

export interface MonotoneFit {
  /** Fitted values, one for each given. */
  readonly values: readonly number[];
  /** Weighted sum of squares that is left. */
  readonly chi2: number;
}

/** Nearest rising (never falling) or falling values; weights above 0, usually 1/sd². An empty list is fitted by an empty one. */
export function monotoneFit(values: readonly number[], weights: readonly number[], way: 'rising' | 'falling'): MonotoneFit {
  if (weights.length !== values.length) throw tooTight('weights', `${weights.length}`, `as many as values, ${values.length}`);
  values.forEach((value, i) => {
    if (!Number.isFinite(value)) throw tooTight(`values[${i}]`, String(value), 'a finite number');
    if (!(weights[i]! > 0 && weights[i]! < Infinity)) throw tooTight(`weights[${i}]`, String(weights[i]), 'above 0 and finite');
  });
  const sign = way === 'rising' ? 1 : -1;
  const levels: number[] = [];
  const heft: number[] = [];
  const counts: number[] = [];
  values.forEach((value, i) => {
    let level = sign * value;
    let weight = weights[i]!;
    let count = 1;
    while (levels.length > 0 && levels[levels.length - 1]! >= level) {
      const before = heft.pop()!;
      level = (level * weight + levels.pop()! * before) / (weight + before);
      weight += before;
      count += counts.pop()!;
    }
    levels.push(level);
    heft.push(weight);
    counts.push(count);
  });
  const fitted = levels.flatMap((level, block) => Array.from({ length: counts[block]! }, () => sign * level));
  return { values: fitted, chi2: fitted.reduce((sum, fit, i) => sum + weights[i]! * (values[i]! - fit) ** 2, 0) };
}
