/** One scan with all that scanners leave behind in it: each thing is named in words, and the arch that it was cut from is found all the same. */
import { expect, it } from 'vitest';
import { buildArch } from '../../../src/core/arch';
import { createSeatSolver } from '../../../src/core/seat';
import type { Arcs } from '../../../src/core/drawableArcs';
import { foundWords } from '../../../src/notebook/scan/words';
import { createGapField } from '../../../src/scans/gapField';
import { mendScan } from '../../../src/scans/mendScan';
import { type ScanMesh, boxOf } from '../../../src/scans/mesh';
import { createScanDesk } from '../../../src/scans/scanDesk';
import { placeScan } from '../../../src/scans/scannedFace';
import { createSignedDistance } from '../../../src/scans/signedDistance';
import { expectWithin } from '../../support/expectWithin';
import { MADE_JAW } from '../../support/madeScan';
import { scanFile } from '../../support/scanFiles';
import { cutBall, cutFace, joined, turnOver } from '../../support/scannedShapes';
import { alikeLips, flatRim, setupOf } from '../../support/seating';

const { upper } = buildArch({ upper: MADE_JAW, lower: MADE_JAW, jaw: { openingMm: 0, forwardMm: 0, hingeDeg: 0 } });
const USUAL: Arcs = { kind: 'arcs', inclinationDeg: 6.1, crownHeightMm: 10.2, crownRadiusMm: 14.3, gumRadiusMm: 16, gumInclinationDeg: 8 };

/** Without the triangles that have their first corner nearer than this to a place. */
function withHole({ points, triangles }: ScanMesh, at: readonly [number, number, number], radiusMm: number): ScanMesh {
  const isGone = (triangle: number): boolean => Math.hypot(...at.map((value, axis) => points[3 * triangles[3 * triangle]! + axis]! - value)) < radiusMm;
  return { points, triangles: triangles.filter((_, index) => !isGone(Math.floor(index / 3))) };
}

const jaw = cutFace(upper, { arcMm: 44, heights: [0, 20], columns: 180, rows: 60, thickMm: 6, behind: true });

it('holes, turned triangles, an open border, a second shell and a speck: named, and its numbers found to 0.05 mm', async () => {
  // One hole in the gum beside the canine, a smaller one further back; a model's stand as a second shell, behind the teeth.
  const holed = withHole(withHole(jaw, upper.pointAt(-20, 14), 1.5), upper.pointAt(30, 10), 0.8);
  const every = holed.triangles.slice();
  const wrong = every.filter((_, at) => Math.floor(at / 3) % 5 === 0);
  turnOver(wrong);
  let next = 0;
  every.forEach((_, at) => {
    if (Math.floor(at / 3) % 5 === 0) every[at] = wrong[next++]!;
  });
  const scan = joined({ points: holed.points, triangles: every }, cutBall(9, 12, [0, 10, -45]), cutBall(0.4, 4, [0, -20, 20]));
  const desk = createScanDesk();
  const seen = await desk.open(new Blob([scanFile(scan, 'stl').slice()]), 'upper', { width: 480, height: 360 });
  if (seen.kind === 'refused') throw new Error(seen.words);
  const words = foundWords('jaw.stl', seen, 1).join('\n');
  expect(words).toMatch(/triangles looked the wrong way and were turned over/);
  expect(words).toContain('It is in 2 separate parts; all of them are used.');
  expect(words).toContain('One loose speck was left out.');
  expect(words).toContain('It is open at its border');
  expect(words).toMatch(/It has 2 holes, the longest edge 1\d\.\d\smm round\./);
  expect(words).not.toContain('more than two triangles meet');

  const teeth = { right: upper.pointAt(-19, 0), left: upper.pointAt(19, 0), front: upper.pointAt(0, 0) };
  const fit = desk.settle({ jaw: 'upper', mmPerUnit: 1, teeth, usual: USUAL, only: null });
  if (fit.kind === 'refused') throw new Error(fit.words);
  expect(fit.family).toBe('beta');
  for (const [name, truth] of [['widthMm', 61], ['depthMm', 47], ['crownRadiusMm', 15]] as const) {
    expectWithin(fit.numbers.find((one) => one.name === name)!.value, truth, { abs: 0.05 }, name);
  }
}, 60_000);

it('where the rim would rest over a hole there is no seat, and beside it there is', () => {
  const setup = (mesh: ScanMesh): Parameters<typeof createSeatSolver>[0] => {
    const scan = mendScan(mesh)!;
    return setupOf({ upper: { placed: placeScan(createGapField(createSignedDistance(scan), boxOf(scan.mesh.points))) }, lower: null }, flatRim(8.25, 13.6), alikeLips('stiffening'));
  };
  const solver = createSeatSolver(setup(withHole(jaw, upper.pointAt(11, 6), 4)));
  expect(solver.follow(0, 6, 20)).toMatchObject({ found: false, reason: 'off-the-arch' });
  expect(createSeatSolver(setup(jaw)).follow(0, 6, 20)).toMatchObject({ found: true });
}, 60_000);
