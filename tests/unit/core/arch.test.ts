import { describe, expect, it } from 'vitest';
import { HINGE_ARM_MM, JAW_BLEND_MM, blendedMinimum, buildArch, moveJaw } from '../../../src/core/arch';
import type { ArchSpec, JawArchSpec } from '../../../src/core/specs';
import { length, subtract } from '../../../src/core/vector';
import { arches } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';

const average = arches[0]!.arch;
if ('single' in average) throw new Error('the average arch has two jaws');
const standing = { openingMm: 0, forwardMm: 0, hingeDeg: 0 };

describe('the lower jaw', () => {
  /** Side of the published triangle condyle–condyle–incisal point, 4 in (Bonwill; value from memory); the arc of 1° on it is 1.773 mm. */
  it('turned by 1° about the hinge moves its edge 1.773 mm, down and a little back', () => {
    expect(HINGE_ARM_MM).toBe(101.6);
    const before = buildArch(average, standing).lower!.pointAt(0, 0);
    const after = buildArch(average, { ...standing, hingeDeg: 1 }).lower!.pointAt(0, 0);
    // The arc; the chord is shorter by 4 parts in 10⁵.
    expectWithin(length(subtract(after, before)), 1.773, { abs: 0.0006 });
    expect(after[1]).toBeLessThan(before[1]);
    expect(after[2]).toBeLessThan(before[2]);
    expect(Math.abs(after[1] - before[1])).toBeGreaterThan(50 * Math.abs(after[2] - before[2]));
  });

  it('opens downward, comes forward, and keeps its shape wherever it stands', () => {
    const { lower } = buildArch(average, { openingMm: 7, forwardMm: -2, hingeDeg: 0 });
    expectWithin(length(subtract(lower!.pointAt(0, 0), [0, -7, -2])), 0, { abs: 1e-13 });
    const turned = buildArch(average, { openingMm: 7, forwardMm: -2, hingeDeg: 4, hingeArmMm: 90 }).lower!;
    for (const [[s1, h1], [s2, h2]] of [[[0, 0], [8, 5]], [[-12, 3], [4, 20]]] as const) {
      expectWithin(length(subtract(turned.pointAt(s1, h1), turned.pointAt(s2, h2))), length(subtract(lower!.pointAt(s1, h1), lower!.pointAt(s2, h2))), { abs: 1e-12 });
    }
  });

  it('moved is the jaw built there', () => {
    const jaw = { openingMm: 9, forwardMm: -3, hingeDeg: 2 };
    const moved = moveJaw(buildArch(average), jaw);
    expect(moved.jaw).toEqual(jaw);
    expect(moved.lower!.pointAt(5, 4)).toEqual(buildArch(average, jaw).lower!.pointAt(5, 4));
    expect(moved.upper.pointAt(5, 4)).toEqual(buildArch(average).upper.pointAt(5, 4));
  });

  it('gum end further back than the edge is a + inclination in both jaws', () => {
    const inclined: JawArchSpec = { form: { kind: 'line' }, profile: { kind: 'straight', inclinationDeg: 10 } };
    const arch = buildArch({ upper: inclined, lower: inclined, jaw: standing });
    expect(arch.upper.pointAt(0, 8)[2]).toBeLessThan(0);
    expect(arch.lower!.pointAt(0, 8)[2]).toBeLessThan(0);
    expect(arch.upper.pointAt(0, 8)[1]).toBe(8);
    expect(arch.lower!.pointAt(0, 8)[1]).toBe(-8);
  });
});

describe('the gap', () => {
  it('is positive beyond the edge, whichever side of the face the point is on, and negative only inside a tooth', () => {
    const { upper } = buildArch(average);
    expectWithin(upper.closest([0, -3, -4]).gapMm, 5, { abs: 1e-12 });
    expect(upper.closest([0, -3, -4]).interior).toBe(false);
    expect(upper.closest([0, 4, -2]).gapMm).toBeLessThan(0);
    expectWithin(upper.closest([0, 40, 0]).gapMm, length(subtract([0, 40, 0], upper.pointAt(0, 30))), { abs: 1e-9 });
  });

  it('hands over from jaw to jaw smoothly: the smaller where they differ by 0.2 mm, at most 3/16 of that less in between', () => {
    expect(blendedMinimum(1, 1 + JAW_BLEND_MM)).toBe(1);
    expect(blendedMinimum(3, 1)).toBe(1);
    expectWithin(blendedMinimum(1, 1), 1 - (3 / 16) * JAW_BLEND_MM, { abs: 1e-15 });
    const step = 1e-4;
    const slope = (d: number): number => (blendedMinimum(0, d + step) - blendedMinimum(0, d - step)) / (2 * step);
    expectWithin(slope(JAW_BLEND_MM - step), 0, { abs: 1e-5 });
    expectWithin(slope(-JAW_BLEND_MM + step), 1, { abs: 1e-5 });
    expectWithin(slope(0), 0.5, { abs: 1e-9 });
    for (let d = -0.3; d < 0.3; d += 0.01) expect(blendedMinimum(0, d)).toBeLessThanOrEqual(Math.min(0, d) + 1e-15);
  });
});

it('numbers that make no arch are refused with field, value and what is allowed', () => {
  const bad = (profile: JawArchSpec['profile']): ArchSpec => ({ ...average, upper: { ...average.upper, profile } });
  const arcs = { kind: 'arcs' as const, inclinationDeg: 0, crownHeightMm: 10, crownRadiusMm: 4, gumRadiusMm: 10, gumInclinationDeg: 0 };
  expect(() => buildArch(bad(arcs))).toThrow('arch.upper.profile.crownRadiusMm 4: allowed is');
  expect(() => buildArch(bad({ ...arcs, crownRadiusMm: 14, gumInclinationDeg: 50 }))).toThrow('arch.upper.profile.gumInclinationDeg 50: allowed is');
});
