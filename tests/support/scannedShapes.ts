/** Scans of shapes that are known exactly: moulding surfaces cut into triangles, as a scanner would see them. */
import type { JawSurface } from '../../src/core/surface';
import type { ScanMesh } from '../../src/scans/mesh';

export interface Cut {
  /** Arc from the midline to either side, and the heights from and to, mm. */
  readonly arcMm: number;
  readonly heights: readonly [number, number];
  readonly columns: number;
  readonly rows: number;
  /** How far the surface goes on backward from its edge, mm: a tooth is thick, and its edge is no border of the scan. */
  readonly thickMm?: number;
  /** Whether it goes on from there toward the gum again, behind the teeth: a horseshoe, open at the gum alone. */
  readonly behind?: boolean;
}

/** The labial face of a jaw where it stands, seen from outside counterclockwise; from the edge on backward a flat ledge. */
export function cutFace(surface: JawSurface, cut: Cut): ScanMesh {
  const { arcMm, heights, columns, rows, thickMm = 0, behind = false } = cut;
  const ledge = thickMm > 0 ? Math.max(2, Math.round((rows * thickMm) / (heights[1] - heights[0]))) : 0;
  const wall = behind ? rows : 0;
  const points: number[] = [];
  const triangles: number[] = [];
  const tall = rows + ledge + wall + 1;
  const upward = surface.pointAt(0, heights[1])[1] > surface.pointAt(0, heights[0])[1];
  for (let column = 0; column <= columns; column++) {
    const arc = -arcMm + (2 * arcMm * column) / columns;
    const edge = surface.pointAt(arc, heights[0]);
    const [nx, , nz] = surface.normalAt(arc, heights[0]);
    const flat = Math.hypot(nx, nz);
    for (let row = -ledge - wall; row <= rows; row++) {
      const high = row < -ledge ? ((upward ? 1 : -1) * (heights[1] - heights[0]) * (-ledge - row)) / rows : 0;
      if (row < -ledge) points.push(edge[0] - (thickMm * nx) / flat, edge[1] + high, edge[2] - (thickMm * nz) / flat);
      else if (row < 0) points.push(edge[0] + (thickMm * row * nx) / (ledge * flat), edge[1], edge[2] + (thickMm * row * nz) / (ledge * flat));
      else points.push(...surface.pointAt(arc, heights[0] + ((heights[1] - heights[0]) * row) / rows));
      if (column === columns || row === rows) continue;
      const at = column * tall + row + ledge + wall;
      triangles.push(at, at + tall, at + 1, at + 1, at + tall, at + tall + 1);
    }
  }
  const corners = Uint32Array.from(triangles);
  if (!upward) turnOver(corners);
  return { points: Float64Array.from(points), triangles: corners };
}

/** A closed ball about a place: rings of triangles between its two poles. */
export function cutBall(radius: number, rings: number, middle: readonly [number, number, number] = [0, 0, 0]): ScanMesh {
  const around = 2 * rings;
  const points: number[] = [];
  const triangles: number[] = [];
  for (let ring = 0; ring <= rings; ring++) {
    const polar = (Math.PI * ring) / rings;
    for (let step = 0; step < around; step++) {
      const turn = (2 * Math.PI * step) / around;
      points.push(
        middle[0] + radius * Math.sin(polar) * Math.sin(turn),
        middle[1] + (ring === rings ? -radius : radius * Math.cos(polar)),
        middle[2] + (ring % rings === 0 ? 0 : radius * Math.sin(polar) * Math.cos(turn)),
      );
      if (ring % rings === 0) points[points.length - 3] = middle[0];
      if (ring % rings === 0) points[points.length - 1] = middle[2];
      if (ring === rings) continue;
      const at = ring * around + step;
      const beside = ring * around + ((step + 1) % around);
      triangles.push(at, at + around, beside + around, at, beside + around, beside);
    }
  }
  return { points: Float64Array.from(points), triangles: Uint32Array.from(triangles) };
}

/** Several meshes in one list. */
export function joined(...meshes: readonly ScanMesh[]): ScanMesh {
  const points: number[] = [];
  const triangles: number[] = [];
  for (const mesh of meshes) {
    const before = points.length / 3;
    for (const place of mesh.points) points.push(place);
    for (const corner of mesh.triangles) triangles.push(corner + before);
  }
  return { points: Float64Array.from(points), triangles: Uint32Array.from(triangles) };
}

/** Every triangle the other way round. */
export function turnOver(triangles: Uint32Array): void {
  for (let from = 0; from < triangles.length; from += 3) {
    const second = triangles[from + 1]!;
    triangles[from + 1] = triangles[from + 2]!;
    triangles[from + 2] = second;
  }
}

/**
 * The same face with teeth of its own: `deepMm` deep furrows between crowns of one width, fading toward the gum, and noise of this standard
 * deviation along the normal. Our judgement of a shape; no published source.
 */
export function cutTeeth(surface: JawSurface, cut: Cut, widthMm: number, deepMm: number, noise: () => number): ScanMesh {
  const { points, triangles } = cutFace(surface, cut);
  const tall = points.length / 3 / (cut.columns + 1);
  const before = tall - cut.rows - 1;
  for (let column = 0; column <= cut.columns; column++) {
    const arc = -cut.arcMm + (2 * cut.arcMm * column) / cut.columns;
    // 0 in the middle of a crown, 1 where two meet; they meet at the midline.
    const aside = Math.abs(2 * (arc / widthMm - Math.floor(arc / widthMm)) - 1);
    for (let row = 0; row < tall; row++) {
      const height = cut.heights[0] + (Math.max(0, row - before) * (cut.heights[1] - cut.heights[0])) / cut.rows;
      const fading = height > FURROW_MM ? 0 : Math.sqrt(Math.cos((Math.PI / 2) * (height / FURROW_MM)));
      const out = noise() - deepMm * aside ** 4 * fading;
      const normal = surface.normalAt(arc, height);
      for (let axis = 0; axis < 3; axis++) points[3 * (column * tall + row) + axis]! += out * normal[axis]!;
    }
  }
  return { points, triangles };
}

/** A furrow's length from the edge toward the gum, mm. */
const FURROW_MM = 12;
