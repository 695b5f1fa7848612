/**
 * The similarity of the plane (turn, one scale, shift) that brings points onto others with the least weighted squares.
 * Umeyama, IEEE PAMI 1991;13:376–380. In the plane the singular values need not be computed: with points as complex numbers about
 * their weighted means, Σw·x̄·y / Σw·|x|² is the best proper map, which is what Umeyama's sign rule finds where a mirrored one fits better.
 * As a start for the head's pose only: taken as the head's motion it fakes travel when the head turns (docs/numerics.md §17).
 */
import type { Point } from './picture';

export interface Similarity {
  readonly kind: 'fitted';
  readonly scale: number;
  /** From x toward y, radians. */
  readonly angleRad: number;
  readonly shift: Point;
  /** Weighted mean of the squared distances left. */
  readonly meanSquare: number;
  /** True where a mirrored map would have fitted better: sides may have been exchanged. */
  readonly mirroredFitsBetter: boolean;
}

export interface NoSimilarity {
  readonly kind: 'not-fitted';
  readonly reason: 'one-place';
}

/** to ≈ scale·turned(from) + shift; at least two pairs, weights above 0 (all 1 where left out). */
export function fitSimilarity(from: readonly Point[], to: readonly Point[], weights?: readonly number[]): Similarity | NoSimilarity {
  if (from.length < 2) throw new RangeError(`from ${from.length} points: allowed is two or more`);
  if (to.length !== from.length) throw new RangeError(`to ${to.length} points: allowed is as many as from, ${from.length}`);
  if (weights && weights.length !== from.length) throw new RangeError(`weights ${weights.length}: allowed is as many as from, ${from.length}`);
  const weight = (i: number): number => weights?.[i] ?? 1;
  let total = 0;
  const middle = { fromX: 0, fromY: 0, toX: 0, toY: 0 };
  from.forEach((p, i) => {
    const w = weight(i);
    if (!(w > 0 && w < Infinity)) throw new RangeError(`weights[${i}] ${w}: allowed is above 0 and finite`);
    total += w;
    middle.fromX += w * p.x;
    middle.fromY += w * p.y;
    middle.toX += w * to[i]!.x;
    middle.toY += w * to[i]!.y;
  });
  middle.fromX /= total;
  middle.fromY /= total;
  middle.toX /= total;
  middle.toY /= total;
  // Proper: x̄·y; mirrored: x·y.
  let spread = 0;
  let spreadTo = 0;
  const proper = { real: 0, imaginary: 0 };
  const mirrored = { real: 0, imaginary: 0 };
  from.forEach((p, i) => {
    const w = weight(i);
    const x = p.x - middle.fromX;
    const y = p.y - middle.fromY;
    const u = to[i]!.x - middle.toX;
    const v = to[i]!.y - middle.toY;
    spread += w * (x * x + y * y);
    spreadTo += w * (u * u + v * v);
    proper.real += w * (x * u + y * v);
    proper.imaginary += w * (x * v - y * u);
    mirrored.real += w * (x * u - y * v);
    mirrored.imaginary += w * (x * v + y * u);
  });
  const gain = Math.hypot(proper.real, proper.imaginary);
  if (!(spread > 0 && gain > 0)) return { kind: 'not-fitted', reason: 'one-place' };
  const a = proper.real / spread;
  const b = proper.imaginary / spread;
  return {
    kind: 'fitted',
    scale: Math.hypot(a, b),
    angleRad: Math.atan2(b, a),
    shift: { x: middle.toX - (a * middle.fromX - b * middle.fromY), y: middle.toY - (b * middle.fromX + a * middle.fromY) },
    meanSquare: Math.max(0, (spreadTo - (gain * gain) / spread) / total),
    mirroredFitsBetter: Math.hypot(mirrored.real, mirrored.imaginary) > gain,
  };
}
