import { describe, expect, it } from 'vitest';
import { gapRoom } from '../../../src/core/gapFace';
import { createGapField } from '../../../src/scans/gapField';
import { type MendedScan, mendScan } from '../../../src/scans/mendScan';
import { type ScanMesh, boxOf } from '../../../src/scans/mesh';
import { AS_SCANNED, placeScan } from '../../../src/scans/scannedFace';
import { createSignedDistance } from '../../../src/scans/signedDistance';
import { createRandom } from '../../../src/core/random';
import { expectWithin } from '../../support/expectWithin';
import { cutBall, joined } from '../../support/scannedShapes';

const mended = (mesh: ScanMesh): MendedScan => mendScan(mesh)!;
const RADIUS = 22;
const ball = mended(cutBall(RADIUS, 90, [0, 0, -RADIUS]));
const distance = createSignedDistance(ball);
const field = createGapField(distance, boxOf(ball.mesh.points));
/** Height of an arc over its chord, the most that flat triangles lie inside the ball. */
const SAGITTA_MM = RADIUS * (1 - Math.cos(Math.PI / 90 / Math.SQRT2));

describe('The distance from a scan', () => {
  it('is that of brute force, with the sign of inside and outside, at random places', () => {
    const random = createRandom(41);
    const rough = mended(cutBall(10, 7));
    const signed = createSignedDistance(rough);
    const { points, triangles } = rough.mesh;
    for (let time = 0; time < 300; time++) {
      const at = [0, 1, 2].map(() => 14 * (2 * random.uniform() - 1)) as [number, number, number];
      let nearest = Infinity;
      let inside = true;
      for (let from = 0; from < triangles.length; from += 3) {
        const [a, b, c] = [0, 1, 2].map((k) => [...points.subarray(3 * triangles[from + k]!, 3 * triangles[from + k]! + 3)]) as [number[], number[], number[]];
        const found = triangleDistance(at, a, b, c);
        nearest = Math.min(nearest, found.distance);
        // The ball is convex: inside is behind every triangle.
        if (found.height > 0) inside = false;
      }
      expectWithin(signed.at(...at), inside ? -nearest : nearest, { abs: 1e-9 }, `at ${at.join(', ')}`);
    }
  });

  it('knows the border of an open scan, where it is never negative', () => {
    const half = cutBall(10, 20);
    const open = mended({ points: half.points, triangles: half.triangles.filter((_, at) => Math.floor(at / 3) >= 20 * 40) });
    const signed = createSignedDistance(open);
    expect(signed.at(10, 4, 0)).toBeGreaterThan(0);
    expect(signed.onBorder()).toBe(true);
    signed.at(0, -20, 0);
    expect(signed.onBorder()).toBe(false);
  });
});

describe('The field of gaps', () => {
  it('is the ball’s own distance, to the height of its triangles, with gradient and bends', () => {
    const random = createRandom(42);
    for (let time = 0; time < 40; time++) {
      const out = RADIUS + 3 + 9 * random.uniform();
      const [x, y] = [16 * (random.uniform() - 0.5), 16 * (random.uniform() - 0.5)];
      const z = Math.sqrt(out * out - x * x - y * y) - RADIUS;
      expectWithin(field.gapAt(x, y, z), out - RADIUS, { abs: SAGITTA_MM + 1e-4 }, 'gap');
      const { gradient, bends } = field.slopesAt(x, y, z);
      const normal = [x / out, y / out, (z + RADIUS) / out];
      // Half the angle between two triangles at worst.
      normal.forEach((truth, axis) => expectWithin(gradient[axis]!, truth, { abs: Math.PI / 180 }, 'gradient'));
      const truths = [[0, 0], [0, 1], [0, 2], [1, 1], [1, 2], [2, 2]].map(([i, k]) => ((i === k ? 1 : 0) - normal[i!]! * normal[k!]!) / out);
      // On triangles of 0.8 mm the bends are theirs as much as the ball’s; only the steps of a search hang on them.
      truths.forEach((truth, index) => expectWithin(bends[index]!, truth, { abs: 0.02 }, 'bend'));
    }
  });

  it('has the gradient and bends of its own gap: central differences', () => {
    const random = createRandom(43);
    const step = 1e-3;
    for (let time = 0; time < 20; time++) {
      const at = [10 * (random.uniform() - 0.5), 10 * (random.uniform() - 0.5), 4 + 4 * random.uniform()] as const;
      const moved = (axis: number, by: number): [number, number, number] => [0, 1, 2].map((k) => at[k]! + (k === axis ? by : 0)) as [number, number, number];
      const gradient = [...field.slopesAt(...at).gradient];
      const bends = [...field.slopesAt(...at).bends];
      for (let axis = 0; axis < 3; axis++) {
        expectWithin(gradient[axis]!, (field.gapAt(...moved(axis, step)) - field.gapAt(...moved(axis, -step))) / (2 * step), { abs: 1e-6 }, 'gradient');
        const [after, before] = [1, -1].map((sign) => [...field.slopesAt(...moved(axis, sign * step)).gradient]);
        for (let other = axis; other < 3; other++) {
          const place = axis === 0 ? other : axis + other + 1;
          expectWithin(bends[place]!, (after![other]! - before![other]!) / (2 * step), { abs: 1e-4 }, 'bend');
        }
      }
    }
  });

  it('smooths the crease between two teeth by no more than a fifth of its bend a step', () => {
    const apart = 4;
    const teeth = mended(joined(cutBall(8, 40, [-apart, 0, -8]), cutBall(8, 40, [apart, 0, -8])));
    const signed = createSignedDistance(teeth);
    const step = 0.8;
    const creased = createGapField(signed, boxOf(teeth.mesh.points), { stepMm: step, reachMm: 18 });
    let worst = 0;
    for (let x = -1.5; x <= 1.5; x += 0.0625) worst = Math.max(worst, Math.abs(creased.gapAt(x, 0.2, 7) - signed.at(x, 0.2, 7)));
    // Two slopes of ±½ that meet half way between lattice points: the spline passes 0.191 above, worked out from its weights.
    const bend = (2 * apart) / Math.hypot(apart, 15);
    expect(worst).toBeLessThan(0.2 * bend * step);
    expect(worst).toBeGreaterThan(1e-3);
  });

  it('prepared beforehand measures nothing more where a rim gets to, and changes no gap', () => {
    const prepared = createGapField(distance, boxOf(ball.mesh.points));
    const told: number[] = [];
    prepared.prepare(0, 0, 8, [3, 12], (part) => told.push(part));
    const measured = prepared.measured();
    const random = createRandom(44);
    for (let time = 0; time < 200; time++) {
      const [x, y] = [5 * (2 * random.uniform() - 1), 5 * (2 * random.uniform() - 1)];
      const out = RADIUS + 4 + 7 * random.uniform();
      const z = Math.sqrt(out * out - x * x - y * y) - RADIUS;
      expectWithin(prepared.gapAt(x, y, z), field.gapAt(x, y, z), { abs: 1e-6 }, 'gap');
    }
    expect(prepared.measured()).toBe(measured);
    expect(told[0]).toBeGreaterThanOrEqual(0);
    expect(told.at(-1)).toBeLessThanOrEqual(1);
  });

  it('takes no more room for something scanned far in front, where no rim gets to', () => {
    const far = (mm: number): number => createGapField(distance, { low: [-20, -20, -20], high: [20, 20, mm] }).parts().ready.length;
    expect(far(1e6)).toBe(far(20));
  });

  it('further than its reach, and outside its box, the gap is the plain distance', () => {
    expect(field.gapAt(0, 0, 30)).toBe(distance.at(0, 0, 30));
    expect(field.gapAt(100, 0, 0)).toBe(distance.at(100, 0, 0));
    const measured = field.measured();
    field.gapAt(1, 2, 30);
    expect(field.measured()).toBe(measured);
  });
});

describe('A scan where the jaw stands', () => {
  it('turns and shifts gap, gradient and bends with it', () => {
    const place = { openingMm: 6, forwardMm: -2, hinge: 0.4, armMm: 100 };
    const face = placeScan(field, place);
    const still = placeScan(field, AS_SCANNED);
    const [cos, sin] = [Math.cos(0.4), Math.sin(0.4)];
    const [one, two] = [gapRoom(), gapRoom()];
    const local = [9, -11, 3] as const;
    // Down by the opening and back by the offset, then about the hinge.
    const [y, z] = [local[1] - 6, local[2] - 2 + 100];
    one.point.set([local[0], y * cos - z * sin, y * sin + z * cos - 100]);
    two.point.set(local);
    const warm = new Float64Array(1).fill(NaN);
    face.ask(warm, 0, one);
    still.ask(warm, 0, two);
    expectWithin(one.answer[0]!, two.answer[0]!, { abs: 1e-9 }, 'gap');
    // Along the gradient the gap rises by the step, across it by half the bend times the step squared.
    const out = new Float64Array(9);
    face.writeNormal(one, out, 0);
    face.writeBends(one, out, 3);
    const step = 0.01;
    for (const way of [[1, 0, 0], [0, 1, 0], [0, 0, 1], [0, 0.6, 0.8], [0.6, 0, 0.8]] as const) {
      const foresaw = out[0]! * way[0] + out[1]! * way[1] + out[2]! * way[2];
      const bend =
        out[3]! * way[0] ** 2 + out[6]! * way[1] ** 2 + out[8]! * way[2] ** 2 +
        2 * (out[4]! * way[0] * way[1] + out[5]! * way[0] * way[2] + out[7]! * way[1] * way[2]);
      const there = gapRoom();
      there.point.set(one.point.map((value, axis) => value + step * way[axis]!));
      face.ask(warm, 0, there);
      expectWithin(there.answer[0]!, one.answer[0]! + step * foresaw + (step * step * bend) / 2, { abs: 2e-8 }, 'gap near by');
    }
    expectWithin(face.shiftedFrom(placeScan(field, { ...place, openingMm: 3, forwardMm: 2 })), 5, { abs: 1e-12 }, 'shift');
    expect(face.shiftedFrom(still)).toBeNaN();
  });

  it('bounds the gap from below without looking closely', () => {
    const face = placeScan(field);
    for (const [x, y, z] of [[0, 30, 2], [5, -26, -3], [2, 1, 9]] as const) {
      expect(face.beyondEdge(y, z)).toBeLessThanOrEqual((distance).at(x, y, z));
    }
    expect(face.beyondEdge(30, 0)).toBeGreaterThan(7);
  });
});

/** Ericson 2005, Real-Time Collision Detection, in its plainest form: the plane's foot where it falls inside, else the nearest side. */
function triangleDistance(p: readonly number[], a: readonly number[], b: readonly number[], c: readonly number[]): { distance: number; height: number } {
  const minus = (u: readonly number[], v: readonly number[]): number[] => u.map((value, k) => value - v[k]!);
  const dot = (u: readonly number[], v: readonly number[]): number => u.reduce((sum, value, k) => sum + value * v[k]!, 0);
  const cross = (u: readonly number[], v: readonly number[]): number[] => [u[1]! * v[2]! - u[2]! * v[1]!, u[2]! * v[0]! - u[0]! * v[2]!, u[0]! * v[1]! - u[1]! * v[0]!];
  const normal = cross(minus(b, a), minus(c, a));
  const height = dot(minus(p, a), normal) / Math.hypot(...normal);
  const sides = [[a, b], [b, c], [c, a]] as const;
  if (sides.every(([from, to]) => dot(cross(minus(to, from), minus(p, from)), normal) >= 0)) return { distance: Math.abs(height), height };
  const distance = Math.min(
    ...sides.map(([from, to]) => {
      const along = minus(to, from);
      const part = Math.min(1, Math.max(0, dot(minus(p, from), along) / dot(along, along)));
      return Math.hypot(...minus(p, from.map((value, k) => value + part * along[k]!)));
    }),
  );
  return { distance, height };
}
