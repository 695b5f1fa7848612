/** The one door to gl-matrix, with our own double-precision arrays as `out` (its `create()` is single precision). */
import { vec3 } from 'gl-matrix';

export type Vec3 = readonly [number, number, number];
type MutableVec3 = [number, number, number];

const fresh = (): MutableVec3 => [0, 0, 0];

export const add = (a: Vec3, b: Vec3): Vec3 => vec3.add(fresh(), a, b) as MutableVec3;
export const subtract = (a: Vec3, b: Vec3): Vec3 => vec3.subtract(fresh(), a, b) as MutableVec3;
export const scale = (a: Vec3, factor: number): Vec3 => vec3.scale(fresh(), a, factor) as MutableVec3;
export const cross = (a: Vec3, b: Vec3): Vec3 => vec3.cross(fresh(), a, b) as MutableVec3;
export const dot = (a: Vec3, b: Vec3): number => vec3.dot(a, b);
export const length = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);

/** The unit vector along `a`; throws on a zero vector. */
export function normalize(a: Vec3): Vec3 {
  const size = length(a);
  if (!(size > 0)) throw new RangeError(`normalize: vector (${a.join(', ')}) has no direction; allowed: length > 0`);
  return scale(a, 1 / size);
}
