/** The holes of a scan, and its own border: open sides strung together round each. */
import type { ScanMesh } from './mesh';
import { OPEN, endOf } from './neighbours';

export interface ScanHole {
  readonly edges: number;
  /** Round the hole, in the mesh's own unit. The longest one of an open shell is the scan's own border. */
  readonly length: number;
}

/** Longest first; `across` as of neighbours.ts. */
export function findHoles({ points, triangles }: ScanMesh, across: Int32Array): ScanHole[] {
  const leaving = new Map<number, number[]>();
  for (let side = 0; side < across.length; side++) {
    if (across[side] !== OPEN) continue;
    const from = triangles[side]!;
    const known = leaving.get(from);
    if (known) known.push(side);
    else leaving.set(from, [side]);
  }
  const holes: ScanHole[] = [];
  for (const [start, sides] of leaving) {
    while (sides.length > 0) {
      let edges = 0;
      let length = 0;
      let corner = start;
      do {
        const side = leaving.get(corner)?.pop();
        if (side === undefined) break;
        const end = triangles[endOf(side)]!;
        length += Math.hypot(...[0, 1, 2].map((axis) => points[3 * end + axis]! - points[3 * corner + axis]!));
        edges++;
        corner = end;
      } while (corner !== start);
      holes.push({ edges, length });
    }
  }
  return holes.sort((one, two) => two.length - one.length);
}
