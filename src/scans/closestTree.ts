/**
 * The door to three-mesh-bvh: a tree of boxes over a scan's triangles, and the closest point of them. The tree is walked by the library; the
 * distance from a triangle is ours, on the mesh's own doubles: the library's costs half as much again and is good to single floats.
 */
import { type Box3, BufferAttribute, BufferGeometry } from 'three';
import { MeshBVH, type SerializedBVH } from 'three-mesh-bvh';
import { closestOnTriangle } from './closestOnTriangle';
import type { ScanMesh } from './mesh';

/** A tree as it goes from a worker to the page: built in one, walked in the other. */
export type TreeParts = SerializedBVH;

export interface ClosestTree {
  /** The closest point of the triangles to a place, written to `out` (three numbers): the triangle it lies in, or −1 where none is within `withinMm`. */
  closest(x: number, y: number, z: number, withinMm: number, out: Float64Array): number;
  /** A copy, to be taken up by `buildClosestTree` with the same mesh. */
  parts(): TreeParts;
}

/** A box of single floats may lie this part of its place inside the doubles that it should hold. */
const BOX_ROUNDING = 1e-6;

/** Triangles keep their numbers. `from`: parts of the same mesh's tree, which is then not built again. */
export function buildClosestTree(mesh: ScanMesh, from?: TreeParts): ClosestTree {
  const tree = from === undefined ? treeOf(mesh) : MeshBVH.deserialize(from, new BufferGeometry(), { setIndex: false });
  const { points, triangles } = mesh;
  const asked = new Float64Array(3);
  const found = new Float64Array(4);
  const best = { square: Infinity, triangle: -1, x: 0, y: 0, z: 0 };
  const walk = {
    boundsTraverseOrder({ min, max }: Box3): number {
      const dx = beyond(asked[0]!, min.x, max.x);
      const dy = beyond(asked[1]!, min.y, max.y);
      const dz = beyond(asked[2]!, min.z, max.z);
      return dx * dx + dy * dy + dz * dz;
    },
    intersectsBounds: (_box: Box3, _isLeaf: boolean, score: number | undefined) => score! * (1 - BOX_ROUNDING) < best.square,
    intersectsRange(from: number, count: number): boolean {
      for (let place = from; place < from + count; place++) tryTriangle(tree.resolveTriangleIndex(place));
      return false;
    },
  };
  let last = -1;
  function tryTriangle(triangle: number): void {
    closestOnTriangle(points, triangles, triangle, asked, found);
    // Also where a sliver gives no number.
    if (!(found[3]! < best.square)) return;
    best.square = found[3]!;
    best.triangle = triangle;
    best.x = found[0]!;
    best.y = found[1]!;
    best.z = found[2]!;
  }
  return {
    closest(x, y, z, withinMm, out) {
      asked[0] = x;
      asked[1] = y;
      asked[2] = z;
      best.square = withinMm * withinMm;
      best.triangle = -1;
      // Whoever asks goes from neighbour to neighbour: with the last triangle's distance to begin from, the tree is hardly walked. The least one is
      // found whatever it begins from.
      if (last >= 0) tryTriangle(last);
      tree.shapecast(walk);
      if (best.triangle >= 0) last = best.triangle;
      out[0] = best.x;
      out[1] = best.y;
      out[2] = best.z;
      return best.triangle;
    },
    // The triangles themselves go with the mesh.
    parts: () => ({ ...MeshBVH.serialize(tree), index: null }),
  };
}

function treeOf({ points, triangles }: ScanMesh): MeshBVH {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(points), 3));
  geometry.setIndex(new BufferAttribute(triangles.slice(), 1));
  return new MeshBVH(geometry, { indirect: true });
}

const beyond = (place: number, low: number, high: number): number => (place < low ? low - place : place > high ? place - high : 0);
