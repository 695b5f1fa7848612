/**
 * A scan as read put right as far as that can be done without inventing anything, and the rest named: corners welded, every shell turned
 * to face outward, specks left out; holes, branched edges and slivers counted.
 */
import { type ScanHole, findHoles } from './holes';
import { type ScanMesh, crossOf } from './mesh';
import { BRANCHED, OPEN, endOf, findNeighbours } from './neighbours';
import { weld } from './weld';

export interface ScanShell {
  readonly triangles: number;
  /** In the mesh's own unit, squared. */
  readonly area: number;
  /** True where no side of it is open. */
  readonly closed: boolean;
}

export interface ScanReport {
  readonly trianglesRead: number;
  readonly pointsRead: number;
  readonly pointsLeft: number;
  /** Left out, as two corners lay in one place. */
  readonly trianglesCollapsed: number;
  /** Kept, but so thin that they have no direction of their own. */
  readonly slivers: number;
  /** Largest first; specks are not among them. */
  readonly shells: readonly ScanShell[];
  /** Shells of less than a hundredth of the largest one's area, left out. */
  readonly specks: number;
  /** Triangles turned over, so that all of a shell face the same way, and outward. */
  readonly turnedOver: number;
  /** Edges at which more than two triangles meet, or which a shell meets the wrong way round (as on a Möbius strip). */
  readonly branchedEdges: number;
  /** Longest first. */
  readonly holes: readonly ScanHole[];
}

export interface MendedScan {
  readonly mesh: ScanMesh;
  /** The side across each side of a triangle (neighbours.ts). */
  readonly across: Int32Array;
  readonly report: ScanReport;
}

const SPECK_PART = 0.01;
/** A triangle lower than this part of its longest side has no direction worth using. */
const SLIVER_PART = 1e-6;

/** Null where no triangle is left. */
export function mendScan(read: ScanMesh): MendedScan | null {
  const { mesh, collapsed } = weld(read);
  const { points } = mesh;
  const count = mesh.triangles.length / 3;
  if (count === 0) return null;
  const triangles = mesh.triangles.slice();
  const across = findNeighbours(mesh);
  const shellOf = new Int32Array(count).fill(-1);
  const turned = new Uint8Array(count);
  const areas: number[] = [];
  const sizes: number[] = [];
  let slivers = 0;
  let wrongWay = 0;
  const cross = new Float64Array(3);
  const waiting = new Int32Array(count);
  for (let seed = 0; seed < count; seed++) {
    if (shellOf[seed]! >= 0) continue;
    const shell = areas.length;
    let area = 0;
    let size = 0;
    let read = 0;
    let end = 1;
    waiting[0] = seed;
    shellOf[seed] = shell;
    while (read < end) {
      const triangle = waiting[read++]!;
      crossOf(mesh, triangle, cross);
      const twice = Math.hypot(cross[0]!, cross[1]!, cross[2]!);
      if (twice <= SLIVER_PART * longestSquared(mesh, triangle)) slivers++;
      area += twice / 2;
      size++;
      for (let side = 3 * triangle; side < 3 * triangle + 3; side++) {
        const other = across[side]!;
        if (other < 0) continue;
        const neighbour = Math.floor(other / 3);
        // Two that face the same way run along their common side in opposite directions.
        const sameRun = mesh.triangles[side] === mesh.triangles[other];
        const should = (turned[triangle]! ^ (sameRun ? 1 : 0)) as 0 | 1;
        if (shellOf[neighbour]! < 0) {
          shellOf[neighbour] = shell;
          turned[neighbour] = should;
          waiting[end++] = neighbour;
        } else if (turned[neighbour] !== should && side < other) wrongWay++;
      }
    }
    areas.push(area);
    sizes.push(size);
  }
  turnOutward(mesh, across, shellOf, turned, areas.length);
  const least = SPECK_PART * greatest(areas);
  let turnedOver = 0;
  let kept = 0;
  for (let triangle = 0; triangle < count; triangle++) {
    if (areas[shellOf[triangle]!]! < least) continue;
    const from = 3 * triangle;
    const [a, b, c] = [mesh.triangles[from]!, mesh.triangles[from + 1]!, mesh.triangles[from + 2]!];
    const over = turned[triangle] === 1;
    if (over) turnedOver++;
    triangles[kept++] = a;
    triangles[kept++] = over ? c : b;
    triangles[kept++] = over ? b : c;
  }
  // Corners of specks alone go too: a second weld keeps those that are named.
  const put = dropUnused({ points, triangles: triangles.slice(0, kept) });
  const finalAcross = findNeighbours(put);
  const closed = new Uint8Array(areas.length).fill(1);
  for (let side = 0; side < across.length; side++) if (across[side] === OPEN) closed[shellOf[Math.floor(side / 3)]!] = 0;
  const shells = areas
    .map((area, shell) => ({ triangles: sizes[shell]!, area, closed: closed[shell] === 1 }))
    .filter((shell) => shell.area >= least)
    .sort((one, two) => two.area - one.area);
  return {
    mesh: put,
    across: finalAcross,
    report: {
      trianglesRead: read.triangles.length / 3,
      pointsRead: read.points.length / 3,
      pointsLeft: put.points.length / 3,
      trianglesCollapsed: collapsed,
      slivers,
      shells,
      specks: areas.length - shells.length,
      turnedOver,
      branchedEdges: wrongWay + branchedEdges(put, finalAcross),
      holes: findHoles(put, finalAcross),
    },
  };
}

/** Each edge once, however many triangles have it as a side. */
function branchedEdges({ points, triangles }: ScanMesh, across: Int32Array): number {
  const edges = new Set<number>();
  const corners = points.length / 3;
  for (let side = 0; side < across.length; side++) {
    if (across[side] !== BRANCHED) continue;
    const [from, to] = [triangles[side]!, triangles[endOf(side)]!];
    edges.add(Math.min(from, to) * corners + Math.max(from, to));
  }
  return edges.size;
}

const greatest = (values: readonly number[]): number => values.reduce((most, value) => Math.max(most, value), 0);

/**
 * Turns over each shell whose inside is outside: by the signed volume between it and, where it is open, the middle of its border, which
 * closes it like a tent.
 */
function turnOutward(mesh: ScanMesh, across: Int32Array, shellOf: Int32Array, turned: Uint8Array, shells: number): void {
  const { points, triangles } = mesh;
  const middle = new Float64Array(3 * shells);
  const onBorder = new Float64Array(shells);
  const inAll = new Float64Array(4 * shells);
  for (let side = 0; side < across.length; side++) {
    const shell = shellOf[Math.floor(side / 3)]!;
    for (let axis = 0; axis < 3; axis++) {
      const place = points[3 * triangles[side]! + axis]!;
      inAll[4 * shell + axis]! += place;
      if (across[side] === OPEN) middle[3 * shell + axis]! += place;
    }
    inAll[4 * shell + 3]! += 1;
    if (across[side] === OPEN) onBorder[shell]! += 1;
  }
  for (let shell = 0; shell < shells; shell++) {
    for (let axis = 0; axis < 3; axis++) {
      middle[3 * shell + axis] =
        onBorder[shell]! > 0 ? middle[3 * shell + axis]! / onBorder[shell]! : inAll[4 * shell + axis]! / inAll[4 * shell + 3]!;
    }
  }
  const volume = new Float64Array(shells);
  const cross = new Float64Array(3);
  for (let triangle = 0; triangle < shellOf.length; triangle++) {
    const shell = shellOf[triangle]!;
    crossOf(mesh, triangle, cross);
    const corner = 3 * triangles[3 * triangle]!;
    let height = 0;
    for (let axis = 0; axis < 3; axis++) height += cross[axis]! * (points[corner + axis]! - middle[3 * shell + axis]!);
    volume[shell]! += turned[triangle] === 1 ? -height : height;
  }
  for (let triangle = 0; triangle < shellOf.length; triangle++) if (volume[shellOf[triangle]!]! < 0) turned[triangle]! ^= 1;
}

function longestSquared({ points, triangles }: ScanMesh, triangle: number): number {
  let longest = 0;
  for (let side = 3 * triangle; side < 3 * triangle + 3; side++) {
    const a = 3 * triangles[side]!;
    const b = 3 * triangles[endOf(side)]!;
    longest = Math.max(longest, (points[a]! - points[b]!) ** 2 + (points[a + 1]! - points[b + 1]!) ** 2 + (points[a + 2]! - points[b + 2]!) ** 2);
  }
  return longest;
}

function dropUnused({ points, triangles }: ScanMesh): ScanMesh {
  const becomes = new Int32Array(points.length / 3).fill(-1);
  const kept = new Float64Array(points.length);
  const named = new Uint32Array(triangles.length);
  let next = 0;
  for (let side = 0; side < triangles.length; side++) {
    const corner = triangles[side]!;
    if (becomes[corner]! < 0) {
      for (let axis = 0; axis < 3; axis++) kept[3 * next + axis] = points[3 * corner + axis]!;
      becomes[corner] = next++;
    }
    named[side] = becomes[corner]!;
  }
  return { points: kept.slice(0, 3 * next), triangles: named };
}
