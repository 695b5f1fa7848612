/** Small matrices for the made films, written apart from what they test. A Mat3 is row by row. */
import type { Vec3 } from '../../../src/core/vector';

export type Mat3 = readonly [number, number, number, number, number, number, number, number, number];

export const rotate = (m: Mat3, v: Vec3): Vec3 => [
  m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
  m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
  m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
];

export const transposed = (m: Mat3): Mat3 => [m[0], m[3], m[6], m[1], m[4], m[7], m[2], m[5], m[8]];

export function product(a: Mat3, b: Mat3): Mat3 {
  const column = (at: number): Vec3 => rotate(a, [b[at]!, b[at + 3]!, b[at + 6]!]);
  const [p, q, r] = [column(0), column(1), column(2)];
  return [p[0], q[0], r[0], p[1], q[1], r[1], p[2], q[2], r[2]];
}

/** Turn about the vector's direction by its length, radians (Rodrigues). */
export function turnOf(vector: Vec3): Mat3 {
  const angle = Math.hypot(...vector);
  if (angle === 0) return [1, 0, 0, 0, 1, 0, 0, 0, 1];
  const [x, y, z] = [vector[0] / angle, vector[1] / angle, vector[2] / angle];
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const k = 1 - c;
  return [c + k * x * x, k * x * y - s * z, k * x * z + s * y, k * x * y + s * z, c + k * y * y, k * y * z - s * x, k * x * z - s * y, k * y * z + s * x, c + k * z * z];
}

/** x of A·x = b by Gaussian elimination with the largest pivot; throws RangeError on a singular A. */
export function solved(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const rows = matrix.map((row, at) => [...row, right[at]!]);
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    let best = column;
    for (let row = column + 1; row < size; row++) if (Math.abs(rows[row]![column]!) > Math.abs(rows[best]![column]!)) best = row;
    [rows[column], rows[best]] = [rows[best]!, rows[column]!];
    const pivot = rows[column]!;
    if (!(Math.abs(pivot[column]!) > 0)) throw new RangeError(`solved: column ${column} of ${size} has no pivot; allowed: a regular matrix`);
    for (let row = column + 1; row < size; row++) {
      const factor = rows[row]![column]! / pivot[column]!;
      for (let at = column; at <= size; at++) rows[row]![at]! -= factor * pivot[at]!;
    }
  }
  const x = new Array<number>(size).fill(0);
  for (let row = size - 1; row >= 0; row--) {
    let sum = rows[row]![size]!;
    for (let at = row + 1; at < size; at++) sum -= rows[row]![at]! * x[at]!;
    x[row] = sum / rows[row]![row]!;
  }
  return x;
}
