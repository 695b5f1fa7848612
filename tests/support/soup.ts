/** A body as a reader of files gives it back: triangles by their corners' places alone. Measures that owe nothing to the code under test. */
export type Triangle = readonly [Corner, Corner, Corner];
export type Corner = readonly [number, number, number];

export interface SoupMeasures {
  readonly openEdges: number;
  readonly emptyTriangles: number;
  readonly volume: number;
  readonly area: number;
  readonly low: Corner;
  readonly high: Corner;
}

export function measureSoup(triangles: readonly Triangle[]): SoupMeasures {
  const edges = new Map<string, number>();
  let emptyTriangles = 0;
  let volume = 0;
  let area = 0;
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (const [a, b, c] of triangles) {
    const normal = cross(less(b, a), less(c, a));
    const size = Math.hypot(...normal) / 2;
    area += size;
    if (size < 1e-6) emptyTriangles += 1;
    volume += (a[0] * normal[0] + a[1] * normal[1] + a[2] * normal[2]) / 6;
    for (const [from, to] of [[a, b], [b, c], [c, a]] as const) {
      const key = `${from.join()}>${to.join()}`;
      edges.set(key, (edges.get(key) ?? 0) + 1);
    }
    for (const corner of [a, b, c]) {
      corner.forEach((value, axis) => {
        low[axis] = Math.min(low[axis]!, value);
        high[axis] = Math.max(high[axis]!, value);
      });
    }
  }
  let openEdges = 0;
  for (const [key, times] of edges) {
    const [from, to] = key.split('>');
    if (times !== 1 || edges.get(`${to}>${from}`) !== 1) openEdges += 1;
  }
  return { openEdges, emptyTriangles, volume, area, low: low as unknown as Corner, high: high as unknown as Corner };
}

/**
 * Rays through the body: along each the crossings must alternate from outside to inside to outside. `through` are the starts in the plane
 * across `axis`; answers how many rays crossed anything.
 */
export function countAlternatingRays(triangles: readonly Triangle[], axis: 0 | 1 | 2, through: readonly (readonly [number, number])[]): { readonly crossing: number; readonly wrong: number } {
  const [u, v] = [0, 1, 2].filter((one) => one !== axis) as [number, number];
  let crossing = 0;
  let wrong = 0;
  for (const [pu, pv] of through) {
    const hits: { readonly at: number; readonly into: boolean }[] = [];
    for (const triangle of triangles) {
      const [a, b, c] = triangle;
      const sides = [[a, b], [b, c], [c, a]].map(([p, q]) => (q![u]! - p![u]!) * (pv - p![v]!) - (q![v]! - p![v]!) * (pu - p![u]!));
      const inside = sides.every((side) => side > 0) || sides.every((side) => side < 0);
      if (!inside) continue;
      const normal = cross(less(b, a), less(c, a));
      const at = a[axis] - ((pu - a[u]!) * normal[u]! + (pv - a[v]!) * normal[v]!) / normal[axis];
      hits.push({ at, into: normal[axis] < 0 });
    }
    hits.sort((one, other) => one.at - other.at);
    if (hits.length > 0) crossing += 1;
    if (hits.length % 2 === 1 || hits.some(({ into }, place) => into !== (place % 2 === 0))) wrong += 1;
  }
  return { crossing, wrong };
}

const less = (a: Corner, b: Corner): Corner => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Corner, b: Corner): Corner => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
