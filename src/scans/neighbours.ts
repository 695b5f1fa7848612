/** Which triangle lies across each side of a triangle. Side 3t + k of triangle t runs from its corner k to the next. */
import type { ScanMesh } from './mesh';

/** Instead of a side: nothing lies across. */
export const OPEN = -1;
/** Instead of a side: more than one triangle lies across. */
export const BRANCHED = -2;

/** The side across each side, or OPEN, or BRANCHED. */
export function findNeighbours({ triangles }: Pick<ScanMesh, 'triangles'>): Int32Array {
  const sides = triangles.length;
  const across = new Int32Array(sides).fill(OPEN);
  // Sides in chains by both their corners: by one alone, a fan of a hundred thousand triangles about one corner would take minutes.
  const chains = 2 ** Math.ceil(Math.log2(Math.max(2, sides)));
  const firstAt = new Int32Array(chains).fill(-1);
  const nextInChain = new Int32Array(sides).fill(-1);
  for (let side = 0; side < sides; side++) {
    const from = triangles[side]!;
    const to = triangles[endOf(side)]!;
    const low = Math.min(from, to);
    const high = Math.max(from, to);
    const chain = chainOf(low, high) & (chains - 1);
    for (let other = firstAt[chain]!; other >= 0; other = nextInChain[other]!) {
      const one = triangles[other]!;
      const two = triangles[endOf(other)]!;
      if (Math.min(one, two) !== low || Math.max(one, two) !== high) continue;
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
    nextInChain[side] = firstAt[chain]!;
    firstAt[chain] = side;
  }
  return across;
}

/** The place in `triangles` of a side's far corner. */
export const endOf = (side: number): number => (side % 3 === 2 ? side - 2 : side + 1);

/** Mixed so that neighbouring numbers fall far apart. */
function chainOf(low: number, high: number): number {
  const mixed = Math.imul(low, 0x9e3779b1) ^ Math.imul(high, 0x85ebca6b);
  return mixed ^ (mixed >>> 15);
}
