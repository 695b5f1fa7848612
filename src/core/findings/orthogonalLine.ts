/**
 * The line with the least weighted sum of squared distances: total least squares. For points that err alike in both coordinates, each by
 * its own deviation, closed: the larger axis of the weighted scatter (Pearson, Phil Mag 1901;2:559–572). For others: unequalLine.ts.
 */
import { tooTight } from '../formChecks';
import { CHI_SQUARE_95 } from './distributions';
import { unequalLine } from './unequalLine';

export interface PlanePoint {
  readonly upMm: number;
  readonly rightMm: number;
  /** In up, and in right too where `rightSdMm` is absent; above 0. */
  readonly sdMm: number;
  readonly rightSdMm?: number | undefined;
}

export interface OrthogonalLine {
  readonly kind: 'fitted';
  /** One of the line's two directions: from straight up, + toward the right, radians, within ±π/2. */
  readonly angle: number;
  readonly middleMm: { readonly upMm: number; readonly rightMm: number };
  /** Weighted sums of squares from the middle along the line and across it, in deviations; `across` is the fit's chi-square. */
  readonly along: number;
  readonly across: number;
  /** Points less two. */
  readonly freedom: number;
  /** Sum of 1/sd², sd across the line. */
  readonly weight: number;
  /** How far the angle's 95 % interval reaches below it and above it, radians; null where every direction could be the line's. */
  readonly reach95: readonly [number, number] | null;
}

export interface NoOrthogonalLine {
  readonly kind: 'not-fitted';
  readonly reason: 'too-few-points' | 'one-place';
}

/** Not fitted: fewer than two points, or all in one place. */
export function orthogonalLine(points: readonly PlanePoint[]): OrthogonalLine | NoOrthogonalLine {
  points.forEach((p, i) => {
    if (!Number.isFinite(p.upMm) || !Number.isFinite(p.rightMm)) throw tooTight(`points[${i}]`, `(${p.upMm}, ${p.rightMm}) mm`, 'finite numbers');
    for (const field of ['sdMm', 'rightSdMm'] as const) {
      const sd = p[field] ?? p.sdMm;
      if (!(sd > 0 && sd < Infinity)) throw tooTight(`points[${i}].${field}`, String(sd), 'above 0 and finite');
    }
  });
  if (points.length < 2) return { kind: 'not-fitted', reason: 'too-few-points' };
  if (points.some(({ sdMm, rightSdMm = sdMm }) => rightSdMm !== sdMm)) {
    const unequal = unequalLine(points.map(({ upMm, rightMm, sdMm, rightSdMm = sdMm }) => ({ upMm, rightMm, sdMm, rightSdMm })));
    return unequal === null ? { kind: 'not-fitted', reason: 'one-place' } : { kind: 'fitted', ...unequal, freedom: points.length - 2 };
  }
  let weight = 0;
  let up = 0;
  let right = 0;
  for (const p of points) {
    const each = 1 / p.sdMm ** 2;
    weight += each;
    up += each * p.upMm;
    right += each * p.rightMm;
  }
  const middleMm = { upMm: up / weight, rightMm: right / weight };
  let upUp = 0;
  let upRight = 0;
  let rightRight = 0;
  for (const p of points) {
    const u = (p.upMm - middleMm.upMm) / p.sdMm;
    const r = (p.rightMm - middleMm.rightMm) / p.sdMm;
    upUp += u * u;
    upRight += u * r;
    rightRight += r * r;
  }
  const along = (upUp + rightRight) / 2 + Math.hypot((upUp - rightRight) / 2, upRight);
  if (!(along > 0)) return { kind: 'not-fitted', reason: 'one-place' };
  const angle = Math.atan2(2 * upRight, upUp - rightRight) / 2;
  // Summed anew: as a difference of the sums it would drown in rounding where the points lie on a line.
  const across = points.reduce((sum, p) => sum + (offLineMm(p, middleMm, angle) / p.sdMm) ** 2, 0);
  const half = halfAngle95(along, across);
  return { kind: 'fitted', angle, middleMm, along, across, freedom: points.length - 2, weight, reach95: half === null ? null : [half, half] };
}

/** Place along a line through the middle, mm. */
export function alongLineMm(p: Pick<PlanePoint, 'upMm' | 'rightMm'>, middle: OrthogonalLine['middleMm'], angle: number): number {
  return (p.upMm - middle.upMm) * Math.cos(angle) + (p.rightMm - middle.rightMm) * Math.sin(angle);
}

/** Distance from that line, mm, + to its right when looking along it. */
export function offLineMm(p: Pick<PlanePoint, 'upMm' | 'rightMm'>, middle: OrthogonalLine['middleMm'], angle: number): number {
  return (p.rightMm - middle.rightMm) * Math.cos(angle) - (p.upMm - middle.upMm) * Math.sin(angle);
}

/**
 * Directions that the points do not contradict. Seen along the true line of a straight travel, what lies along (a, in deviations) and
 * what lies across it are independent, so (Σ along·across)²/Σ along² is chi-square with one degree of freedom whatever the travel: exact, where
 * first-order deviations are too small for little travel. A direction at Δ from the fit is kept while that is below the 95 % point:
 * with t = tan² Δ, D = along − across, q the point: D²·t ≤ q·(along + across·t)·(1 + t), a quadratic whose lesser root ends the interval.
 */
function halfAngle95(along: number, across: number): number | null {
  const difference = (along - across) ** 2;
  const a = CHI_SQUARE_95 * across;
  const b = CHI_SQUARE_95 * (along + across) - difference;
  const c = CHI_SQUARE_95 * along;
  const inside = b * b - 4 * a * c;
  if (!(b < 0) || !(inside >= 0)) return null;
  return Math.atan(Math.sqrt((2 * c) / (-b + Math.sqrt(inside))));
}
