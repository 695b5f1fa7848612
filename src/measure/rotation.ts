/** Rotations in space as 3 × 3 matrices, row by row, and as vectors: the axis times the angle in radians. */
import type { Vec3 } from '../core/vector';

export type Rotation = readonly [number, number, number, number, number, number, number, number, number];

/** Below this angle (radians) sin a/a and (1 − cos a)/a² are taken from their series, exact to 1e-17 there. */
const SMALL_ANGLE = 1e-4;

/** Rodrigues' formula: 1 + sin a/a·[v] + (1 − cos a)/a²·[v]². */
export function rotationFromVector(vector: Vec3): Rotation {
  const [x, y, z] = vector;
  const square = x * x + y * y + z * z;
  const angle = Math.sqrt(square);
  const s = angle < SMALL_ANGLE ? 1 - square / 6 : Math.sin(angle) / angle;
  const c = angle < SMALL_ANGLE ? 0.5 - square / 24 : (1 - Math.cos(angle)) / square;
  return [
    1 - c * (y * y + z * z), c * x * y - s * z, c * x * z + s * y,
    c * x * y + s * z, 1 - c * (x * x + z * z), c * y * z - s * x,
    c * x * z - s * y, c * y * z + s * x, 1 - c * (x * x + y * y),
  ];
}

/** R·v. Turning R further by a small vector δ (δ after R) moves R·v by δ × R·v: the only derivative the fits need. */
export function turn(r: Rotation, v: Vec3): Vec3 {
  return [
    r[0] * v[0] + r[1] * v[1] + r[2] * v[2],
    r[3] * v[0] + r[4] * v[1] + r[5] * v[2],
    r[6] * v[0] + r[7] * v[1] + r[8] * v[2],
  ];
}

/** Rᵀ·v, which undoes `turn`. */
export function turnBack(r: Rotation, v: Vec3): Vec3 {
  return [
    r[0] * v[0] + r[3] * v[1] + r[6] * v[2],
    r[1] * v[0] + r[4] * v[1] + r[7] * v[2],
    r[2] * v[0] + r[5] * v[1] + r[8] * v[2],
  ];
}

/** a·b: first b, then a. */
export function compose(a: Rotation, b: Rotation): Rotation {
  const product = new Array<number>(9);
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) {
      product[3 * row + column] = a[3 * row]! * b[column]! + a[3 * row + 1]! * b[3 + column]! + a[3 * row + 2]! * b[6 + column]!;
    }
  }
  return product as unknown as Rotation;
}

/** From the player's frame to the camera's for a player who looks straight into the camera: the player's left is the picture's right. */
export const FACING: Rotation = [1, 0, 0, 0, -1, 0, 0, 0, -1];
