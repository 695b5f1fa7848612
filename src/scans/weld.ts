/** Corners at the very same place made one: an STL brings three for every triangle, and neighbours show only once they share them. */
import type { ScanMesh } from './mesh';

export interface Welded {
  readonly mesh: ScanMesh;
  /** Triangles with two corners in one place, left out. */
  readonly collapsed: number;
}

export function weld({ points, triangles }: ScanMesh): Welded {
  const count = points.length / 3;
  // An open table of at least twice as many places as corners; a corner's number, −1 where empty.
  let size = 1024;
  while (size < 2 * count) size *= 2;
  const table = new Int32Array(size).fill(-1);
  const becomes = new Uint32Array(count);
  const kept = new Float64Array(points.length);
  // Two halves of a double, to make a place in the table of.
  const number = new Float64Array(1);
  const halves = new Uint32Array(number.buffer);
  let next = 0;
  for (let corner = 0; corner < count; corner++) {
    let mixed = 0;
    for (let axis = 0; axis < 3; axis++) {
      // −0 and 0 are one place.
      number[0] = points[3 * corner + axis]! + 0;
      mixed = Math.imul(mixed ^ halves[0]!, 0x9e3779b1) ^ Math.imul(halves[1]!, 0x85ebca6b);
      mixed ^= mixed >>> 15;
    }
    let slot = mixed & (size - 1);
    for (;;) {
      const other = table[slot]!;
      if (other < 0) {
        table[slot] = next;
        for (let axis = 0; axis < 3; axis++) kept[3 * next + axis] = points[3 * corner + axis]!;
        becomes[corner] = next++;
        break;
      }
      if (kept[3 * other] === points[3 * corner] && kept[3 * other + 1] === points[3 * corner + 1] && kept[3 * other + 2] === points[3 * corner + 2]) {
        becomes[corner] = other;
        break;
      }
      slot = (slot + 1) & (size - 1);
    }
  }
  const whole = new Uint32Array(triangles.length);
  let length = 0;
  for (let from = 0; from < triangles.length; from += 3) {
    const a = becomes[triangles[from]!]!;
    const b = becomes[triangles[from + 1]!]!;
    const c = becomes[triangles[from + 2]!]!;
    if (a === b || b === c || c === a) continue;
    whole[length++] = a;
    whole[length++] = b;
    whole[length++] = c;
  }
  return {
    mesh: { points: kept.slice(0, 3 * next), triangles: whole.slice(0, length) },
    collapsed: (triangles.length - length) / 3,
  };
}
