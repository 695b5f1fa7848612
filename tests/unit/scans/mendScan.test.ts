import { findNeighbours } from '../../../src/scans/neighbours';
import { describe, expect, it } from 'vitest';
import { type MendedScan, mendScan } from '../../../src/scans/mendScan';
import { type ScanMesh, crossOf } from '../../../src/scans/mesh';
import { expectWithin } from '../../support/expectWithin';
import { cutBall, joined, turnOver } from '../../support/scannedShapes';

const mended = (mesh: ScanMesh): MendedScan => {
  const scan = mendScan(mesh);
  if (scan === null) throw new Error('no triangle left');
  return scan;
};

/** Every triangle with three corners of its own, as an STL holds them. */
const apart = ({ points, triangles }: ScanMesh): ScanMesh => ({
  points: Float64Array.from([...triangles].flatMap((corner) => [...points.subarray(3 * corner, 3 * corner + 3)])),
  triangles: Uint32Array.from(triangles, (_, index) => index),
});

/** Without the triangles of these numbers. */
const without = ({ points, triangles }: ScanMesh, gone: (triangle: number) => boolean): ScanMesh => ({
  points,
  triangles: triangles.filter((_, at) => !gone(Math.floor(at / 3))),
});

/** Part of the triangles whose normals point away from a place. */
function facingAway(mesh: ScanMesh, from: readonly [number, number, number]): number {
  const normal = new Float64Array(3);
  const count = mesh.triangles.length / 3;
  let away = 0;
  for (let triangle = 0; triangle < count; triangle++) {
    crossOf(mesh, triangle, normal);
    const corner = 3 * mesh.triangles[3 * triangle]!;
    const along = [0, 1, 2].reduce((sum, axis) => sum + normal[axis]! * (mesh.points[corner + axis]! - from[axis]!), 0);
    if (along > 0) away++;
  }
  return away / count;
}

const RINGS = 16;
const ball = cutBall(20, RINGS);
/** The triangles of both poles have two corners in one place. */
const COLLAPSED = 4 * RINGS;

describe('A scan put right', () => {
  it('a closed ball of single triangles: welded, closed, one shell, nothing turned', () => {
    const { mesh, report } = mended(apart(ball));
    expect(mesh.points.length / 3).toBe((RINGS - 1) * 2 * RINGS + 2);
    expect(report.trianglesCollapsed).toBe(COLLAPSED);
    expect(report).toMatchObject({ turnedOver: 0, branchedEdges: 0, holes: [], specks: 0, slivers: 0 });
    expect(report.shells).toHaveLength(1);
    expect(report.shells[0]!.closed).toBe(true);
    expectWithin(report.shells[0]!.area, 4 * Math.PI * 400, { rel: 0.02 }, 'area');
  });

  it('some triangles or all of them the wrong way round: turned outward, closed or open', () => {
    for (const open of [false, true]) {
      const whole = open ? without(ball, (triangle) => triangle < 8 * RINGS) : ball;
      for (const which of [1, 2, 3]) {
        const triangles = whole.triangles.slice();
        const wrong = triangles.filter((_, at) => Math.floor(at / 3) % which === 0);
        turnOver(wrong);
        let next = 0;
        triangles.forEach((_, at) => {
          if (Math.floor(at / 3) % which === 0) triangles[at] = wrong[next++]!;
        });
        const { mesh, report } = mended({ points: whole.points, triangles });
        expect(facingAway(mesh, [0, 0, 0]), `every ${which}th`).toBe(1);
        expect(report.turnedOver).toBeGreaterThan(0);
      }
    }
  });

  it('a hole is named with its length, and the border of an open scan', () => {
    const open = without(ball, (triangle) => triangle < 8 * RINGS || triangle === 30 * RINGS);
    const { report } = mended(open);
    expect(report.holes.map((hole) => hole.edges)).toEqual([2 * RINGS, 3]);
    const ring = 20 * Math.sin((2 * Math.PI) / RINGS);
    expectWithin(report.holes[0]!.length, 2 * RINGS * 2 * ring * Math.sin(Math.PI / (2 * RINGS)), { rel: 1e-9 }, 'round the border');
    expect(report.shells[0]!.closed).toBe(false);
  });

  it('several shells are kept, largest first, each turned outward by itself; specks are left out', () => {
    const second = cutBall(10, 12, [60, 0, 0]);
    turnOver(second.triangles);
    const speck = cutBall(0.5, 4, [0, 40, 0]);
    const { mesh, report } = mended(joined(second, speck, ball));
    expect(report.shells.map((shell) => shell.closed)).toEqual([true, true]);
    expect(report.shells[0]!.area).toBeGreaterThan(report.shells[1]!.area);
    expect(report.specks).toBe(1);
    expect([...mesh.points].every((place) => place < 71)).toBe(true);
    expect(mesh.points.filter((place, at) => at % 3 === 1 && place > 30)).toHaveLength(0);
  });

  it('a third triangle on an edge is named, and so is a strip with one side only', () => {
    const fin: ScanMesh = { points: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 1), triangles: Uint32Array.of(0, 1, 2, 1, 0, 3, 0, 1, 4) };
    expect(mended(fin).report.branchedEdges).toBe(1);
    const steps = 40;
    const points: number[] = [];
    const triangles: number[] = [];
    for (let step = 0; step < steps; step++) {
      const turn = (2 * Math.PI * step) / steps;
      for (const side of [-2, 2]) {
        const out = 10 + side * Math.cos(turn / 2);
        points.push(out * Math.cos(turn), out * Math.sin(turn), side * Math.sin(turn / 2));
      }
      const last = step === steps - 1;
      const [a, b, c, d] = last ? [2 * step, 2 * step + 1, 1, 0] : [2 * step, 2 * step + 1, 2 * step + 2, 2 * step + 3];
      triangles.push(a, b, c, b, d, c);
    }
    expect(mended({ points: Float64Array.from(points), triangles: Uint32Array.from(triangles) }).report.branchedEdges).toBeGreaterThan(0);
  });

  it('a fan of a hundred thousand triangles about one corner takes no longer than any others', () => {
    const count = 100_000;
    const triangles = Uint32Array.from({ length: 3 * count }, (_, side) => {
      const triangle = Math.floor(side / 3);
      return side % 3 === 0 ? 0 : 1 + ((triangle + (side % 3) - 1) % count);
    });
    const from = performance.now();
    const across = findNeighbours({ triangles });
    // Strung together by one corner alone it takes a minute.
    expect(performance.now() - from).toBeLessThan(3000);
    expect(across.filter((side) => side < 0)).toHaveLength(count);
    expect(across[2]).toBe(3);
  });

  it('nothing is left of triangles without area', () => {
    expect(mendScan({ points: Float64Array.of(1, 1, 1, 1, 1, 1, 2, 2, 2), triangles: Uint32Array.of(0, 1, 2) })).toBeNull();
    const thin: ScanMesh = { points: Float64Array.of(0, 0, 0, 1, 0, 0, 2, 1e-9, 0, 0, 1, 0), triangles: Uint32Array.of(0, 1, 2, 0, 1, 3) };
    expect(mended(thin).report.slivers).toBe(1);
  });
});
