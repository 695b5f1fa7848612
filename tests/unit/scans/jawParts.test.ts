import { expect, test } from 'vitest';
import { createGapField } from '../../../src/scans/gapField';
import { buffersOf, fieldOf, jawParts } from '../../../src/scans/jawParts';
import { mendScan } from '../../../src/scans/mendScan';
import { boxOf } from '../../../src/scans/mesh';
import { createSignedDistance } from '../../../src/scans/signedDistance';
import { cutBall } from '../../support/scannedShapes';

test('a jaw handed to another thread answers as it did, measured beforehand or not, and shares nothing with the first', () => {
  const { mesh, across } = mendScan(cutBall(22, 40, [0, 0, -22]))!;
  const distance = createSignedDistance({ mesh, across });
  const field = createGapField(distance, boxOf(mesh.points));
  field.prepare(0, 0, 6, [4, 10]);
  const parts = jawParts(mesh, across, distance, field);
  const sent = structuredClone(parts, { transfer: buffersOf(parts) });
  expect(parts.lattice.coefficients.length).toBe(0);
  const received = fieldOf(sent);
  const places: readonly (readonly [number, number, number])[] = [[0, 0, 6], [3, -2, 7], [0, 0, 40], [25, 3, -10], [14, 14, 2]];
  for (const place of places) expect(received.gapAt(...place)).toBe(field.gapAt(...place));
  // Only what had not been measured beforehand was measured now; on both sides the same.
  expect(received.measured()).toBeGreaterThan(0);
  expect(received.slopesAt(3, -2, 7).bends).toEqual(field.slopesAt(3, -2, 7).bends);
  expect(fieldOf(structuredClone(jawParts(mesh, across, distance, field))).measured()).toBe(0);
});
