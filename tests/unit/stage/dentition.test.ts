import { describe, expect, it } from 'vitest';
import { teeth as table } from '../../../src/records/library';
import { placeTeeth } from '../../../src/stage/dentition';
import { jawFaces } from '../../../src/stage/jawFaces';
import { buildArch } from '../../../src/core/arch';
import { drawnFaces, mouths } from './drawnMouth';

describe.each(mouths)('the row of teeth: $name', ({ arch }) => {
  it('stands in the order of ISO 3950, the player’s right first', () => {
    const [upper, lower] = drawnFaces(arch);
    expect(upper!.teeth.map((tooth) => tooth.fdi)).toEqual([15, 14, 13, 12, 11, 21, 22, 23, 24, 25]);
    expect(lower!.teeth.map((tooth) => tooth.fdi)).toEqual([45, 44, 43, 42, 41, 31, 32, 33, 34, 35]);
  });

  it('has small gaps that differ and no overlaps, and ends within the form', () => {
    for (const { face, teeth } of drawnFaces(arch)) {
      const gaps = teeth.slice(1).map((tooth, index) => {
        const before = teeth[index]!;
        return tooth.arcMm - tooth.measures.widthMm / 2 - (before.arcMm + before.measures.widthMm / 2);
      });
      for (const gap of gaps) {
        expect(gap).toBeGreaterThan(0);
        expect(gap).toBeLessThan(0.3);
      }
      expect(new Set(gaps.map((gap) => gap.toFixed(3))).size).toBeGreaterThan(2);
      const last = teeth[teeth.length - 1]!;
      expect(last.arcMm + last.measures.widthMm / 2).toBeLessThanOrEqual(face.arcLimitMm);
    }
  });
});

it('draws the row smaller where the form is short', () => {
  const short = buildArch({ single: { form: { kind: 'circle', radiusMm: 10 }, profile: { kind: 'straight' } } });
  const face = jawFaces(short)[0]!;
  const placed = placeTeeth(face, table);
  const last = placed[placed.length - 1]!;
  expect(last.arcMm + last.measures.widthMm / 2).toBeLessThanOrEqual(face.arcLimitMm + 1e-9);
  expect(last.measures.widthMm).toBeLessThan(7);
});

it('splits a single surface into an upper and a lower face that meet at the level line', () => {
  const sphere = buildArch({ single: { form: { kind: 'circle', radiusMm: 30 }, profile: { kind: 'arc', radiusMm: 30 } } });
  const [upper, lower] = jawFaces(sphere);
  expect(upper!.pointAt(5, 8)[1]).toBeGreaterThan(0);
  expect(lower!.pointAt(5, 8)[1]).toBe(-upper!.pointAt(5, 8)[1]);
  expect(lower!.pointAt(5, 0).map(Math.abs)).toEqual(upper!.pointAt(5, 0).map(Math.abs));
});

it('names the tooth that a table lacks', () => {
  const face = jawFaces(mouths[0]!.arch)[0]!;
  expect(() => placeTeeth(face, table.filter((row) => !row.fdi.includes(13)))).toThrow(/tooth 13/);
});
