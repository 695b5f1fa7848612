/** The head as the renderer wants it: a net of points with places in a texture, and the textures themselves, made once for a scene. */
import { type Vec3, add, scale } from '../../../src/core/vector';
import { EAR_HALF_MM, HEAD_MIDDLE, directionOf, earFlap, headSurface } from './face';
import { type FacePaint, facePaint } from './facePaint';
import type { Scene } from './sceneTypes';

export interface Texture {
  readonly width: number;
  readonly height: number;
  readonly luma: Uint8Array;
}

export interface Net {
  readonly columns: number;
  readonly rows: number;
  /** x, y, z for each point, mm in the head's frame, row by row. */
  readonly points: Float64Array;
  readonly normals: Float64Array;
  readonly texture: Texture;
}

export interface HeadModel {
  readonly nets: readonly Net[];
  /** The face with open and with closed eyes; the net's own texture is what the renderer writes for each frame. */
  readonly open: Texture;
  readonly closed: Texture;
  /** Texture's place of a direction, for the parts that move. */
  texel(azimuth: number, polar: number): readonly [number, number];
  /** The texels near the eyes, and how high each lies (FacePaint.lidHeight). */
  readonly lids: readonly { readonly at: number; readonly height: number }[];
}

export function headModel(scene: Scene): HeadModel {
  const surface = headSurface(scene.landmarks);
  const points = new Float64Array(COLUMNS * ROWS * 3);
  for (let row = 0; row < ROWS; row++) {
    for (let column = 0; column < COLUMNS; column++) {
      const direction = directionOf(azimuthOf(column / (COLUMNS - 1)), polarOf(row / (ROWS - 1)));
      points.set(add(HEAD_MIDDLE, scale(direction, surface.radiusMm(direction))), 3 * (row * COLUMNS + column));
    }
  }
  const paint = facePaint(scene);
  const open = baked(points, (point) => paint.luma(point, true));
  const closedLuma = open.luma.slice();
  const closed: Texture = { ...open, luma: closedLuma };
  const lids: { at: number; height: number }[] = [];
  forEachTexel(points, (at, point) => {
    const height = paint.lidHeight(point);
    if (height === null) return;
    lids.push({ at, height });
    closedLuma[at] = paint.luma(point, false);
  });
  const texture: Texture = { ...open, luma: open.luma.slice() };
  return {
    nets: [{ columns: COLUMNS, rows: ROWS, points, normals: normalsOf(points, COLUMNS, ROWS), texture }, ...(['right', 'left'] as const).map((side) => earNet(scene, side, paint))],
    open,
    closed,
    lids,
    texel: (azimuth, polar) => [partOf(azimuth) * (TEXTURE.width - 1), ((Math.PI / 2 - polar) / POLAR_RANGE) * (TEXTURE.height - 1)],
  };
}

/** Close in front (1.2° by 1.5°), wide behind: the net lies within 0.05 mm of the smooth skin where landmarks are. */
const COLUMNS = 121;
const ROWS = 100;
const POLAR_RANGE = (150 * Math.PI) / 180;
const TEXTURE = { width: 1280, height: 1024 };
const polarOf = (part: number): number => Math.PI / 2 - part * POLAR_RANGE;

const FRONT_PART = 0.4;
function azimuthOf(part: number): number {
  const side = 2 * part - 1;
  return Math.PI * (FRONT_PART * side + (1 - FRONT_PART) * side ** 3);
}

/** The part of the net's width at an azimuth: azimuthOf turned round, by halving. */
function partOf(azimuth: number): number {
  let [low, high] = [0, 1];
  for (let step = 0; step < 40; step++) {
    const middle = (low + high) / 2;
    if (azimuthOf(middle) < azimuth) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function baked(points: Float64Array, luma: (point: Vec3) => number): Texture {
  const texture = new Uint8Array(TEXTURE.width * TEXTURE.height);
  forEachTexel(points, (at, point) => (texture[at] = luma(point)));
  return { ...TEXTURE, luma: texture };
}

function forEachTexel(points: Float64Array, visit: (at: number, point: Vec3) => void): void {
  for (let y = 0; y < TEXTURE.height; y++) {
    const row = (y / (TEXTURE.height - 1)) * (ROWS - 1);
    const r = Math.min(Math.floor(row), ROWS - 2);
    for (let x = 0; x < TEXTURE.width; x++) {
      const column = (x / (TEXTURE.width - 1)) * (COLUMNS - 1);
      const c = Math.min(Math.floor(column), COLUMNS - 2);
      visit(y * TEXTURE.width + x, onNet(points, r, c, row - r, column - c));
    }
  }
}

function onNet(points: Float64Array, r: number, c: number, down: number, along: number): Vec3 {
  const at = 3 * (r * COLUMNS + c);
  const below = at + 3 * COLUMNS;
  const a = (1 - down) * (1 - along);
  const b = (1 - down) * along;
  const d = down * (1 - along);
  const e = down * along;
  return [
    a * points[at]! + b * points[at + 3]! + d * points[below]! + e * points[below + 3]!,
    a * points[at + 1]! + b * points[at + 4]! + d * points[below + 1]! + e * points[below + 4]!,
    a * points[at + 2]! + b * points[at + 5]! + d * points[below + 2]! + e * points[below + 5]!,
  ];
}

function earNet(scene: Scene, side: 'right' | 'left', paint: FacePaint): Net {
  const { middle, across, up } = earFlap(scene.landmarks, side);
  const size = 9;
  const points = new Float64Array(size * size * 3);
  const texture = { width: 96, height: 144, luma: new Uint8Array(96 * 144) };
  // A flap's left edge in the texture is its outer edge on both sides; the net is turned so that it faces forward on both.
  const sign = side === 'right' ? 1 : -1;
  const at = (right: number, down: number): Vec3 =>
    add(middle, add(scale(across, -sign * EAR_HALF_MM.across * right), scale(up, -EAR_HALF_MM.up * down)));
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      points.set(at((2 * column) / (size - 1) - 1, (2 * row) / (size - 1) - 1), 3 * (row * size + column));
    }
  }
  for (let y = 0; y < texture.height; y++) {
    for (let x = 0; x < texture.width; x++) {
      const [right, down] = [(2 * x) / (texture.width - 1) - 1, (2 * y) / (texture.height - 1) - 1];
      texture.luma[y * texture.width + x] = paint.ear(at(right, down), right * sign, down);
    }
  }
  return { columns: size, rows: size, points, normals: normalsOf(points, size, size), texture };
}

/** Outward normals of a net whose columns run to the player's left and whose rows run down. */
function normalsOf(points: Float64Array, columns: number, rows: number): Float64Array {
  const normals = new Float64Array(points.length);
  const at = (row: number, column: number, axis: number): number => points[3 * (row * columns + column) + axis]!;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const [r0, r1] = [Math.max(row - 1, 0), Math.min(row + 1, rows - 1)];
      const [c0, c1] = [Math.max(column - 1, 0), Math.min(column + 1, columns - 1)];
      const along = [0, 1, 2].map((axis) => at(row, c1, axis) - at(row, c0, axis)) as [number, number, number];
      const down = [0, 1, 2].map((axis) => at(r1, column, axis) - at(r0, column, axis)) as [number, number, number];
      const normal: Vec3 = [down[1] * along[2] - down[2] * along[1], down[2] * along[0] - down[0] * along[2], down[0] * along[1] - down[1] * along[0]];
      const size = Math.hypot(...normal) || 1;
      normals.set([normal[0] / size, normal[1] / size, normal[2] / size], 3 * (row * columns + column));
    }
  }
  return normals;
}
