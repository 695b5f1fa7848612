/**
 * The signed distance from a scan. The sign is that of the way to the closest point against the normal there: the face's, or where the
 * closest point lies on a side or a corner, the sum of the faces' normals, weighted by their angles at a corner (Bærentzen & Aanæs 2005,
 * IEEE TVCG 11:243–253: the one choice that is right everywhere; value from memory).
 */
import { type ClosestTree, type TreeParts, buildClosestTree } from './closestTree';
import { crossOf } from './mesh';
import type { MendedScan } from './mendScan';
import { endOf } from './neighbours';

export interface SignedDistance {
  /**
   * The distance of a place, mm, negative inside; NaN where nothing lies within `withinMm`. `foot` then holds the closest point, and
   * `onBorder` tells whether that lies on the scan's border, where the distance is never negative.
   */
  at(x: number, y: number, z: number, withinMm?: number): number;
  readonly foot: Float64Array;
  readonly onBorder: () => boolean;
  /** Copies of what was worked out of the scan, to be taken up by `createSignedDistance` with the same scan. */
  parts(): DistanceParts;
}

export interface DistanceParts {
  readonly tree: TreeParts;
  readonly cornerNormals: Float64Array;
  /** 1 for each corner on the scan's border. */
  readonly borderCorners: Uint8Array;
}

/** A closest point within this part of a triangle's side or corner counts as lying on it. */
const ON_SIDE = 1e-4;

export function createSignedDistance({ mesh, across }: Pick<MendedScan, 'mesh' | 'across'>, from?: DistanceParts): SignedDistance {
  const tree: ClosestTree = buildClosestTree(mesh, from?.tree);
  const { points, triangles } = mesh;
  const cornerNormals = from?.cornerNormals ?? angleWeightedNormals({ points, triangles });
  const borderCorners = from?.borderCorners ?? cornersOnBorder(triangles, across, points.length / 3);
  const foot = new Float64Array(3);
  const normal = new Float64Array(3);
  const second = new Float64Array(3);
  const parts = new Float64Array(3);
  let border = false;

  function at(x: number, y: number, z: number, withinMm = Infinity): number {
    const triangle = tree.closest(x, y, z, withinMm, foot);
    if (triangle < 0) return NaN;
    const dx = x - foot[0]!;
    const dy = y - foot[1]!;
    const dz = z - foot[2]!;
    const distance = Math.sqrt(dx * dx + dy * dy + dz * dz);
    crossOf(mesh, triangle, normal);
    barycentric(triangle);
    border = false;
    const onSides = (parts[0]! < ON_SIDE ? 1 : 0) + (parts[1]! < ON_SIDE ? 1 : 0) + (parts[2]! < ON_SIDE ? 1 : 0);
    if (onSides === 1) {
      // The side lies opposite the corner that has no part: from the next corner on.
      const without = parts[0]! < ON_SIDE ? 0 : parts[1]! < ON_SIDE ? 1 : 2;
      const other = across[3 * triangle + ((without + 1) % 3)]!;
      border = other < 0;
      if (other >= 0) {
        crossOf(mesh, Math.floor(other / 3), second);
        const one = perLength(normal);
        const two = perLength(second);
        for (let axis = 0; axis < 3; axis++) normal[axis] = normal[axis]! * one + second[axis]! * two;
      }
    } else if (onSides > 1) {
      const corner = triangles[3 * triangle + (parts[0]! > 0.5 ? 0 : parts[1]! > 0.5 ? 1 : 2)]!;
      border = borderCorners[corner] === 1;
      for (let axis = 0; axis < 3; axis++) normal[axis] = cornerNormals[3 * corner + axis]!;
    }
    return border || dx * normal[0]! + dy * normal[1]! + dz * normal[2]! >= 0 ? distance : -distance;
  }

  /** The closest point's parts of the three corners, to `parts`. */
  function barycentric(triangle: number): void {
    const square = normal[0]! ** 2 + normal[1]! ** 2 + normal[2]! ** 2;
    for (let k = 0; k < 3; k++) {
      const from = 3 * triangles[3 * triangle + ((k + 1) % 3)]!;
      const to = 3 * triangles[3 * triangle + ((k + 2) % 3)]!;
      const ux = points[to]! - points[from]!;
      const uy = points[to + 1]! - points[from + 1]!;
      const uz = points[to + 2]! - points[from + 2]!;
      const vx = foot[0]! - points[from]!;
      const vy = foot[1]! - points[from + 1]!;
      const vz = foot[2]! - points[from + 2]!;
      parts[k] = (normal[0]! * (uy * vz - uz * vy) + normal[1]! * (uz * vx - ux * vz) + normal[2]! * (ux * vy - uy * vx)) / square;
    }
  }

  return {
    at,
    foot,
    onBorder: () => border,
    parts: () => ({ tree: tree.parts(), cornerNormals: cornerNormals.slice(), borderCorners: borderCorners.slice() }),
  };
}

function cornersOnBorder(triangles: Uint32Array, across: Int32Array, count: number): Uint8Array {
  const onBorder = new Uint8Array(count);
  for (let side = 0; side < across.length; side++) {
    if (across[side]! >= 0) continue;
    onBorder[triangles[side]!] = 1;
    onBorder[triangles[endOf(side)]!] = 1;
  }
  return onBorder;
}

/** One over a vector's length; 0 for a sliver's, which has no direction to count. */
function perLength(vector: Float64Array): number {
  const length = Math.hypot(vector[0]!, vector[1]!, vector[2]!);
  return length > 0 ? 1 / length : 0;
}

/** For each corner the sum of its triangles' unit normals, each by the triangle's angle there. */
export function angleWeightedNormals(mesh: { readonly points: Float64Array; readonly triangles: Uint32Array }): Float64Array {
  const { points, triangles } = mesh;
  const normals = new Float64Array(points.length);
  const cross = new Float64Array(3);
  for (let triangle = 0; triangle < triangles.length / 3; triangle++) {
    crossOf(mesh, triangle, cross);
    const twice = Math.hypot(cross[0]!, cross[1]!, cross[2]!);
    if (twice === 0) continue;
    for (let k = 0; k < 3; k++) {
      const at = 3 * triangles[3 * triangle + k]!;
      const one = 3 * triangles[3 * triangle + ((k + 1) % 3)]!;
      const two = 3 * triangles[3 * triangle + ((k + 2) % 3)]!;
      let along = 0;
      for (let axis = 0; axis < 3; axis++) along += (points[one + axis]! - points[at + axis]!) * (points[two + axis]! - points[at + axis]!);
      const angle = Math.atan2(twice, along);
      for (let axis = 0; axis < 3; axis++) normals[at + axis]! += (angle * cross[axis]!) / twice;
    }
  }
  return normals;
}
