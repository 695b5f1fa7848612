/** Which triangle lies across each side of a triangle. Side 3t + k of triangle t runs from its corner k to the next. */
import type { ScanMesh } from './mesh';

/** Instead of a side: nothing lies across. */
export const OPEN = -1;
/** Instead of a side: more than one triangle lies across. */
export const BRANCHED = -2;

/** The side across each side, or OPEN, or BRANCHED. */
export function findNeighbours({ points, triangles }: ScanMesh): Int32Array {
  const sides = triangles.length;
  const across = new Int32Array(sides).fill(OPEN);
  // Sides in chains, one for each corner that is their lower end.
  const firstAt = new Int32Array(points.length / 3).fill(-1);
  const nextInChain = new Int32Array(sides).fill(-1);
  for (let side = 0; side < sides; side++) {
    const from = triangles[side]!;
    const to = triangles[endOf(side)]!;
    const low = Math.min(from, to);
    const high = Math.max(from, to);
    for (let other = firstAt[low]!; other >= 0; other = nextInChain[other]!) {
      if (Math.max(triangles[other]!, triangles[endOf(other)]!) !== high) continue;
      if (across[other] === OPEN) {
        across[other] = side;
        across[side] = other;
      } else {
        if (across[other]! >= 0) across[across[other]!] = BRANCHED;
        across[other] = BRANCHED;
        across[side] = BRANCHED;
      }
      break;
    }
    nextInChain[side] = firstAt[low]!;
    firstAt[low] = side;
  }
  return across;
}

/** The place in `triangles` of a side's far corner. */
export const endOf = (side: number): number => (side % 3 === 2 ? side - 2 : side + 1);
