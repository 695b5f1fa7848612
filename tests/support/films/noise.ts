/** Seeded textures: smooth noise in space (so that skin has no seams) and a store of normal noise for the pixels. */
import { createRandom } from '../../../src/core/random';

export type SolidNoise = (x: number, y: number, z: number) => number;

/** Values about −1 to 1 on a lattice of 1, smooth between; `x`, `y`, `z` in lattice steps. */
export function solidNoise(seed: number, stream: number): SolidNoise {
  const random = createRandom(seed, stream);
  const values = Float32Array.from({ length: SIDE ** 3 }, () => 2 * random.uniform() - 1);
  return (x, y, z) => {
    const fx = Math.floor(x);
    const fy = Math.floor(y);
    const fz = Math.floor(z);
    const a = eased(x - fx);
    const b = eased(y - fy);
    const c = eased(z - fz);
    const x0 = fx & MASK;
    const x1 = (fx + 1) & MASK;
    const y0 = (fy & MASK) * SIDE;
    const y1 = ((fy + 1) & MASK) * SIDE;
    const z0 = (fz & MASK) * SIDE * SIDE;
    const z1 = ((fz + 1) & MASK) * SIDE * SIDE;
    const nearTop = mix(values[y0 + z0 + x0]!, values[y0 + z0 + x1]!, a);
    const nearBottom = mix(values[y1 + z0 + x0]!, values[y1 + z0 + x1]!, a);
    const farTop = mix(values[y0 + z1 + x0]!, values[y0 + z1 + x1]!, a);
    const farBottom = mix(values[y1 + z1 + x0]!, values[y1 + z1 + x1]!, a);
    return mix(mix(nearTop, nearBottom, b), mix(farTop, farBottom, b), c);
  };
}
const SIDE = 32;
const MASK = SIDE - 1;
const eased = (part: number): number => part * part * (3 - 2 * part);
const mix = (from: number, to: number, part: number): number => from + part * (to - from);

/** Normal noise in sixteenths of a deviation: 2^17 values, to be read from a place drawn anew for each row of pixels. */
export function noiseStore(seed: number): Int8Array {
  const random = createRandom(seed, NOISE_STREAM);
  return Int8Array.from({ length: NOISE_LENGTH }, () => Math.max(-127, Math.min(127, Math.round(16 * random.normal()))));
}
export const NOISE_LENGTH = 2 ** 17;
const NOISE_STREAM = 40;

/** A whole number that looks drawn at random from two others. */
export function mixed(a: number, b: number): number {
  let h = Math.imul(a ^ 0x9e3779b9, 0x85ebca6b) ^ Math.imul(b + 0x7f4a7c15, 0xc2b2ae35);
  h ^= h >>> 15;
  h = Math.imul(h, 0x2c1b3c6d);
  h ^= h >>> 13;
  return h >>> 0;
}
