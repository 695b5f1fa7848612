/**
 * An ellipse as centre and symmetric 2 × 2 matrix: a point of it is c + S·(cos t, sin t) with S = [[mean + p, q], [q, mean − p]].
 * Semi-axes are mean ± √(p² + q²), the major axis lies at ½·atan2(q, p). Unlike axes and angle, these numbers are smooth at a circle,
 * so that fits and deviations are made in them.
 */
import type { RimEllipse } from './traces';

export interface EllipseForm {
  readonly x: number;
  readonly y: number;
  readonly mean: number;
  readonly p: number;
  readonly q: number;
}

/** 5 × 5, of (x, y, mean, p, q) or (centre x, centre y, semi-major, semi-minor, angle), px and radians. */
export type Covariance5 = readonly (readonly number[])[];

export function formOf(ellipse: RimEllipse): EllipseForm {
  const mean = (ellipse.semiMajorPx + ellipse.semiMinorPx) / 2;
  const half = (ellipse.semiMajorPx - ellipse.semiMinorPx) / 2;
  const twice = 2 * ellipse.angleRad;
  return { x: ellipse.centre.x, y: ellipse.centre.y, mean, p: half * Math.cos(twice), q: half * Math.sin(twice) };
}

/** The angle of a circle is 0. */
export function ellipseOf(form: EllipseForm): RimEllipse {
  const half = Math.hypot(form.p, form.q);
  const angle = Math.atan2(form.q, form.p) / 2;
  return {
    centre: { x: form.x, y: form.y },
    semiMajorPx: form.mean + half,
    semiMinorPx: form.mean - half,
    angleRad: angle <= -Math.PI / 2 ? Math.PI / 2 : angle,
  };
}

export const numbersOf = (form: EllipseForm): readonly [number, number, number, number, number] => [form.x, form.y, form.mean, form.p, form.q];

export const formFrom = (numbers: readonly number[]): EllipseForm => ({
  x: numbers[0]!,
  y: numbers[1]!,
  mean: numbers[2]!,
  p: numbers[3]!,
  q: numbers[4]!,
});

/** A nearly round ellipse has any angle: its deviation is never said to be more than that of an even spread over half a turn. */
const ANY_ANGLE_RAD = Math.PI / Math.sqrt(12);

/** Covariance of (centre x, centre y, semi-major, semi-minor, angle) from that of the form, to first order. */
export function axesCovariance(form: EllipseForm, of: Covariance5): Covariance5 {
  const half = Math.hypot(form.p, form.q);
  const [cosine, sine] = half > 0 ? [form.p / half, form.q / half] : [1, 0];
  const turn = half > 0 ? 1 / (2 * half) : Infinity;
  const across = sine * sine * of[3]![3]! - 2 * sine * cosine * of[3]![4]! + cosine * cosine * of[4]![4]!;
  const most = across > 0 ? ANY_ANGLE_RAD / Math.sqrt(across) : 0;
  const angleBy = Math.min(turn, most);
  const jacobian = [
    [1, 0, 0, 0, 0],
    [0, 1, 0, 0, 0],
    [0, 0, 1, cosine, sine],
    [0, 0, 1, -cosine, -sine],
    [0, 0, 0, -sine * angleBy, cosine * angleBy],
  ];
  return jacobian.map((row) => jacobian.map((column) => bilinear(row, of, column)));
}

/** rowᵀ·C·column. */
export function bilinear(row: readonly number[], matrix: Covariance5, column: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < row.length; i++) for (let j = 0; j < column.length; j++) sum += row[i]! * matrix[i]![j]! * column[j]!;
  return sum;
}

/** Steps of Newton to the foot; they come from one side only and double their digits, so that few are ever used. */
const FOOT_STEPS = 60;
/** Newton doubles its digits: after a step this small, as a part of what is left to the pole, the next would be rounding. */
const FOOT_CLOSE = 1e-8;

/**
 * Cosine and sine of the eccentric angle of the point of (a cos τ, b sin τ) next to (u, v), a ≥ b > 0. After Eberly, "Distance from a
 * point to an ellipse" (value from memory): the root of a convex falling function, by Newton from its left.
 */
export function eccentricFoot(a: number, b: number, u: number, v: number): { readonly cosine: number; readonly sine: number } {
  const [absU, absV] = [Math.abs(u), Math.abs(v)];
  if (absV === 0 && a * absU < a * a - b * b) {
    const cosine = (a * absU) / (a * a - b * b);
    return { cosine: u < 0 ? -cosine : cosine, sine: Math.sqrt(1 - cosine * cosine) };
  }
  const ratio = (a / b) ** 2;
  const [z0, z1] = [absU / a, absV / b];
  // Where either part alone would be 1, their sum is at least 1: the root lies to the right of both places.
  let s = Math.max(z1 - 1, ratio * (z0 - 1));
  for (let step = 0; step < FOOT_STEPS; step++) {
    const first = z0 === 0 ? 0 : (ratio * z0) / (s + ratio);
    const second = z1 === 0 ? 0 : z1 / (s + 1);
    const excess = first * first + second * second - 1;
    const fall = 2 * ((first * first) / (s + ratio) + (z1 === 0 ? 0 : (second * second) / (s + 1)));
    const ahead = excess / fall;
    if (!(excess > 0 && ahead < Infinity)) break;
    s += ahead;
    if (ahead <= FOOT_CLOSE * (s + 1)) break;
  }
  const cosine = z0 === 0 ? 0 : (ratio * z0) / (s + ratio);
  const sine = z1 === 0 ? 0 : z1 / (s + 1);
  const size = Math.hypot(cosine, sine);
  if (!(size > 0)) return { cosine: 1, sine: 0 };
  return { cosine: ((u < 0 ? -1 : 1) * cosine) / size, sine: ((v < 0 ? -1 : 1) * sine) / size };
}
