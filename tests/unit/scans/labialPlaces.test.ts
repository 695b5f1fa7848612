import { expect, it } from 'vitest';
import { buildArch } from '../../../src/core/arch';
import { LABIAL_CHOICES, labialPlaces } from '../../../src/scans/labialPlaces';
import { mendScan } from '../../../src/scans/mendScan';
import { cutFace, joined, turnOver } from '../../support/scannedShapes';

const surface = buildArch({
  single: {
    form: { kind: 'sextic', a: 6e-8, b: 0.022 },
    profile: { kind: 'arcs', inclinationDeg: 6, crownHeightMm: 10, crownRadiusMm: 14, gumRadiusMm: 14, gumInclinationDeg: 0 },
  },
}).upper;
const outside = cutFace(surface, { arcMm: 40, heights: [0, 24], columns: 120, rows: 40, thickMm: 7 });
/** The inner side of the teeth, 7 mm behind, faces the tongue. */
const inside = cutFace(surface, { arcMm: 40, heights: [0.1, 24], columns: 120, rows: 40 });
for (let at = 0; at < inside.points.length; at += 3) {
  const foot = surface.closest([inside.points[at]!, inside.points[at + 1]!, inside.points[at + 2]!]);
  for (let axis = 0; axis < 3; axis++) inside.points[at + axis]! -= 7 * foot.normal[axis]!;
}
turnOver(inside.triangles);

it('takes the labial face between its heights, about as many places as asked, and nothing of the inner side', () => {
  const places = labialPlaces(joined(outside, inside), 1);
  const count = places.length / 3;
  expect(count).toBeGreaterThan(LABIAL_CHOICES.count * 0.9);
  expect(count).toBeLessThan(LABIAL_CHOICES.count * 2);
  let furthest = 0;
  for (let at = 0; at < places.length; at += 3) {
    const foot = surface.closest([places[at]!, places[at + 1]!, places[at + 2]!]);
    expect(Math.abs(foot.gapMm)).toBeLessThan(1e-6);
    expect(foot.heightMm).toBeGreaterThan(0.4);
    furthest = Math.max(furthest, Math.abs(places[at]!));
  }
  // Round to the sides, and not the front alone.
  expect(furthest).toBeGreaterThan(22);
});

it('of a lower jaw, whose gum lies below', () => {
  const lower = mendScan({ points: outside.points.map((place, at) => (at % 3 === 1 ? -place : place)), triangles: outside.triangles })!.mesh;
  expect(labialPlaces(lower, -1).length / 3).toBeGreaterThan(1000);
  expect(labialPlaces(lower, 1)).toHaveLength(0);
});
