/**
 * The direct least-squares fit of an ellipse (Fitzgibbon, Pilu & Fisher, IEEE Trans. PAMI 21, 1999, 476–480) with the linear part of the
 * conic taken out first, as Halíř & Flusser do (WSCG 1998), and the free conic that the same sums give.
 */
import type { EllipseForm } from './ellipseForm';
import { symmetricEigen } from './symmetricEigen';

/** Points about their mean and to their size, with weights: arrays of one length. */
export interface WeightedPoints {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly weight: Float64Array;
}

export interface DirectFit {
  /** null: the points lie on a line, to rounding. */
  readonly ellipse: EllipseForm | null;
  /** Root mean square distance (first order) to the free conic where that is no ellipse; null where it is one. */
  readonly hyperbolaRms: number | null;
}

/** Least spread across the best line, as a part of that along it, which is more than rounding. */
const LINE = 1e-12;
/** Added to the scatter, as a part of its trace, so that points exactly on a conic leave it solvable; the geometric fit takes its trace away. */
const RIDGE = 1e-13;

/** The fit of points whose size is about 1. */
export function fitDirect(points: WeightedPoints): DirectFit {
  const { quadratic, mixed, linear } = scatter(points);
  const inverse = invert3(linear);
  if (inverse === null) return { ellipse: null, hyperbolaRms: null };
  // The linear part that goes best with each quadratic one: −(D2ᵀD2)⁻¹·D2ᵀD1.
  const follow = inverse.map((row) => [0, 1, 2].map((column) => -row.reduce((sum, value, k) => sum + value * mixed[column]![k]!, 0)));
  const reduced = quadratic.map((row, i) => row.map((value, j) => value + mixed[i]!.reduce((sum, m, k) => sum + m * follow[k]![j]!, 0)));
  const even = reduced.map((row, i) => row.map((value, j) => (value + reduced[j]![i]!) / 2));
  const { values, vectors } = symmetricEigen(even);
  const ridge = RIDGE * quadratic.reduce((sum, row, i) => sum + row[i]!, 0);
  const white = values.map((value, i) => vectors[i]!.map((part) => part / Math.sqrt(Math.max(value, 0) + ridge)));
  // 4AC − B², half of it, in the whitened directions: its one positive direction is the ellipse.
  const constraint = white.map((one) => white.map((other) => one[0]! * other[2]! + one[2]! * other[0]! - one[1]! * other[1]!));
  const best = symmetricEigen(constraint).vectors[2]!;
  const chosen = [0, 1, 2].map((part) => best.reduce((sum, value, i) => sum + value * white[i]![part]!, 0));
  const free = conicOf(vectors[0]!, follow);
  return {
    ellipse: ellipseOfConic(conicOf(chosen, follow)),
    hyperbolaRms: 4 * free[0]! * free[2]! - free[1]! ** 2 < 0 ? sampsonRms(free, points) : null,
  };
}

type Rows = readonly (readonly number[])[];

/** Sums over (x², √2·xy, y²) and (x, y, 1): the √2 makes the length of the first three the same however the picture is turned. */
function scatter({ x, y, weight }: WeightedPoints): { readonly quadratic: Rows; readonly mixed: Rows; readonly linear: Rows } {
  const empty = (): number[][] => [0, 1, 2].map(() => [0, 0, 0]);
  const [quadratic, mixed, linear] = [empty(), empty(), empty()];
  for (let index = 0; index < x.length; index++) {
    const [u, v, w] = [x[index]!, y[index]!, weight[index]!];
    const second = [u * u, Math.SQRT2 * u * v, v * v];
    const first = [u, v, 1];
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        quadratic[i]![j]! += w * second[i]! * second[j]!;
        mixed[i]![j]! += w * second[i]! * first[j]!;
        linear[i]![j]! += w * first[i]! * first[j]!;
      }
    }
  }
  return { quadratic, mixed, linear };
}

function invert3(matrix: Rows): number[][] | null {
  const { values, vectors } = symmetricEigen(matrix);
  if (!(values[0]! > LINE * values[2]!)) return null;
  return [0, 1, 2].map((i) => [0, 1, 2].map((j) => values.reduce((sum, value, k) => sum + (vectors[k]![i]! * vectors[k]![j]!) / value, 0)));
}

/** A, B, C, D, E, F of A·x² + B·xy + C·y² + D·x + E·y + F. */
function conicOf(second: readonly number[], follow: Rows): number[] {
  const first = follow.map((row) => row.reduce((sum, value, k) => sum + value * second[k]!, 0));
  return [second[0]!, Math.SQRT2 * second[1]!, second[2]!, ...first];
}

function ellipseOfConic(conic: readonly number[]): EllipseForm | null {
  const [a, b, c, d, e, f] = conic as [number, number, number, number, number, number];
  const determinant = 4 * a * c - b * b;
  const x = (b * e - 2 * c * d) / determinant;
  const y = (b * d - 2 * a * e) / determinant;
  const level = -(f + (d * x + e * y) / 2);
  const middle = (a + c) / 2;
  const half = Math.hypot((a - c) / 2, b / 2);
  // The larger coefficient belongs to the shorter axis.
  const sign = Math.sign(middle);
  const semiMinor = Math.sqrt((sign * level) / (Math.abs(middle) + half));
  const semiMajor = Math.sqrt((sign * level) / (Math.abs(middle) - half));
  if (!(semiMinor > 0 && semiMajor < Infinity && Number.isFinite(x) && Number.isFinite(y))) return null;
  const difference = (semiMajor - semiMinor) / 2;
  const [cosine, sine] = half > 0 ? [(-sign * (a - c)) / 2 / half, (-sign * b) / 2 / half] : [1, 0];
  return { x, y, mean: (semiMajor + semiMinor) / 2, p: difference * cosine, q: difference * sine };
}

/** Distances to first order, |F| / |∇F| (Sampson 1982; value from memory). */
function sampsonRms(conic: readonly number[], { x, y, weight }: WeightedPoints): number {
  const [a, b, c, d, e, f] = conic as [number, number, number, number, number, number];
  let sum = 0;
  let weights = 0;
  for (let index = 0; index < x.length; index++) {
    const [u, v] = [x[index]!, y[index]!];
    const value = a * u * u + b * u * v + c * v * v + d * u + e * v + f;
    const slope = Math.hypot(2 * a * u + b * v + d, b * u + 2 * c * v + e);
    if (slope > 0) sum += weight[index]! * (value / slope) ** 2;
    weights += weight[index]!;
  }
  return Math.sqrt(sum / weights);
}
