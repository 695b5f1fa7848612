/**
 * Random valid records. `wild` ones fill the ranges of the schema, most of them no mouth at all; `mouthlike` ones are what a player
 * could have. Every one passes `parseRecord` (tests/property/wildRecords.test.ts checks that).
 */
import * as fc from 'fast-check';
import type {
  ArchSpec, FormSpec, JawArchSpec, JawSpec, LipsSpec, PlayerRecord, ProfileSpec, ReadingSpec, RimSpec, ToothSpec,
} from '../../src/core/specs';
import { toothSpec } from '../../src/records/library';

/** Even on a scale of a million steps: fc.double draws its exponent first, so that most of its numbers are all but zero. */
const STEPS = 1_000_000;
const number = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: STEPS }).map((step) => (step === STEPS ? max : min + ((max - min) * step) / STEPS));

/** Even on a scale of ratios. */
const ratio = (min: number, max: number): fc.Arbitrary<number> =>
  number(Math.log(min), Math.log(max)).map((value) => Math.min(Math.max(Math.exp(value), min), max));

/** Labial points of a lopsided arch, from the player's right to the left. */
function measuredPoints(halfWidth: readonly [number, number], unevenMm: number): fc.Arbitrary<FormSpec> {
  return fc
    .tuple(
      number(...halfWidth), number(15, 60), number(0.01, 0.03), number(-3, 3),
      fc.array(fc.tuple(number(0.3, 1), number(-unevenMm, unevenMm)), { minLength: 7, maxLength: 15 }),
    )
    .map(([half, depth, bend, shift, steps]) => {
      const total = steps.reduce((sum, [step]) => sum + step, 0);
      let reached = -half;
      const points = [[0, 0] as const, ...steps].map(([step, uneven]): readonly [number, number] => {
        reached += (step / total) * 2 * half;
        const x = reached + shift;
        return [x, -Math.min(depth, bend * reached * reached) * 0.9 - 0.1 * bend * reached * reached + uneven];
      });
      return { kind: 'points', points };
    });
}

export const mouthlikeForm: fc.Arbitrary<FormSpec> = fc.oneof(
  fc.record({ kind: fc.constant('power' as const), widthMm: number(48, 66), depthMm: number(25, 48), exponent: number(0.5, 1) }),
  fc.record({ kind: fc.constant('sextic' as const), a: number(0, 9e-8), b: number(0.014, 0.03) }),
  fc.record({ kind: fc.constant('catenary' as const), widthMm: number(48, 66), depthMm: number(20, 45) }),
  fc.record({ kind: fc.constant('circle' as const), radiusMm: number(20, 45) }),
  fc.constant({ kind: 'line' as const }),
  measuredPoints([24, 34], 0.4),
);

const wildForm: fc.Arbitrary<FormSpec> = fc.oneof(
  fc.record({ kind: fc.constant('power' as const), widthMm: ratio(2, 2000), depthMm: ratio(0.5, 1000), exponent: number(0.5, 2) }),
  fc.record({ kind: fc.constant('sextic' as const), a: fc.oneof(fc.constant(0), ratio(1e-10, 1e-4)), b: fc.oneof(fc.constant(0), ratio(1e-4, 0.25)) }),
  fc.record({ kind: fc.constant('catenary' as const), widthMm: ratio(2, 2000), depthMm: ratio(0.5, 1000) }),
  fc.record({ kind: fc.constant('circle' as const), radiusMm: ratio(2, 100_000) }),
  measuredPoints([10, 80], 6),
  mouthlikeForm,
);

function arcsProfile(crown: fc.Arbitrary<{ inclinationDeg: number; crownHeightMm: number; crownRadiusMm: number; gumRadiusMm: number }>, lowestGumDeg: number) {
  return fc.tuple(crown, number(0, 1)).map(([parts, gum]): ProfileSpec => {
    const middle = Math.sin((parts.inclinationDeg * Math.PI) / 180);
    const least = (parts.crownHeightMm / (2 * (1 - Math.abs(middle)))) * 1.02;
    const crownRadiusMm = Math.max(parts.crownRadiusMm, least);
    const neckDeg = (Math.asin(middle + parts.crownHeightMm / (2 * crownRadiusMm)) * 180) / Math.PI;
    const highest = Math.min(60, neckDeg - 0.01);
    const lowest = Math.min(lowestGumDeg, highest);
    return { kind: 'arcs', ...parts, crownRadiusMm, gumInclinationDeg: lowest + gum * (highest - lowest) };
  });
}

export const mouthlikeProfile: fc.Arbitrary<ProfileSpec> = fc.oneof(
  {
    weight: 3,
    arbitrary: arcsProfile(
      fc.record({ inclinationDeg: number(-8, 14), crownHeightMm: number(7, 12), crownRadiusMm: number(12, 40), gumRadiusMm: number(5, 30) }),
      -2,
    ),
  },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('arc' as const), radiusMm: number(25, 120) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('straight' as const), inclinationDeg: number(-12, 15) }) },
);

const wildProfile: fc.Arbitrary<ProfileSpec> = fc.oneof(
  arcsProfile(
    fc.record({ inclinationDeg: number(-45, 45), crownHeightMm: number(1, 30), crownRadiusMm: ratio(2, 10_000), gumRadiusMm: ratio(0.5, 10_000) }),
    -60,
  ),
  fc.record({ kind: fc.constant('arc' as const), radiusMm: ratio(2, 100_000) }),
  fc.record({ kind: fc.constant('straight' as const), inclinationDeg: number(-60, 60) }),
  fc.constant({ kind: 'straight' as const }),
  mouthlikeProfile,
);

const standing = (quadrants: readonly [number, number]): fc.Arbitrary<readonly ToothSpec[]> =>
  fc.oneof(
    { weight: 3, arbitrary: fc.constant([]) },
    {
      weight: 1,
      arbitrary: fc
        .tuple(fc.constantFrom(...quadrants), fc.integer({ min: 1, max: 3 }), number(-2, 2))
        .map(([quadrant, place, outMm]) => [toothSpec(quadrant * 10 + place, outMm)]),
    },
  );

const jawArch = (form: fc.Arbitrary<FormSpec>, profile: fc.Arbitrary<ProfileSpec>, quadrants: readonly [number, number]): fc.Arbitrary<JawArchSpec> =>
  fc.record({ form, profile, teeth: standing(quadrants) });

function archOf(form: fc.Arbitrary<FormSpec>, profile: fc.Arbitrary<ProfileSpec>, jaw: fc.Arbitrary<JawSpec>): fc.Arbitrary<ArchSpec> {
  return fc.oneof(
    { weight: 1, arbitrary: fc.record({ single: jawArch(form, profile, [1, 2]) }) },
    { weight: 3, arbitrary: fc.record({ upper: jawArch(form, profile, [1, 2]), lower: jawArch(form, profile, [3, 4]), jaw }) },
  );
}

export const mouthlikeArch = archOf(
  mouthlikeForm,
  mouthlikeProfile,
  fc.record({ openingMm: number(2, 14), forwardMm: number(-5, 2), hingeDeg: number(-1, 5) }),
);

const wildArch = archOf(
  wildForm,
  wildProfile,
  fc.record({ openingMm: number(0, 40), forwardMm: number(-30, 30), hingeDeg: number(-10, 45), hingeArmMm: fc.option(number(1, 300), { nil: undefined }) }),
);

/** Inner diameter, rim width, where the high point lies in it, and how much more than needed the contour's radius is (null: flat). */
function rimOf(inner: fc.Arbitrary<number>, width: fc.Arbitrary<number>, place: fc.Arbitrary<number>, round: fc.Arbitrary<number>): fc.Arbitrary<RimSpec> {
  return fc
    .tuple(inner, width, place, fc.option(round, { freq: 4 }))
    .map(([innerDiameterMm, wide, part, rounder]) => {
      const outerDiameterMm = innerDiameterMm + 2 * wide;
      const highPointDiameterMm = Math.min(innerDiameterMm + 2 * wide * part, outerDiameterMm);
      const reach = Math.max(highPointDiameterMm - innerDiameterMm, outerDiameterMm - highPointDiameterMm) / 2;
      return { innerDiameterMm, outerDiameterMm, highPointDiameterMm, contourRadiusMm: rounder === null ? null : Math.max(rounder * reach, 1e-3) };
    });
}

export const mouthlikeRim = rimOf(number(15, 34), number(3.5, 7.5), number(0.25, 0.6), number(1.2, 4));
const wildRim = fc.oneof(mouthlikeRim, rimOf(ratio(0.5, 150), ratio(0.1, 60), number(0, 1), ratio(1.001, 30)));

const lipsOf = (thickness: fc.Arbitrary<number>, modulus: fc.Arbitrary<number>): fc.Arbitrary<LipsSpec> => {
  const lip = fc.record({ thicknessMm: thickness, effectiveModulusKPa: modulus });
  const law = fc.constantFrom('stiffening' as const, 'stiffening' as const, 'linear' as const);
  return fc.oneof(
    fc.record({ upper: lip, lower: lip, law }),
    fc.tuple(lip, law).map(([each, chosen]) => ({ upper: each, lower: each, law: chosen })),
  );
};

export const mouthlikeLips = lipsOf(number(8, 17), number(120, 500));
const wildLips = lipsOf(ratio(0.5, 60), ratio(0.1, 1e6));

/** Where a reading was seen changes nothing that is computed, wherever it points. */
const seen = fc
  .tuple(fc.constantFrom('measuring-1', 'gone'), fc.option(fc.nat(39), { nil: undefined }), fc.array(number(-60, 21_600), { maxLength: 3 }))
  .map(([measuring, source, times]) => {
    const [startS, endS, atS] = times.sort((a, b) => a - b);
    return { measuring, source, startS, endS, atS };
  });

const readingOf = (reachMm: number): fc.Arbitrary<ReadingSpec> =>
  fc
    .tuple(fc.record({ upMm: number(-reachMm, reachMm), rightMm: number(-reachMm, reachMm) }), fc.option(seen))
    .map(([travel, from]) => ({ note: 'F4', travel, ...(from !== null && { from }) }));

function recordOf(parts: {
  readonly arch: fc.Arbitrary<ArchSpec>;
  readonly rim: fc.Arbitrary<RimSpec>;
  readonly lips: fc.Arbitrary<LipsSpec>;
  readonly newtons: fc.Arbitrary<number>;
  readonly reading: fc.Arbitrary<ReadingSpec>;
}): fc.Arbitrary<PlayerRecord> {
  return fc
    .record({
      arch: parts.arch,
      rim: parts.rim,
      lips: parts.lips,
      newtons: parts.newtons,
      share: number(0.3, 0.75),
      by: fc.constantFrom('diameter' as const, 'arc' as const, 'area' as const),
      reading: parts.reading,
      home: fc.option(fc.record({ upMm: number(-6, 6), rightMm: number(-3, 3) })),
    })
    .map(({ arch, rim, lips, newtons, share, by, reading, home }) => ({
      player: { label: 'Random', instrument: 'trumpet' },
      arch, rim, lips,
      force: { newtons },
      upperLipShare: { value: share, by },
      ...(home ? { home } : {}),
      readings: [reading],
    }));
}

export const mouthlikeRecord: fc.Arbitrary<PlayerRecord> = recordOf({
  arch: mouthlikeArch, rim: mouthlikeRim, lips: mouthlikeLips, newtons: number(5, 40), reading: readingOf(5),
});

export const wildRecord: fc.Arbitrary<PlayerRecord> = recordOf({
  arch: wildArch, rim: wildRim, lips: wildLips, newtons: ratio(1e-3, 200), reading: readingOf(60),
});

/** Half of each. */
export const anyRecord: fc.Arbitrary<PlayerRecord> = fc.oneof(mouthlikeRecord, wildRecord);
