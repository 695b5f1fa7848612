/**
 * A picture of a scan, painted point by point without a graphics card, so that it can be made in a worker and on any machine; with how deep
 * each point lies, so that a place in the picture is a place on the scan.
 */
import { type Vec3, normalize } from '../core/vector';
import type { ScanMesh } from './mesh';
import { type PictureSize, type Px, type ScanView, toPlace } from './scanView';

export interface ScanPicture extends PictureSize {
  readonly view: ScanView;
  /** Red, green, blue and opacity of each px; clear where there is no scan. */
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
  /** How far toward the eye from the view's middle, in the mesh's unit; −∞ where there is no scan. */
  readonly depth: Float32Array<ArrayBuffer>;
}

/** Red, green and blue, three a corner; plaster where left out. */
export type CornerColours = Uint8Array;

const PLASTER = [222, 208, 186] as const;
/** From the upper left before the scan, in the picture's own directions. */
const LIGHT: Vec3 = normalize([-0.35, 0.55, 0.75]);
/** Light that comes from everywhere, as a part of all; more where the colours are to be read. */
const AMBIENT = 0.34;
const AMBIENT_ON_COLOURS = 0.8;
/** What is seen from inside is darker by this. */
const INSIDE = 0.45;

/** `normals` three numbers a corner, of any length (angleWeightedNormals). */
export function drawScan(mesh: ScanMesh, normals: Float64Array, view: ScanView, { width, height }: PictureSize, colours: CornerColours | null = null): ScanPicture {
  const { points, triangles } = mesh;
  const count = points.length / 3;
  const seen = new Float32Array(4 * count);
  const { right, up, toward, middle } = view;
  const perPx = view.across / width;
  for (let corner = 0; corner < count; corner++) {
    const at = 3 * corner;
    const x = points[at]! - middle[0];
    const y = points[at + 1]! - middle[1];
    const z = points[at + 2]! - middle[2];
    seen[4 * corner] = width / 2 + (x * right[0] + y * right[1] + z * right[2]) / perPx;
    seen[4 * corner + 1] = height / 2 - (x * up[0] + y * up[1] + z * up[2]) / perPx;
    seen[4 * corner + 2] = x * toward[0] + y * toward[1] + z * toward[2];
    seen[4 * corner + 3] = lightOn(normals, at, view, colours === null ? AMBIENT : AMBIENT_ON_COLOURS);
  }
  const pixels = new Uint8ClampedArray(4 * width * height);
  const depth = new Float32Array(width * height).fill(-Infinity);
  for (let from = 0; from < triangles.length; from += 3) {
    const [a, b, c] = [triangles[from]!, triangles[from + 1]!, triangles[from + 2]!];
    const [ax, ay] = [seen[4 * a]!, seen[4 * a + 1]!];
    const [bx, by] = [seen[4 * b]!, seen[4 * b + 1]!];
    const [cx, cy] = [seen[4 * c]!, seen[4 * c + 1]!];
    // Pictures count downward, so that what faces the eye runs clockwise here.
    const twice = (bx - ax) * (cy - ay) - (cx - ax) * (by - ay);
    if (twice === 0) continue;
    const left = Math.max(0, Math.ceil(Math.min(ax, bx, cx) - 0.5));
    const last = Math.min(width - 1, Math.floor(Math.max(ax, bx, cx) - 0.5));
    const top = Math.max(0, Math.ceil(Math.min(ay, by, cy) - 0.5));
    const bottom = Math.min(height - 1, Math.floor(Math.max(ay, by, cy) - 0.5));
    const shade = twice > 0 ? INSIDE : 1;
    for (let py = top; py <= bottom; py++) {
      for (let px = left; px <= last; px++) {
        const [x, y] = [px + 0.5, py + 0.5];
        const partB = ((x - ax) * (cy - ay) - (cx - ax) * (y - ay)) / twice;
        const partC = ((bx - ax) * (y - ay) - (x - ax) * (by - ay)) / twice;
        const partA = 1 - partB - partC;
        if (partA < 0 || partB < 0 || partC < 0) continue;
        const at = py * width + px;
        const near = partA * seen[4 * a + 2]! + partB * seen[4 * b + 2]! + partC * seen[4 * c + 2]!;
        if (near <= depth[at]!) continue;
        depth[at] = near;
        const light = shade * (partA * seen[4 * a + 3]! + partB * seen[4 * b + 3]! + partC * seen[4 * c + 3]!);
        for (let tone = 0; tone < 3; tone++) {
          const colour = colours === null ? PLASTER[tone]! : partA * colours[3 * a + tone]! + partB * colours[3 * b + tone]! + partC * colours[3 * c + tone]!;
          pixels[4 * at + tone] = light * colour;
        }
        pixels[4 * at + 3] = 255;
      }
    }
  }
  return { width, height, view, pixels, depth };
}

/** The scan's place at a px, or the nearest one within a few px of it; null where there is none. */
export function placeAt(picture: ScanPicture, { x, y }: Px, withinPx = 0): Vec3 | null {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  let nearest = Infinity;
  let place: Vec3 | null = null;
  for (let py = row - withinPx; py <= row + withinPx; py++) {
    for (let px = column - withinPx; px <= column + withinPx; px++) {
      const away = Math.hypot(px - column, py - row);
      if (away >= nearest || away > withinPx || px < 0 || py < 0 || px >= picture.width || py >= picture.height) continue;
      const depth = picture.depth[py * picture.width + px]!;
      if (depth === -Infinity) continue;
      nearest = away;
      place = toPlace(picture.view, picture, away === 0 ? { x, y } : { x: px + 0.5, y: py + 0.5 }, depth);
    }
  }
  return place;
}

function lightOn(normals: Float64Array, at: number, { right, up, toward }: ScanView, ambient: number): number {
  const [x, y, z] = [normals[at]!, normals[at + 1]!, normals[at + 2]!];
  const length = Math.hypot(x, y, z);
  if (length === 0) return ambient;
  const facing =
    (LIGHT[0] * (x * right[0] + y * right[1] + z * right[2]) + LIGHT[1] * (x * up[0] + y * up[1] + z * up[2]) +
      LIGHT[2] * (x * toward[0] + y * toward[1] + z * toward[2])) / length;
  return ambient + (1 - ambient) * Math.abs(facing);
}
