/** Whether a body is one that a printer can make: closed, wound outward, without empty triangles, in the single precision of its file. */
import type { Solid } from './solid';

export interface SolidFaults {
  /** Edges that are not shared by exactly two triangles that run along them in opposite directions. */
  readonly openEdges: number;
  /** Triangles with less area than `LEAST_AREA_MM2` once their corners are single-precision numbers. */
  readonly emptyTriangles: number;
  /** mm³; positive where the triangles face outward. */
  readonly volumeMm3: number;
  readonly triangles: number;
}

/** A square a thousandth of a millimetre wide: far below what any printer resolves, far above the rounding of a file's numbers. */
const LEAST_AREA_MM2 = 1e-6;

/** Corners at one place, as the file will have them, count as one: an STL file knows places only. */
export function checkSolid({ positions, index }: Solid): SolidFaults {
  const places = Float32Array.from(positions);
  const corner = sameCorners(places);
  const edges = new Map<number, number>();
  const count = places.length / 3;
  let openEdges = 0;
  let emptyTriangles = 0;
  let six = 0;
  for (let at = 0; at < index.length; at += 3) {
    const [a, b, c] = [corner[index[at]!]!, corner[index[at + 1]!]!, corner[index[at + 2]!]!];
    six += sixVolumes(places, a, b, c);
    if (!(areaOf(places, a, b, c) >= LEAST_AREA_MM2)) emptyTriangles += 1;
    for (const [from, to] of [[a, b], [b, c], [c, a]] as const) {
      const key = from * count + to;
      edges.set(key, (edges.get(key) ?? 0) + 1);
    }
  }
  for (const [key, times] of edges) {
    const from = Math.floor(key / count);
    if (times !== 1 || edges.get((key % count) * count + from) !== 1) openEdges += 1;
  }
  return { openEdges, emptyTriangles, volumeMm3: six / 6, triangles: index.length / 3 };
}

export const isPrintable = (faults: SolidFaults): boolean =>
  faults.triangles > 0 && faults.openEdges === 0 && faults.emptyTriangles === 0 && faults.volumeMm3 > 0;

function sameCorners(places: Float32Array): Uint32Array {
  const first = new Map<string, number>();
  return Uint32Array.from({ length: places.length / 3 }, (_, corner) => {
    // −0 and 0 are one place.
    const key = `${places[corner * 3]! + 0},${places[corner * 3 + 1]! + 0},${places[corner * 3 + 2]! + 0}`;
    const known = first.get(key);
    if (known !== undefined) return known;
    first.set(key, corner);
    return corner;
  });
}

function sixVolumes(p: Float32Array, a: number, b: number, c: number): number {
  const [ax, ay, az] = [p[a * 3]!, p[a * 3 + 1]!, p[a * 3 + 2]!];
  const [bx, by, bz] = [p[b * 3]!, p[b * 3 + 1]!, p[b * 3 + 2]!];
  const [cx, cy, cz] = [p[c * 3]!, p[c * 3 + 1]!, p[c * 3 + 2]!];
  return ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
}

function areaOf(p: Float32Array, a: number, b: number, c: number): number {
  const ux = p[b * 3]! - p[a * 3]!;
  const uy = p[b * 3 + 1]! - p[a * 3 + 1]!;
  const uz = p[b * 3 + 2]! - p[a * 3 + 2]!;
  const vx = p[c * 3]! - p[a * 3]!;
  const vy = p[c * 3 + 1]! - p[a * 3 + 1]!;
  const vz = p[c * 3 + 2]! - p[a * 3 + 2]!;
  return Math.hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx) / 2;
}
