/** The best fit that turns once: rising then falling (a peak), or falling then rising (a valley), by trying every place. */
import { tooTight } from '../formChecks';
import { type MonotoneFit, monotoneFit } from './isotonic';

export interface SingleTurnFit extends MonotoneFit {
  readonly kind: 'peak' | 'valley';
  /** Where it turns: of the notes at the fit's own height there, the one that was read furthest out. */
  readonly turn: number;
  /** How far the fit goes before the turn and comes back after it, both ≥ 0. */
  readonly before: number;
  readonly after: number;
}

/**
 * Least squares over all sequences of that kind, which include the monotone ones. Two monotone pieces, cut at every place, give it exactly:
 * any rising piece followed by any falling one turns at the higher of the two ends. At least one value.
 */
export function singleTurnFit(values: readonly number[], weights: readonly number[], kind: 'peak' | 'valley'): SingleTurnFit {
  if (values.length === 0) throw tooTight('values', 'none', 'at least one');
  const sign = kind === 'peak' ? 1 : -1;
  let best: MonotoneFit | null = null;
  for (let cut = 1; cut <= values.length; cut++) {
    const first = monotoneFit(values.slice(0, cut), weights.slice(0, cut), kind === 'peak' ? 'rising' : 'falling');
    const second = monotoneFit(values.slice(cut), weights.slice(cut), kind === 'peak' ? 'falling' : 'rising');
    const chi2 = first.chi2 + second.chi2;
    if (best === null || chi2 < best.chi2) best = { values: [...first.values, ...second.values], chi2 };
  }
  const fitted = best!.values;
  const height = Math.max(...fitted.map((fit) => sign * fit));
  let turn = -1;
  fitted.forEach((fit, i) => {
    if (sign * fit === height && (turn < 0 || sign * values[i]! > sign * values[turn]!)) turn = i;
  });
  return { ...best!, kind, turn, before: height - sign * fitted[0]!, after: height - sign * fitted[fitted.length - 1]! };
}
