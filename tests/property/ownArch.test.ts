import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { buildArch } from '../../src/core/arch';
import { FAMILIES } from '../../src/core/ownArch/families';
import { fitArch } from '../../src/core/ownArch/fitArch';
import { MEASURES } from '../../src/core/ownArch/measures';
import { type TwoJaws, ownArchMoves, withMeasures } from '../../src/core/ownArch/ownArch';
import type { ArchMeasureSpec } from '../../src/core/specs';
import { archSchema } from '../../src/records/archSchema';
import { arches } from '../../src/records/library';
import { longer, propertySeed, seedWords } from '../support/seed';

const average = arches[0]!.arch as TwoJaws;

/** Any measures within their ranges, most of them of no mouth, from a micrometre sure to hardly known. */
const measures: fc.Arbitrary<readonly ArchMeasureSpec[]> = fc.tuple(
  ...MEASURES.map(({ name, rangeMm: [min, max] }) =>
    fc.option(
      fc.record({
        name: fc.constant(name),
        mm: fc.double({ min, max, noNaN: true }),
        sdMm: fc.integer({ min: -30, max: 10 }).map((tenth) => 10 ** (tenth / 10)),
        by: fc.constantFrom('ruler' as const, 'caliper' as const),
      }),
      { nil: null },
    )),
).map((all) => all.filter((one) => one !== null));

describe(`whatever was measured ${seedWords}`, () => {
  it('there is an arch that can be kept and built, moved by what is not known of it, or a reason', () => {
    fc.assert(
      fc.property(measures, fc.constantFrom(...FAMILIES.map(({ id }) => id)), (list, family) => {
        const measured = { family, measures: list };
        const made = withMeasures(average, measured);
        if (made.kind === 'not-fitted') {
          expect(['no-value', 'stuck', 'unsure', 'too-many-steps', 'no-mouth']).toContain(made.reason);
          return;
        }
        expect(archSchema.safeParse(made.arch).success).toBe(true);
        buildArch(made.arch);
        const fit = fitArch(measured);
        if (fit.kind !== 'fitted') throw new Error('fitted once, not again');
        for (const { fittedMm, sdMm } of fit.measures) expect(Number.isFinite(fittedMm) && sdMm >= 0).toBe(true);
        for (const { moved } of ownArchMoves(made.arch) ?? []) for (const sds of [-1, 1]) buildArch(moved(made.arch, sds));
      }),
      { seed: propertySeed, numRuns: longer(100) },
    );
  });
});
