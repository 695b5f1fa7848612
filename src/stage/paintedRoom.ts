/**
 * The room that the teeth and the brass mirror: a sphere painted from a warm floor to a bright ceiling, with two soft windows. It is worked out here and
 * not by the graphics, which without a card would take seconds for it; once for all pictures of a page.
 */
import { linear } from './geometryOf';

/** The six faces of a cube seen from its middle, in the order and the directions of OpenGL; each RGBA a pixel, linear light, row after row. */
export interface RoomLevel {
  readonly size: number;
  readonly faces: readonly Float32Array[];
}

/** The sharpest as it is mirrored by polish; a pixel is 1.4° wide. */
const SIZE = 64;
/** Each half as large and rougher than the one before, the last as rough as can be. */
const ROUGHER = 3;
/** Rays for one pixel of each level: the rougher, the wider they spread and the more it takes. */
const RAYS = [1, 32, 64, 128] as const;
/** three counts the levels that follow the first and takes the last but one for the roughest, so one more is wanted. */
const BEYOND = 1;

let levels: readonly RoomLevel[] | null = null;

export const roomLevels = (): readonly RoomLevel[] => (levels ??= Array.from({ length: ROUGHER + 1 + BEYOND }, (_, level) => levelOf(level)));

/** How rough a surface is that mirrors this level: three's own rule, turned round (`roughnessToMip` in its shaders). */
export const roughnessOf = (level: number): number => 1 - Math.sqrt(1 - Math.min(level, ROUGHER) / ROUGHER);

type Direction = readonly [number, number, number];

/** Light from a direction, which has length 1; `out` is linear red, green, blue. */
export function paint([x, y, z]: Direction, out: Float64Array): void {
  const windows =
    z > -0.6 ? 3.2 * Math.exp(-(((x + 0.75) / 0.3) ** 2) - ((y - 0.35) / 0.4) ** 2) + 1.6 * Math.exp(-(((x - 0.85) / 0.2) ** 2) - ((y - 0.2) / 0.5) ** 2) : 0;
  const share = Math.min(1, Math.abs(y) * (y < 0 ? 1.4 : 1.3));
  const toward = y < 0 ? FLOOR : CEILING;
  for (let channel = 0; channel < 3; channel++) out[channel] = (0.8 + windows) * (WALL[channel]! + share * (toward[channel]! - WALL[channel]!));
}

const FLOOR = linear('#5A4B3C');
const WALL = linear('#C9C2B6');
const CEILING = linear('#FFFDF8');

/** Through a pixel of a cube's face, `across` and `down` from −1 to 1. */
const FACES: readonly ((across: number, down: number) => Direction)[] = [
  (across, down) => [1, -down, -across],
  (across, down) => [-1, -down, across],
  (across, down) => [across, 1, down],
  (across, down) => [across, -1, -down],
  (across, down) => [across, -down, 1],
  (across, down) => [-across, -down, -1],
];

function levelOf(level: number): RoomLevel {
  const size = SIZE >> level;
  const rays = raysOf(roughnessOf(level), RAYS[Math.min(level, ROUGHER)]!);
  const light = new Float64Array(3);
  const faces = FACES.map((through) => {
    const pixels = new Float32Array(size * size * 4);
    for (let at = 0; at < size * size; at++) {
      const [x, y, z] = through((2 * ((at % size) + 0.5)) / size - 1, (2 * (Math.floor(at / size) + 0.5)) / size - 1);
      const length = Math.hypot(x, y, z);
      gather([x / length, y / length, z / length], rays, light);
      pixels.set(light, 4 * at);
      pixels[4 * at + 3] = 1;
    }
    return pixels;
  });
  return { size, faces };
}

/** Rays about the z axis as a rough surface scatters what comes straight at it (GGX, as in three's PMREMGenerator): x, y, z and weight, one after another. */
function raysOf(roughness: number, count: number): Float64Array {
  const alpha2 = roughness ** 4;
  const rays: number[] = [];
  for (let index = 0; index < count; index++) {
    const part = index / count;
    const inverse = 1 / (1 - part + alpha2 * part);
    const along = (1 - part - alpha2 * part) * inverse;
    if (along <= 0) continue;
    const aside = 2 * roughness ** 2 * Math.sqrt(part * (1 - part)) * inverse;
    const turn = index * GOLDEN_ANGLE;
    rays.push(aside * Math.cos(turn), aside * Math.sin(turn), along, along);
  }
  return Float64Array.from(rays);
}

/** Spreads rays evenly round an axis, however many they are. */
const GOLDEN_ANGLE = Math.PI * (3 - Math.sqrt(5));

function gather([x, y, z]: Direction, rays: Float64Array, out: Float64Array): void {
  // Two directions square to the first.
  const [upX, upZ] = Math.abs(z) < 0.999 ? [0, 1] : [1, 0];
  let [tx, ty, tz] = [-upZ * y, upZ * x - upX * z, upX * y];
  const length = Math.hypot(tx, ty, tz);
  [tx, ty, tz] = [tx / length, ty / length, tz / length];
  const [bx, by, bz] = [y * tz - z * ty, z * tx - x * tz, x * ty - y * tx];
  let [red, green, blue, weights] = [0, 0, 0, 0];
  for (let at = 0; at < rays.length; at += 4) {
    const [a, b, c, weight] = [rays[at]!, rays[at + 1]!, rays[at + 2]!, rays[at + 3]!];
    paint([a * tx + b * bx + c * x, a * ty + b * by + c * y, a * tz + b * bz + c * z], out);
    red += weight * out[0]!;
    green += weight * out[1]!;
    blue += weight * out[2]!;
    weights += weight;
  }
  out[0] = red / weights;
  out[1] = green / weights;
  out[2] = blue / weights;
}
