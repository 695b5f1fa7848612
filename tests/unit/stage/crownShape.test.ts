import { describe, expect, it } from 'vitest';
import { CROWN_POINTS, CROWN_RINGS, crownShell, crownSpot } from '../../../src/stage/crownShape';
import type { PlacedTooth } from '../../../src/stage/dentition';
import { gumShell, marginAt } from '../../../src/stage/gumShape';
import { STANDING_OUT, drawnFaces, mouths } from './drawnMouth';
import { openEdges, volumeOf } from './solid';

/** What the drawing owes to the model (mm): the rim rests on what is computed, so that is what must be seen. */
const CENTRE_LINE_MM = 0.1;
const FACE_MM = 0.5;
/** The labial face ends where the corner toward the next tooth begins. */
const FACE_PART = 0.8;

function facePoint(tooth: PlacedTooth, part: number, around: number): readonly [number, number, number] {
  const shell = crownSpot(tooth, part, around);
  const base = tooth.face.pointAt(tooth.arcMm + shell.acrossMm * tooth.distal, shell.heightMm);
  const normal = tooth.face.normalAt(tooth.arcMm, tooth.edgeMm + 1);
  const level = Math.hypot(normal[0], normal[2]);
  return [base[0] - (normal[0] / level) * shell.inMm, base[1], base[2] - (normal[2] / level) * shell.inMm];
}

describe.each(mouths)('crowns on the arch: $name', ({ arch }) => {
  const faces = drawnFaces(arch);

  it('lie on the model along each centre line', () => {
    for (const { surface, teeth } of faces) {
      for (const tooth of teeth) {
        for (let part = 0; part <= 1; part += 0.05) {
          const { gapMm } = surface.closest(facePoint(tooth, part, Math.PI / 2));
          expect(Math.abs(gapMm), `${tooth.fdi} at ${part.toFixed(2)} of its height`).toBeLessThanOrEqual(CENTRE_LINE_MM);
        }
      }
    }
  });

  it('stay within half a millimetre of the model over the labial face, and never before it', () => {
    for (const { surface, teeth } of faces) {
      for (const tooth of teeth) {
        for (let part = 0.02; part <= 1; part += 0.07) {
          for (let step = 0; step <= 40; step++) {
            const around = (Math.PI * step) / 40;
            const side = Math.abs(Math.cos(around)) ** 0.86;
            if (side > FACE_PART) continue;
            const { gapMm } = surface.closest(facePoint(tooth, part, around));
            expect(Math.abs(gapMm), `${tooth.fdi} at ${part.toFixed(2)}, ${side.toFixed(2)} to the side`).toBeLessThanOrEqual(FACE_MM);
            expect(gapMm).toBeLessThanOrEqual(CENTRE_LINE_MM);
          }
        }
      }
    }
  });

  it('are closed shells, wound outward, of a tooth’s size', () => {
    for (const { teeth } of faces) {
      for (const tooth of teeth) {
        const shell = crownShell(tooth);
        expect(openEdges(shell.positions, shell.index), String(tooth.fdi)).toBe(0);
        const block = tooth.measures.widthMm * tooth.measures.depthMm * tooth.measures.crownLengthMm;
        const volume = volumeOf(shell.positions, shell.index);
        expect(volume, String(tooth.fdi)).toBeGreaterThan(block * 0.2);
        expect(volume, String(tooth.fdi)).toBeLessThan(block);
      }
    }
  });

  it('have the vertices that the spots say', () => {
    const tooth = faces[0]!.teeth[4]!;
    const shell = crownShell(tooth);
    expect(shell.positions.length).toBe((CROWN_RINGS * CROWN_POINTS + 1) * 3);
    const [x, y, z] = facePoint(tooth, 0, Math.PI / 2);
    const at = (CROWN_POINTS / 4) * 3;
    expect(Math.hypot(shell.positions[at]! - x, shell.positions[at + 1]! - y, shell.positions[at + 2]! - z)).toBeLessThan(1e-5);
  });
});

// A tooth that stands out bends the form so sharply that high up in the gum the moulding surface folds over itself; crowns are
// held to it there all the same, the gum only on plain forms.
describe.each(mouths.filter((mouth) => mouth.name !== STANDING_OUT))('the gum on the arch: $name', ({ arch }) => {
  const faces = drawnFaces(arch);

  it('lies within half a millimetre of the model, is closed, and has a scalloped margin', () => {
    for (const { face, surface, teeth } of faces) {
      const shell = gumShell(face, teeth);
      expect(openEdges(shell.positions, shell.index)).toBe(0);
      expect(volumeOf(shell.positions, shell.index)).toBeGreaterThan(1000);
      for (let vertex = 0; vertex < shell.heights.length; vertex++) {
        // Face rows only: the margin's tuck and the body behind are not the labial side.
        if (shell.heights[vertex]! <= 0.2 || shell.heights[vertex]! > 0.92) continue;
        const point = [shell.positions[vertex * 3]!, shell.positions[vertex * 3 + 1]!, shell.positions[vertex * 3 + 2]!] as const;
        expect(Math.abs(surface.closest(point).gapMm)).toBeLessThanOrEqual(FACE_MM);
      }
      for (let index = 0; index + 1 < teeth.length; index++) {
        const [one, next] = [teeth[index]!, teeth[index + 1]!];
        const between = marginAt(teeth, (one.arcMm + next.arcMm) / 2);
        expect(between, `papilla between ${one.fdi} and ${next.fdi}`).toBeLessThan(Math.min(one.marginMm, next.marginMm) - 1);
      }
    }
  });
});
