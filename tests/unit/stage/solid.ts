/** Measures of a triangle mesh for the tests: is it closed, and how much does it hold? */

/** Edges that are not shared by exactly two triangles running in opposite directions; corners at one place count as one. */
export function openEdges(positions: ArrayLike<number>, index: ArrayLike<number>): number {
  const names = new Map<string, number>();
  const corner = Array.from({ length: positions.length / 3 }, (_, vertex) => {
    const key = [0, 1, 2].map((axis) => Math.round(positions[vertex * 3 + axis]! * 1e4)).join(',');
    if (!names.has(key)) names.set(key, names.size);
    return names.get(key)!;
  });
  const balance = new Map<string, number>();
  for (let at = 0; at < index.length; at += 3) {
    const [a, b, c] = [corner[index[at]!]!, corner[index[at + 1]!]!, corner[index[at + 2]!]!];
    if (a === b || b === c || c === a) continue;
    for (const [from, to] of [[a, b], [b, c], [c, a]] as const) {
      const key = `${Math.min(from, to)}-${Math.max(from, to)}`;
      balance.set(key, (balance.get(key) ?? 0) + (from < to ? 1 : -1));
    }
  }
  return [...balance.values()].filter((count) => count !== 0).length;
}

/** Signed volume, positive for triangles wound outward. */
export function volumeOf(positions: ArrayLike<number>, index: ArrayLike<number>): number {
  let six = 0;
  for (let at = 0; at < index.length; at += 3) {
    const [a, b, c] = [index[at]! * 3, index[at + 1]! * 3, index[at + 2]! * 3];
    six +=
      positions[a]! * (positions[b + 1]! * positions[c + 2]! - positions[b + 2]! * positions[c + 1]!) +
      positions[a + 1]! * (positions[b + 2]! * positions[c]! - positions[b]! * positions[c + 2]!) +
      positions[a + 2]! * (positions[b]! * positions[c + 1]! - positions[b + 1]! * positions[c]!);
  }
  return six / 6;
}
