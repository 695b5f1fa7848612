import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import type { ArchSpec, PlayerRecord } from '../../../src/core/specs';
import { arches } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';
import { defaultRecord } from '../../support/records';

const travels = [[0, 0], [2, 0], [-1, 3], [0, -4], [3, 2]] as const;
const plain = defaultRecord('trumpet');
// Lips alike: a thicker lower lip tips the seat on the best of spheres.
const withArch = (arch: ArchSpec): PlayerRecord => ({
  ...plain,
  lips: { ...plain.lips, lower: plain.lips.upper },
  arch,
  home: { upMm: 1, rightMm: 0.5 },
  readings: travels.map(([upMm, rightMm], index) => ({ note: `C${index + 2}`, travel: { upMm, rightMm } })),
});
/** A fit to exact points ends at rounding, and the seat at its balance. */
const EXACT_DEG = 1e-6;

describe('the simpler views', () => {
  it('all but the plate are the seat itself on a sphere', () => {
    const { readings, problems } = analyse(withArch({ single: { form: { kind: 'circle', radiusMm: 30 }, profile: { kind: 'arc', radiusMm: 30 } } }));
    expect(problems).toEqual([]);
    for (const { follow, views } of readings) {
      for (const view of [views.sphere, views.normal]) {
        expectWithin(view.elevationDeg, follow.pose.elevationDeg, { abs: EXACT_DEG });
        expectWithin(view.lateralDeg, follow.pose.lateralDeg, { abs: EXACT_DEG });
      }
      expect(views.plate.changeFromHome).toEqual({ elevationDeg: 0, lateralDeg: 0 });
    }
  });

  it('change nothing on a flat plate', () => {
    const { readings } = analyse(withArch({ single: { form: { kind: 'line' }, profile: { kind: 'straight' } } }));
    for (const { views } of readings) {
      for (const view of [views.plate, views.sphere, views.normal]) {
        expectWithin(view.changeFromHome.elevationDeg, 0, { abs: EXACT_DEG });
        expectWithin(view.changeFromHome.lateralDeg, 0, { abs: EXACT_DEG });
      }
    }
  });

  it.each(arches.map(({ id, arch }) => [id, arch] as const))('%s arch: sideways, the fitted normal swings as the seat does to a third', (_, arch) => {
    const { readings } = analyse(withArch(arch));
    const sideways = readings[3]!;
    const seated = sideways.changeFromHome.lateralDeg;
    expect(seated).toBeLessThan(-2);
    expectWithin(sideways.views.normal.changeFromHome.lateralDeg, seated, { rel: 1 / 3 });
    expectWithin(sideways.views.sphere.changeFromHome.lateralDeg, seated, { rel: 1 / 3 });
  });
});
