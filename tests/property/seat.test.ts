/** The seat's energy and the seat itself: derivatives, minimum, scaling and mirror on random players. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { analyse, homePlace } from '../../src/core/analyse';
import { HINGE_ARM_MM, buildArch } from '../../src/core/arch';
import { lipLineOffset } from '../../src/core/lipLine';
import { WIDE_SAMPLING, layRimNodes } from '../../src/core/rim';
import { createSeatSolver } from '../../src/core/seat';
import {
  BY_ELEVATION, BY_LATERAL, BY_Z, EE, EL, ENERGY, LEAST_CLEARANCE, LEAST_GAP, LL, ZE, ZL, ZZ, createSeatEnergy,
} from '../../src/core/seatEnergy';
import { frontalPosition } from '../../src/core/frame';
import type { ArchSpec, FormSpec, JawArchSpec, PlayerRecord, ProfileSpec } from '../../src/core/specs';
import { HomeUnseatedError } from '../../src/core/words';
import { expectWithin } from '../support/expectWithin';
import { mouthlikeRecord } from '../support/recordArbitrary';
import { propertySeed, seedWords } from '../support/seed';

const angle = fc.integer({ min: -250, max: 250 }).map((thousandths) => thousandths / 1000);

it(`gradient and Hessian of the energy are those of central differences ${seedWords}`, () => {
  /** Differences over ±1e-5 mm and radians: rounding 1e-16/1e-5 of the energy and (1e-5)² of the third derivative. */
  const STEP = 1e-5;
  const DIFFERENCE_PART = 1e-6;
  let compared = 0;
  fc.assert(
    fc.property(mouthlikeRecord, angle, angle, fc.integer({ min: 50, max: 600 }), (record, elevation, lateral, squeeze) => {
      const arch = buildArch(record.arch);
      const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
      const nodes = layRimNodes(record.rim, lipLineMm, false, WIDE_SAMPLING);
      const energy = createSeatEnergy(arch.upper.placed, arch.lower?.placed ?? null, record.lips, nodes);
      const { value } = energy;
      const home = homePlace(record);
      const { x, y } = frontalPosition(home.upMm, home.rightMm);
      // In until the nearest node is squeezed by up to 60 % of the thinner lip.
      let z = 100;
      const deep = (squeeze / 1000) * Math.min(record.lips.upper.thicknessMm, record.lips.lower.thicknessMm);
      for (let turn = 0; turn < 200; turn++) {
        if (!energy.evaluate(x, y, z, elevation, lateral, true)) return;
        const left = value[LEAST_CLEARANCE]! + deep;
        if (left < 1e-9) break;
        z -= left;
      }
      if (!(value[LEAST_CLEARANCE]! < 0 && value[LEAST_GAP]! > 0.5)) return;
      const at = (dz: number, de: number, dl: number): Float64Array => {
        energy.evaluate(x, y, z + dz, elevation + de, lateral + dl, true);
        return value.slice();
      };
      const here = at(0, 0, 0);
      const radius = record.rim.outerDiameterMm / 2;
      // A node that lifts off within the step has no second derivative there.
      for (let i = 0; i < nodes.count; i++) {
        const lip = nodes.underUpperLip[i] === 1 ? record.lips.upper : record.lips.lower;
        if (Math.abs(energy.gap[i]! - lip.thicknessMm) < 2 * STEP * radius) return;
      }
      const directions = [[1, 0, 0], [0, 1, 0], [0, 0, 1]] as const;
      const first = [BY_Z, BY_ELEVATION, BY_LATERAL];
      const second = [[ZZ, ZE, ZL], [ZE, EE, EL], [ZL, EL, LL]];
      const size = [1, radius, radius];
      // Typical sizes: what all of the load and all of the stiffness would make.
      const load = Math.max(Math.abs(here[BY_Z]!), Math.abs(here[BY_ELEVATION]!) / radius, Math.abs(here[BY_LATERAL]!) / radius);
      const stiffness = Math.max(here[ZZ]!, here[EE]! / radius ** 2, here[LL]! / radius ** 2);
      directions.forEach(([dz, de, dl], axis) => {
        const plus = at(dz * STEP, de * STEP, dl * STEP);
        const minus = at(-dz * STEP, -de * STEP, -dl * STEP);
        expectWithin(here[first[axis]!]!, (plus[ENERGY]! - minus[ENERGY]!) / (2 * STEP), { abs: DIFFERENCE_PART * size[axis]! * (load + 1e-3) }, `gradient ${axis}`);
        for (const [other, by] of first.entries()) {
          const truth = (plus[by]! - minus[by]!) / (2 * STEP);
          // A node that changes its part of the profile within the step bends the difference by its share.
          expectWithin(here[second[axis]![other]!]!, truth, { abs: 20 * DIFFERENCE_PART * size[axis]! * size[other]! * (stiffness + load / radius) }, `Hessian ${axis}${other}`);
        }
      });
      compared++;
    }),
    { seed: propertySeed, numRuns: 300, endOnFailure: true },
  );
  expect(compared).toBeGreaterThan(150);
});

it(`the seat is a minimum: positive definite, and lower than nearby poses ${seedWords}`, () => {
  let seats = 0;
  fc.assert(
    fc.property(mouthlikeRecord, fc.array(fc.tuple(angle, angle, angle), { minLength: 6, maxLength: 6 }), (record, ways) => {
      const arch = buildArch(record.arch);
      const setup = { arch, rim: record.rim, lips: record.lips, lipLineMm: lipLineOffset(record.rim, record.upperLipShare) };
      const solver = createSeatSolver(setup);
      const home = homePlace(record);
      const { x, y } = frontalPosition(home.upMm, home.rightMm);
      const forceN = record.force.newtons;
      const seat = solver.follow(x, y, forceN);
      if (!seat.found) return;
      seats++;
      // The net that the seat was balanced on stays as it was laid.
      const { energy } = solver;
      const radius = record.rim.outerDiameterMm / 2;
      const total = (dz: number, de: number, dl: number): number =>
        energy.evaluate(x, y, seat.z + dz, seat.elevation + de / radius, seat.lateral + dl / radius, true)
          ? energy.value[ENERGY]! + forceN * (seat.z + dz)
          : Infinity;
      const here = total(0, 0, 0);
      const { value } = energy;
      const h = [value[ZZ]!, value[ZE]!, value[ZL]!, value[EE]!, value[EL]!, value[LL]!] as const;
      const minor = h[0] * h[3] - h[1] * h[1];
      const whole = h[0] * (h[3] * h[5] - h[4] * h[4]) - h[1] * (h[1] * h[5] - h[4] * h[2]) + h[2] * (h[1] * h[4] - h[3] * h[2]);
      expect(h[0] > 0 && minor > 0 && whole > 0, `principal minors ${h[0]}, ${minor}, ${whole}`).toBe(true);
      for (const [dz, de, dl] of ways) {
        const long = Math.hypot(dz, de, dl);
        if (long === 0) continue;
        // Two hundredths of a millimetre at the rim: far beyond rounding, well within the basin.
        for (const sign of [1, -1]) {
          const part = (sign * 0.02) / long;
          expect(total(part * dz, part * de, part * dl)).toBeGreaterThan(here);
        }
      }
    }),
    { seed: propertySeed, numRuns: 300, endOnFailure: true },
  );
  expect(seats).toBeGreaterThan(150);
});

/** Analyses, or null where home has no seat. */
function analysed(record: PlayerRecord) {
  try {
    return analyse(record);
  } catch (error) {
    if (error instanceof HomeUnseatedError) return null;
    throw error;
  }
}

function scaledForm(form: FormSpec, k: number): FormSpec {
  switch (form.kind) {
    case 'power':
    case 'catenary':
      return { ...form, widthMm: form.widthMm * k, depthMm: form.depthMm * k };
    case 'sextic':
      return { ...form, a: form.a * k ** -5, b: form.b / k };
    case 'circle':
      return { ...form, radiusMm: form.radiusMm * k };
    case 'points':
      return { ...form, points: form.points.map(([x, z]) => [x * k, z * k] as const) };
    case 'line':
      return form;
  }
}

function scaledProfile(profile: ProfileSpec, k: number): ProfileSpec {
  if (profile.kind === 'straight') return profile;
  if (profile.kind === 'arc') return { ...profile, radiusMm: profile.radiusMm * k };
  return { ...profile, crownHeightMm: profile.crownHeightMm * k, crownRadiusMm: profile.crownRadiusMm * k, gumRadiusMm: profile.gumRadiusMm * k };
}

const scaledJaw = (jaw: JawArchSpec, k: number): JawArchSpec => ({
  form: scaledForm(jaw.form, k),
  profile: scaledProfile(jaw.profile, k),
  teeth: (jaw.teeth ?? []).map((tooth) => ({ ...tooth, outMm: tooth.outMm * k, centreMm: tooth.centreMm * k, widthMm: tooth.widthMm * k })),
});

function scaledArch(arch: ArchSpec, k: number): ArchSpec {
  if ('single' in arch) return { single: scaledJaw(arch.single, k) };
  const { jaw } = arch;
  return {
    upper: scaledJaw(arch.upper, k),
    lower: scaledJaw(arch.lower, k),
    jaw: { openingMm: jaw.openingMm * k, forwardMm: jaw.forwardMm * k, hingeDeg: jaw.hingeDeg, hingeArmMm: (jaw.hingeArmMm ?? HINGE_ARM_MM) * k },
  };
}

/** Every length × k, the force × k², moduli as they are. */
function scaledRecord(record: PlayerRecord, k: number): PlayerRecord {
  const { rim, lips, home } = record;
  const lip = (each: PlayerRecord['lips']['upper']) => ({ ...each, thicknessMm: each.thicknessMm * k });
  return {
    ...record,
    arch: scaledArch(record.arch, k),
    rim: {
      innerDiameterMm: rim.innerDiameterMm * k,
      outerDiameterMm: rim.outerDiameterMm * k,
      highPointDiameterMm: rim.highPointDiameterMm * k,
      contourRadiusMm: rim.contourRadiusMm === null ? null : rim.contourRadiusMm * k,
    },
    lips: { ...lips, upper: lip(lips.upper), lower: lip(lips.lower) },
    force: { newtons: record.force.newtons * k * k },
    ...(home ? { home: { upMm: (home.upMm ?? 0) * k, rightMm: (home.rightMm ?? 0) * k } } : {}),
    readings: record.readings.map((reading) => ({
      ...reading,
      travel: { upMm: reading.travel!.upMm * k, rightMm: reading.travel!.rightMm * k },
    })),
  };
}

it(`scaling leaves angles and shares as they are, and moments go with k³ ${seedWords}`, () => {
  /** One surface has no length of its own but the record's, and the net's last place is settled to less than this. */
  const SINGLE_DEG = 1e-5;
  const SHARE = 1e-4;
  /** The net is laid anew past one distance in any mouth: that moves lift-off, and what the hands supply by this part. */
  const RELAID_PART = 1e-4;
  /** Two jaws hand over within 0.2 mm whatever their size; that is what is left. */
  const BLENDED_DEG = 0.02;
  let compared = 0;
  fc.assert(
    fc.property(mouthlikeRecord, fc.integer({ min: 70, max: 140 }), (record, hundredths) => {
      const k = hundredths / 100;
      const one = analysed(record);
      const two = analysed(scaledRecord(record, k));
      const [reading, other] = [one?.readings[0], two?.readings[0]];
      if (!reading || !other) return;
      compared++;
      const single = 'single' in record.arch && (record.arch.single.teeth ?? []).length === 0;
      // The gum ends at 30 mm in any mouth.
      const reach = Math.abs(reading.follow.pose.rimCentreMm[1]) + 0.7 * record.rim.outerDiameterMm;
      if (reach * Math.max(k, 1) > 28) return;
      const abs = single ? SINGLE_DEG : BLENDED_DEG;
      expectWithin(other.follow.pose.elevationDeg, reading.follow.pose.elevationDeg, { abs }, 'elevation');
      expectWithin(other.follow.pose.lateralDeg, reading.follow.pose.lateralDeg, { abs }, 'lateral');
      if (!single) return;
      const { share, momentNmm } = reading.held.load;
      // A node within rounding of lift-off or of an edge may fall on either side of it.
      expectWithin(other.held.load.share.upper, share.upper, { abs: SHARE }, 'upper share');
      expectWithin(other.held.load.share.right, share.right, { abs: SHARE }, 'right share');
      const moment = Math.hypot(momentNmm.elevation, momentNmm.lateral) + record.force.newtons;
      expectWithin(other.held.load.momentNmm.elevation, momentNmm.elevation * k ** 3, { abs: RELAID_PART * moment * k ** 3 }, 'moment');
      expectWithin(other.held.load.momentNmm.lateral, momentNmm.lateral * k ** 3, { abs: RELAID_PART * moment * k ** 3 }, 'moment');
    }),
    { seed: propertySeed, numRuns: 120, endOnFailure: true },
  );
  expect(compared).toBeGreaterThan(40);
});

const mirroredForm = (form: FormSpec): FormSpec =>
  form.kind === 'points' ? { kind: 'points', points: form.points.map(([x, z]) => [-x, z] as const).reverse() } : form;
/** Right and left quadrants change places. */
const otherSide = (fdi: number): number => ({ 1: 20, 2: 10, 3: 40, 4: 30 })[Math.floor(fdi / 10)]! + (fdi % 10);
const mirroredJaw = (jaw: JawArchSpec): JawArchSpec => ({
  form: mirroredForm(jaw.form),
  profile: jaw.profile,
  teeth: (jaw.teeth ?? []).map((tooth) => ({ ...tooth, fdi: otherSide(tooth.fdi), centreMm: -tooth.centreMm })),
});

it(`in a mirror x, right and left, and the lateral moment change sign ${seedWords}`, () => {
  /** Rounding carried through the search; points' splines are summed from the other end. */
  const MIRROR_PART = 1e-6;
  let compared = 0;
  fc.assert(
    fc.property(mouthlikeRecord, (record) => {
      const { arch, home } = record;
      const mirrored: PlayerRecord = {
        ...record,
        arch: 'single' in arch ? { single: mirroredJaw(arch.single) } : { ...arch, upper: mirroredJaw(arch.upper), lower: mirroredJaw(arch.lower) },
        ...(home ? { home: { ...home, rightMm: -(home.rightMm ?? 0) } } : {}),
        readings: record.readings.map((reading) => ({ ...reading, travel: { ...reading.travel!, rightMm: -reading.travel!.rightMm } })),
      };
      const [one, two] = [analysed(record), analysed(mirrored)];
      expect(two === null).toBe(one === null);
      expect(two?.readings.length).toBe(one?.readings.length);
      const [reading, other] = [one?.readings[0], two?.readings[0]];
      if (!reading || !other) return;
      compared++;
      const same = (a: number, b: number, what: string): void => expectWithin(a, b, { abs: MIRROR_PART, rel: MIRROR_PART }, what);
      same(other.follow.pose.elevationDeg, reading.follow.pose.elevationDeg, 'elevation');
      same(other.follow.pose.lateralDeg, -reading.follow.pose.lateralDeg, 'lateral');
      same(other.held.load.share.right, reading.held.load.share.left, 'right share');
      same(other.held.load.momentNmm.elevation, reading.held.load.momentNmm.elevation, 'moment, elevation');
      same(other.held.load.momentNmm.lateral, -reading.held.load.momentNmm.lateral, 'moment, lateral');
    }),
    { seed: propertySeed, numRuns: 120, endOnFailure: true },
  );
  expect(compared).toBeGreaterThan(40);
});
