/**
 * A seat beside a standing tooth once depended on where its search began: the warm start kept a foot in the hollow of the tooth's flank that was
 * not the nearest, and a mouth and its mirror image differed by 0.008°.
 */
import { it } from 'vitest';
import { buildArch } from '../../src/core/arch';
import { toDegrees } from '../../src/core/frame';
import { lipLineOffset } from '../../src/core/lipLine';
import { createSeatSolver } from '../../src/core/seat';
import type { ArchSpec, LipsSpec, RimSpec } from '../../src/core/specs';
import { expectWithin } from '../support/expectWithin';
import { found } from '../support/seating';

const archSpec: ArchSpec = {
  upper: {
    form: { kind: 'sextic', a: 1.17e-12, b: 0.018046752 },
    profile: {
      kind: 'arcs', inclinationDeg: 3.47663, crownHeightMm: 7.753845, crownRadiusMm: 12.000308, gumRadiusMm: 10.735225, gumInclinationDeg: 4.680098,
    },
    teeth: [{ fdi: 21, outMm: 0.66122, centreMm: 4.25, widthMm: 8.5 }],
  },
  lower: { form: { kind: 'line' }, profile: { kind: 'arc', radiusMm: 53.79773 } },
  jaw: { openingMm: 10.01426, forwardMm: -4.169023, hingeDeg: -0.999958 },
};
const rim: RimSpec = { innerDiameterMm: 18.723411, outerDiameterMm: 32.796555, highPointDiameterMm: 27.16721859, contourRadiusMm: null };
const lips: LipsSpec = {
  upper: { thicknessMm: 13.439123, effectiveModulusKPa: 499.99734 },
  lower: { thicknessMm: 8.000126, effectiveModulusKPa: 339.93564 },
  law: 'linear',
};
/** The answer owes no more than this to its start, degrees. */
const SAME_DEG = 1e-6;

it('a warm and a cold search beside a standing tooth find the same seat', () => {
  const solver = createSeatSolver({ arch: buildArch(archSpec), rim, lips, lipLineMm: lipLineOffset(rim, { value: 0.4052658, by: 'diameter' }) });
  const [x, y, forceN] = [5.060262, -0.769684, 39.999825];
  const cold = found(solver.follow(x, y, forceN));
  for (const [startX, startY] of [[2.999952, 3.701316], [8, -3], [-4, 0]] as const) {
    const near = found(solver.follow(startX, startY, forceN));
    const warm = found(solver.follow(x, y, forceN, near));
    expectWithin(toDegrees(warm.elevation), toDegrees(cold.elevation), { abs: SAME_DEG }, `elevation from ${startX}, ${startY}`);
    expectWithin(toDegrees(warm.lateral), toDegrees(cold.lateral), { abs: SAME_DEG }, `lateral from ${startX}, ${startY}`);
  }
});
