/** A surface of triangles, as a file holds it or put right: what readers give and what everything else here works on. */

export interface ScanMesh {
  /** Corners, three numbers each. In the file's own unit and axes until `scaleMesh` and a frame have been applied. */
  readonly points: Float64Array;
  /** Three corners a triangle, counterclockwise seen from outside once put right. */
  readonly triangles: Uint32Array;
}

export interface Box {
  readonly low: readonly [number, number, number];
  readonly high: readonly [number, number, number];
}

/** The least upright box that holds all corners. */
export function boxOf(points: Float64Array): Box {
  const low: [number, number, number] = [Infinity, Infinity, Infinity];
  const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < points.length; i++) {
    const axis = i % 3;
    const value = points[i]!;
    if (value < low[axis]!) low[axis] = value;
    if (value > high[axis]!) high[axis] = value;
  }
  return { low, high };
}

export function scaleMesh(mesh: ScanMesh, factor: number): ScanMesh {
  return { points: mesh.points.map((value) => value * factor), triangles: mesh.triangles };
}

/** Twice a triangle's area along its normal, to `out`. */
export function crossOf(mesh: ScanMesh, triangle: number, out: Float64Array): void {
  const { points, triangles } = mesh;
  const a = 3 * triangles[3 * triangle]!;
  const b = 3 * triangles[3 * triangle + 1]!;
  const c = 3 * triangles[3 * triangle + 2]!;
  const ux = points[b]! - points[a]!;
  const uy = points[b + 1]! - points[a + 1]!;
  const uz = points[b + 2]! - points[a + 2]!;
  const vx = points[c]! - points[a]!;
  const vy = points[c + 1]! - points[a + 1]!;
  const vz = points[c + 2]! - points[a + 2]!;
  out[0] = uy * vz - uz * vy;
  out[1] = uz * vx - ux * vz;
  out[2] = ux * vy - uy * vx;
}
