/** Draws the head's nets in perspective: triangles by rows of pixels, nearest wins, texture and shade run evenly over each. */
import type { FilmCamera } from './filmCamera';
import { rotate, transposed } from './geometry';
import type { HeadPlace } from './headMotion';
import type { HeadModel, Net, Texture } from './headTexture';
import type { RimState } from './notesPlayed';

export interface Canvas {
  readonly width: number;
  readonly height: number;
  readonly luma: Uint8ClampedArray;
  /** 1/z of what is drawn, 1/mm; 0 where nothing is. */
  readonly nearness: Float32Array;
}

/** `place` is from the head's frame to the camera's. */
export function drawHead(canvas: Canvas, model: HeadModel, camera: FilmCamera, place: HeadPlace): void {
  for (const net of model.nets) drawNet(canvas, net, camera, place);
}

/** Writes this moment's eyes and mouth into the face's texture: `shut` from 0 (open) to 1. */
export function moveFace(model: HeadModel, shut: number, rim: RimState): void {
  const { open, closed, lids, nets } = model;
  const { luma, width } = nets[0]!.texture;
  const lid = 1.3 - 2.4 * shut;
  for (const { at, height } of lids) luma[at] = shut > 0 && height > lid ? closed.luma[at]! : open.luma[at]!;
  // Lips and the skin round them give way to the rim; further out the skin stands still.
  const [left, top] = model.texel(-MOUTH.azimuth, MOUTH.upPolar);
  const [right, bottom] = model.texel(MOUTH.azimuth, MOUTH.downPolar);
  const across = -rim.rightMm * LIP_PART * TEXELS_PER_MM.across;
  const down = -rim.upMm * LIP_PART * TEXELS_PER_MM.down;
  for (let y = Math.ceil(top); y < bottom; y++) {
    const part = 1 - ((2 * y - top - bottom) / (bottom - top)) ** 2;
    for (let x = Math.ceil(left); x < right; x++) {
      const weight = part * part * (1 - ((2 * x - left - right) / (right - left)) ** 2) ** 2;
      luma[y * width + x] = sampled(open, x - weight * across, y - weight * down);
    }
  }
}
const MOUTH = { azimuth: 0.5, upPolar: -0.5, downPolar: -0.95 };
const LIP_PART = 0.6;
/** At the mouth, about; the head's net says how texels lie (headTexture.ts). */
const TEXELS_PER_MM = { across: 5.7, down: 3.6 };

export function sampled({ width, height, luma }: Texture, x: number, y: number): number {
  const column = x < 0 ? 0 : x >= width - 1 ? width - 2 : x | 0;
  const row = y < 0 ? 0 : y >= height - 1 ? height - 2 : y | 0;
  const a = x - column;
  const b = y - row;
  const at = row * width + column;
  const top = luma[at]! + a * (luma[at + 1]! - luma[at]!);
  const bottom = luma[at + width]! + a * (luma[at + width + 1]! - luma[at + width]!);
  return top + b * (bottom - top);
}

/** For each point of a net: x, y (px), 1/z, u, v (texels), shade. */
const PER_POINT = 6;

function drawNet(canvas: Canvas, net: Net, camera: FilmCamera, { rotation, shiftMm }: HeadPlace): void {
  const { columns, rows, points, normals, texture } = net;
  const light = rotate(transposed(rotation), LIGHT);
  const seen = new Float64Array(columns * rows * PER_POINT);
  const middleX = (camera.width - 1) / 2;
  const middleY = (camera.height - 1) / 2;
  for (let at = 0; at < columns * rows; at++) {
    const [x, y, z] = [points[3 * at]!, points[3 * at + 1]!, points[3 * at + 2]!];
    const depth = rotation[6] * x + rotation[7] * y + rotation[8] * z + shiftMm[2];
    const to = PER_POINT * at;
    seen[to] = middleX + (camera.focalPx * (rotation[0] * x + rotation[1] * y + rotation[2] * z + shiftMm[0])) / depth;
    seen[to + 1] = middleY + (camera.focalPx * (rotation[3] * x + rotation[4] * y + rotation[5] * z + shiftMm[1])) / depth;
    seen[to + 2] = 1 / depth;
    seen[to + 3] = ((at % columns) / (columns - 1)) * (texture.width - 1);
    seen[to + 4] = (Math.floor(at / columns) / (rows - 1)) * (texture.height - 1);
    const lit = normals[3 * at]! * light[0] + normals[3 * at + 1]! * light[1] + normals[3 * at + 2]! * light[2];
    seen[to + 5] = 0.58 + 0.42 * Math.max(0, lit);
  }
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      const at = row * columns + column;
      drawTriangle(canvas, texture, seen, at, at + columns, at + 1);
      drawTriangle(canvas, texture, seen, at + 1, at + columns, at + columns + 1);
    }
  }
}

/** In the camera's frame: from above on the picture's left, and behind the camera. */
const LIGHT: readonly [number, number, number] = [-0.32, -0.48, -0.82];

function drawTriangle(canvas: Canvas, texture: Texture, seen: Float64Array, first: number, second: number, third: number): void {
  const [i, j, k] = [PER_POINT * first, PER_POINT * second, PER_POINT * third];
  const ax = seen[i]!, ay = seen[i + 1]!, bx = seen[j]!, by = seen[j + 1]!, cx = seen[k]!, cy = seen[k + 1]!;
  const area = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
  // Seen from outside the points go round against the clock in a picture whose y runs down.
  if (area >= 0) return;
  const yFrom = Math.max(0, Math.ceil(Math.min(ay, by, cy)));
  const yTo = Math.min(canvas.height - 1, Math.floor(Math.max(ay, by, cy)));
  if (yFrom > yTo || Math.max(ax, bx, cx) < 0 || Math.min(ax, bx, cx) > canvas.width - 1) return;
  const bHigh = (by - ay) / area, cHigh = (cy - ay) / area, bWide = (bx - ax) / area, cWide = (cx - ax) / area;
  const nearB = seen[j + 2]! - seen[i + 2]!, nearC = seen[k + 2]! - seen[i + 2]!, uB = seen[j + 3]! - seen[i + 3]!, uC = seen[k + 3]! - seen[i + 3]!;
  const vB = seen[j + 4]! - seen[i + 4]!, vC = seen[k + 4]! - seen[i + 4]!, shadeB = seen[j + 5]! - seen[i + 5]!, shadeC = seen[k + 5]! - seen[i + 5]!;
  const nearX = nearB * cHigh - nearC * bHigh, nearY = nearC * bWide - nearB * cWide, uX = uB * cHigh - uC * bHigh, uY = uC * bWide - uB * cWide;
  const vX = vB * cHigh - vC * bHigh, vY = vC * bWide - vB * cWide, shadeX = shadeB * cHigh - shadeC * bHigh, shadeY = shadeC * bWide - shadeB * cWide;
  const { luma: texels, width: textureWidth, height: textureHeight } = texture;
  const { luma, nearness, width } = canvas;
  for (let y = yFrom; y <= yTo; y++) {
    let left = Infinity;
    let right = -Infinity;
    // A side that is level with the row of pixels is covered by the ends of the other two.
    if (ay !== by && y >= Math.min(ay, by) && y <= Math.max(ay, by)) {
      const x = ax + ((bx - ax) * (y - ay)) / (by - ay);
      left = Math.min(left, x);
      right = Math.max(right, x);
    }
    if (by !== cy && y >= Math.min(by, cy) && y <= Math.max(by, cy)) {
      const x = bx + ((cx - bx) * (y - by)) / (cy - by);
      left = Math.min(left, x);
      right = Math.max(right, x);
    }
    if (cy !== ay && y >= Math.min(cy, ay) && y <= Math.max(cy, ay)) {
      const x = cx + ((ax - cx) * (y - cy)) / (ay - cy);
      left = Math.min(left, x);
      right = Math.max(right, x);
    }
    const from = Math.max(0, Math.ceil(left - TOUCH_PX));
    const to = Math.min(width - 1, Math.floor(right + TOUCH_PX));
    const dx = from - ax;
    const dy = y - ay;
    let near = seen[i + 2]! + nearX * dx + nearY * dy;
    let u = seen[i + 3]! + uX * dx + uY * dy;
    let v = seen[i + 4]! + vX * dx + vY * dy;
    let shade = seen[i + 5]! + shadeX * dx + shadeY * dy;
    let at = y * width + from;
    for (let x = from; x <= to; x++, at++, near += nearX, u += uX, v += vX, shade += shadeX) {
      if (near <= nearness[at]!) continue;
      let column = u | 0;
      let row = v | 0;
      if (column > textureWidth - 2) column = textureWidth - 2;
      if (row > textureHeight - 2) row = textureHeight - 2;
      const texel = row * textureWidth + column;
      const p = texels[texel]!;
      const q = texels[texel + textureWidth]!;
      // An ear's flap is round: nothing is there where the texture is 0.
      if (p === 0 || q === 0) continue;
      const a = u - column;
      const b = v - row;
      const top = p + a * (texels[texel + 1]! - p);
      const bottom = q + a * (texels[texel + textureWidth + 1]! - q);
      luma[at] = shade * (top + b * (bottom - top));
      nearness[at] = near;
    }
  }
}

/** Neighbours overlap by a hair, so that no row shows the wall behind the head between two triangles, px. */
const TOUCH_PX = 1e-6;
