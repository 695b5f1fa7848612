import { PMREMGenerator } from 'three';
import { describe, expect, test } from 'vitest';
import { paint, roomLevels, roughnessOf } from '../../../src/stage/paintedRoom';
import { expectWithin } from '../../support/expectWithin';

type Direction = readonly [number, number, number];

const painted = (direction: Direction): readonly number[] => {
  const light = new Float64Array(3);
  paint(direction, light);
  return [...light];
};

/** The pixel of a level that a direction falls into, by OpenGL's table of cube faces. */
function pixelAt(level: number, [x, y, z]: Direction): readonly number[] {
  const { size, faces } = roomLevels()[level]!;
  const [ax, ay, az] = [Math.abs(x), Math.abs(y), Math.abs(z)];
  const [face, across, down, far] =
    ax >= ay && ax >= az ? [x > 0 ? 0 : 1, x > 0 ? -z : z, -y, ax] : ay >= az ? [y > 0 ? 2 : 3, x, y > 0 ? z : -z, ay] : [z > 0 ? 4 : 5, z > 0 ? x : -x, -y, az];
  const place = (along: number): number => Math.min(size - 1, Math.floor(((along / far + 1) / 2) * size));
  const at = 4 * (place(down) * size + place(across));
  return [...faces[face]!.slice(at, at + 3)];
}

/** What a surface as rough as can be mirrors, by another way than rays: the whole half-space in steps, each direction by its cosine and the lobe of GGX (alpha 1: even). */
function halfSpace(normal: Direction): readonly number[] {
  const STEPS = 120;
  const sum = [0, 0, 0];
  let weights = 0;
  for (let up = 0; up < STEPS; up++) {
    const y = (2 * (up + 0.5)) / STEPS - 1;
    for (let round = 0; round < 2 * STEPS; round++) {
      const turn = (Math.PI * (round + 0.5)) / STEPS;
      const from: Direction = [Math.sqrt(1 - y * y) * Math.cos(turn), y, Math.sqrt(1 - y * y) * Math.sin(turn)];
      const cosine = from[0] * normal[0] + from[1] * normal[1] + from[2] * normal[2];
      if (cosine <= 0) continue;
      painted(from).forEach((value, channel) => (sum[channel]! += cosine * value));
      weights += cosine;
    }
  }
  return sum.map((value) => value / weights);
}

/** Through the middles of pixels of the roughest level, one face after another. */
const DIRECTIONS: readonly Direction[] = (
  [
    [1, 0.125, -0.375],
    [-1, 0.375, 0.625],
    [0.125, 1, 0.375],
    [-0.375, -1, 0.125],
    [0.125, -0.125, 1],
    [-0.375, 0.125, -1],
    [0.625, -0.875, 1],
  ] as const
).map(([x, y, z]) => {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
});

describe('the painted room', () => {
  test('the sharpest level is the paint itself, every face the right way round', () => {
    // Half a pixel of 64 is 0.7°, over which a window's light changes by some per cent.
    for (const direction of DIRECTIONS) {
      painted(direction).forEach((value, channel) => expectWithin(pixelAt(0, direction)[channel]!, value, { rel: 0.06 }, `${direction.join(' ')} channel ${channel}`));
    }
  });

  test('the roughest level is what a whole half-space gives', () => {
    // 128 rays, of which half lie above the surface, stand for the half-space; straight before a window few of them meet its edge.
    for (const direction of DIRECTIONS) {
      halfSpace(direction).forEach((value, channel) => expectWithin(pixelAt(3, direction)[channel]!, value, { rel: 0.05 }, `${direction.join(' ')} channel ${channel}`));
    }
  });

  test('levels are as rough as three takes them for', () => {
    const levels = roomLevels();
    expect(levels.map(({ size }) => size)).toEqual([64, 32, 16, 8, 4]);
    const roughness = (PMREMGenerator as unknown as { lodToRoughness(level: number, last: number): number }).lodToRoughness;
    for (let level = 0; level <= 3; level++) expectWithin(roughnessOf(level), roughness(level, 3), { abs: 1e-12 });
  });
});
