/**
 * The seat against answers known in closed form: by symmetry on sphere, cylinder, torus and plate, and a rigid annulus on an elastic
 * foundation, which a flat rim on a flat plate under the linear law is.
 */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/core/analyse';
import { axisFromRadians, toDegrees, toRadians } from '../../src/core/frame';
import { RING_AZIMUTHS } from '../../src/core/load';
import { arches, rims, toothSpec } from '../../src/records/library';
import { demoPlayers } from '../support/demos';
import type { FormSpec, LipsSpec, PlayerRecord, ProfileSpec, ReadingSpec, RimSpec } from '../../src/core/specs';
import { type Vec3, cross, length, normalize } from '../../src/core/vector';
import { expectWithin } from '../support/expectWithin';
import { alikeLips, flatRim, seating, setupOf } from '../support/seating';
import { singleArch } from '../support/surfaces';

/** Moments are balanced to 1e-10 of F × radius, and the rim's stiffness turns that into at most this, radians. */
const AXIS_RADIANS = 1e-9;
/** Where force and moment are exact sums (linear law, all of the rim in contact), rounding and the solver's balance are left. */
const BALANCE_PART = 1e-9;
/** Where a part of the rim has lifted off, the net is laid anew only when the pose has moved by 1e-3 mm: 1e-6°, in radians. */
const LIFT_OFF_RADIANS = 1.7e-8;
/** Three Gauss points along a ray, in r²: this is what they miss of a moment ∫ r·r dr that is not a polynomial in r². */
const RADIAL_PART = 1e-5;
const ROUNDING = 1e-12;

const rimOf = (id: string): RimSpec => {
  const model = rims.find((rim) => rim.id === id);
  if (!model) throw new Error(id);
  return model.rim;
};

/** Elementary geometry: a body turned about its centre (or axis) is the same body, so the seat turns along. */
describe('seats known by symmetry', () => {
  const laws = ['stiffening', 'linear'] as const;
  const sphere = (radiusMm: number) => singleArch({ kind: 'circle', radiusMm }, { kind: 'arc', radiusMm });

  it.each([
    ['trumpet', 24], ['horn', 24], ['tenor-trombone', 36], ['tuba', 40], ['trumpet', 100],
  ] as const)('%s rim on a sphere of %d mm: the axis runs from the centre through the rim’s centre', (rimId, radiusMm) => {
    for (const law of laws) {
      const solver = seating(setupOf(sphere(radiusMm), rimOf(rimId), alikeLips(law, 12, 400)));
      for (const [x, y] of [[0, 0], [3, 0], [0, -4], [5, 6], [-8, 2], [1.5, -9], [-6, -7.5]] as const) {
        const { seat, load } = solver.follow(x, y, 20);
        const radial = normalize([x, y, seat.z + radiusMm]);
        const touchesAll = load.contactFraction > 1 - ROUNDING;
        expectWithin(length(cross(radial, axisFromRadians(seat.elevation, seat.lateral))), 0, { abs: touchesAll ? AXIS_RADIANS : LIFT_OFF_RADIANS }, `${x}, ${y}, ${law}, contact ${load.contactFraction}`);
        // The load is the same all round: a tilt of AXIS_RADIANS is 2e-8 mm at the edge, and a lip squeezed hard is some tenths thick.
        const ring = [...load.ringPressureKPa];
        expectWithin(Math.max(...ring), Math.min(...ring), { rel: 1e-7 });
      }
    }
  });

  it('a thin flat rim on a sphere stands √((R + gap)² − r²) from its centre', () => {
    const [radiusMm, r] = [30, 11];
    const rim = flatRim(r - 0.01, r + 0.01);
    const lips = alikeLips('stiffening');
    const area = Math.PI * ((r + 0.01) ** 2 - (r - 0.01) ** 2);
    const forceN = 0.5;
    const { seat } = seating(setupOf(sphere(radiusMm), rim, lips)).follow(0, 0, forceN);
    // p = E(t/g − 1) with p·n_z·A = F and n_z = h/(R + g): solved for g by bisection.
    let [low, high] = [1e-3, 12];
    for (let turn = 0; turn < 100; turn++) {
      const g = (low + high) / 2;
      const h = Math.sqrt((radiusMm + g) ** 2 - r * r);
      if (0.2 * (12 / g - 1) * area * (h / (radiusMm + g)) > forceN) low = g;
      else high = g;
    }
    // The rim is 0.02 mm wide, symmetric about r: what is left is of the order of (0.02/r)².
    expectWithin(seat.z + radiusMm, Math.sqrt((radiusMm + low) ** 2 - r * r), { abs: 1e-5 });
  });

  it('upright cylinder: the axis points from the cylinder’s axis, level', () => {
    for (const law of laws) {
      const solver = seating(setupOf(singleArch({ kind: 'circle', radiusMm: 26 }), rimOf('trumpet'), alikeLips(law, 12, 400)));
      for (const [x, y] of [[0, 3], [4, 0], [-7, 11], [9, -2]] as const) {
        const { seat } = solver.follow(x, y, 15);
        expectWithin(seat.elevation, 0, { abs: AXIS_RADIANS });
        expectWithin(seat.lateral, Math.atan2(-x, seat.z + 26), { abs: AXIS_RADIANS });
      }
    }
  });

  it('lying cylinder: the same, up and down', () => {
    for (const law of laws) {
      const solver = seating(setupOf(singleArch({ kind: 'line' }, { kind: 'arc', radiusMm: 40 }), rimOf('trumpet'), alikeLips(law, 12, 400)));
      for (const [x, y] of [[3, 0], [0, 4], [11, -7], [-2, 9]] as const) {
        const { seat } = solver.follow(x, y, 15);
        expectWithin(seat.lateral, 0, { abs: AXIS_RADIANS });
        expectWithin(seat.elevation, Math.atan2(y, seat.z + 40), { abs: AXIS_RADIANS });
      }
    }
  });

  it('torus: in each of its two planes of symmetry the axis stays in the plane', () => {
    const arch = singleArch({ kind: 'circle', radiusMm: 26 }, { kind: 'arc', radiusMm: 60 });
    const solver = seating(setupOf(arch, rimOf('tenor-trombone'), alikeLips('stiffening')));
    for (const x of [-8, -3, 0, 5]) {
      const { seat } = solver.follow(x, 0, 20);
      expectWithin(seat.elevation, 0, { abs: AXIS_RADIANS });
      expectWithin(seat.lateral, Math.atan2(-x, seat.z + 26), { abs: AXIS_RADIANS });
    }
    for (const y of [-6, 4, 9]) {
      const { seat, load } = solver.follow(0, y, 20);
      expectWithin(seat.lateral, 0, { abs: AXIS_RADIANS });
      expect(Math.sign(seat.elevation)).toBe(Math.sign(y));
      expectWithin(load.share.right, 0.5, { abs: 1e-9 });
    }
  });

  it('flat plate: square to it wherever the rim stands, and as deep as the law says', () => {
    const rim = flatRim(8.25, 13.5);
    const area = Math.PI * (13.5 ** 2 - 8.25 ** 2);
    const strain = 20 / (0.2 * area); // F/(A·E)
    for (const [law, gap] of [['linear', 12 * (1 - strain)], ['stiffening', 12 / (1 + strain)]] as const) {
      const solver = seating(setupOf(singleArch({ kind: 'line' }), rim, alikeLips(law)));
      for (const [x, y] of [[0, 0], [14, -9]] as const) {
        const { seat, load } = solver.follow(x, y, 20);
        expectWithin(seat.z, gap, { rel: BALANCE_PART });
        expectWithin(seat.elevation, 0, { abs: AXIS_RADIANS });
        expectWithin(seat.lateral, 0, { abs: AXIS_RADIANS });
        expectWithin(load.peakOverMeanPressure, 1, { rel: 1e-8 });
        expectWithin(load.contactFraction, 1, { abs: ROUNDING });
      }
    }
  });

  it('an inclined plate: the horn takes the plate’s inclination', () => {
    const arch = singleArch({ kind: 'line' }, { kind: 'straight', inclinationDeg: 13 });
    const { seat } = seating(setupOf(arch, rimOf('trumpet'), alikeLips('stiffening'))).follow(2, 5, 20);
    expectWithin(seat.elevation, toRadians(13), { abs: AXIS_RADIANS });
    expectWithin(seat.lateral, 0, { abs: AXIS_RADIANS });
  });
});

/** A mouth in a mirror has its seats in the mirror (elementary geometry; docs/model.md, "Exactly"). */
describe('mirror', () => {
  /** Rounding, carried through the same steps of the search in mirror order. */
  const MIRROR_PART = 1e-8;
  /** The simpler views are fitted to points laid by arc length, and that is summed to 1e-6 mm across the table's pieces, degrees. */
  const VIEW_DEG = 1e-5;
  const average = arches[0]!.arch;
  if ('single' in average) throw new Error('the average arch has two jaws');
  const lopsided = [
    [-30, -33], [-24, -17], [-17, -7.6], [-11, -2.6], [-5, -0.7], [0, 0.1], [6, -1.1], [12, -3.9], [18, -8.4], [25, -17.5], [31, -34],
  ] as const;
  const mirrorForm = (form: FormSpec): FormSpec =>
    form.kind === 'points' ? { kind: 'points', points: form.points.map(([x, z]) => [-x, z] as const).reverse() } : form;
  const mirrorTravel = (reading: ReadingSpec): ReadingSpec => ({
    ...reading,
    travel: { ...reading.travel!, rightMm: -reading.travel!.rightMm },
  });

  const player = demoPlayers[1]!.record;
  const withTooth: PlayerRecord = {
    ...player,
    arch: { ...average, upper: { ...average.upper, teeth: [toothSpec(12, 1.2)] }, lower: { ...average.lower, teeth: [toothSpec(31, -0.8)] } },
  };
  const toothMirrored: PlayerRecord = {
    ...player,
    arch: { ...average, upper: { ...average.upper, teeth: [toothSpec(22, 1.2)] }, lower: { ...average.lower, teeth: [toothSpec(41, -0.8)] } },
  };
  const measured: PlayerRecord = { ...player, arch: { ...average, upper: { ...average.upper, form: { kind: 'points', points: lopsided } } } };
  const measuredMirrored: PlayerRecord = {
    ...player,
    arch: { ...average, upper: { ...average.upper, form: mirrorForm({ kind: 'points', points: lopsided }) } },
  };

  it.each([
    ['a standing and a sunk tooth', withTooth, toothMirrored],
    ['a form through measured points', measured, measuredMirrored],
    ['an even mouth', player, player],
  ])('%s', (_, record, mirrored) => {
    const readings: ReadingSpec[] = [
      { note: 'F3', travel: { upMm: 0, rightMm: 0 } },
      { note: 'A3', travel: { upMm: 2, rightMm: 3 } },
      { note: 'C4', travel: { upMm: -2.5, rightMm: 1 } },
      { note: 'F4', travel: { upMm: 0.5, rightMm: -4 } },
    ];
    const home = { ...record.home, rightMm: 0.7 };
    const one = analyse({ ...record, home, readings });
    const two = analyse({ ...mirrored, home: { ...home, rightMm: -0.7 }, readings: readings.map(mirrorTravel) });
    expect(one.problems).toEqual([]);
    expect(one.readings.some((reading) => Math.abs(reading.follow.pose.lateralDeg) > 1)).toBe(true);
    one.readings.forEach((reading, index) => {
      const other = two.readings[index]!;
      const same = (a: number, b: number, what: string): void => expectWithin(a, b, { abs: MIRROR_PART, rel: MIRROR_PART }, what);
      same(reading.follow.pose.elevationDeg, other.follow.pose.elevationDeg, 'elevation');
      same(reading.follow.pose.lateralDeg, -other.follow.pose.lateralDeg, 'lateral');
      same(reading.follow.pose.rimCentreMm[0], -other.follow.pose.rimCentreMm[0], 'x');
      same(reading.follow.pose.rimCentreMm[2], other.follow.pose.rimCentreMm[2], 'z');
      for (const question of ['follow', 'held'] as const) {
        const a = reading[question].load;
        const b = other[question].load;
        same(a.share.upper, b.share.upper, 'upper share');
        same(a.share.right, b.share.left, 'right share');
        same(a.lipShare.upper, b.lipShare.upper, 'lip share');
        same(a.momentNmm.elevation, b.momentNmm.elevation, 'moment, elevation');
        same(a.momentNmm.lateral, -b.momentNmm.lateral, 'moment, lateral');
        a.ringPressureKPa.forEach((pressure, azimuth) => {
          const across = (RING_AZIMUTHS / 2 - azimuth + RING_AZIMUTHS) % RING_AZIMUTHS;
          same(pressure, b.ringPressureKPa[across]!, `ring ${azimuth}`);
        });
      }
      for (const view of ['plate', 'sphere', 'normal'] as const) {
        expectWithin(reading.views[view].elevationDeg, other.views[view].elevationDeg, { abs: VIEW_DEG }, `${view}, elevation`);
        expectWithin(reading.views[view].lateralDeg, -other.views[view].lateralDeg, { abs: VIEW_DEG }, `${view}, lateral`);
      }
    });
  });
});

/**
 * A rigid annulus on an elastic (Winkler) foundation: p = F/A + F·e·y/I, no lift-off up to e = (ro² + ri²)/(4ro) — the formulas for an
 * eccentrically loaded footing (read). Our tilt φ gives a pressure slope k·sin φ and a moment k·I·sin φ·cos φ (docs/model.md).
 */
describe('flat rim on a flat plate under the linear law', () => {
  const thickness = 20;
  const plate = singleArch({ kind: 'line' });
  const forceN = 20;
  // ri, ro, A, I, kern, as in the table of typical rims (worked out).
  const table = [
    ['trumpet', 8.25, 13.5, 358.7306, 22448.689, 4.63542, 0.0563911],
    ['horn', 8.75, 12.5, 250.3457, 14570.9, 4.65625, 0.0587108],
    ['trombone', 13, 19.5, 663.6614, 91129.013, 7.04167, 0.0381721],
    ['tuba', 16.25, 23, 832.3257, 165021.58, 8.62024, 0.031818],
  ] as const;
  const stiffness = 0.02; // N/mm³
  const lips = alikeLips('linear', thickness, stiffness * thickness * 1000);

  it.each(table)('%s: pressure F/A + F·e·y/I, shares 1/2 + e·Q/I, moment F·e', (_name, ri, ro, area, inertia, kern, sharePerMm) => {
    const solver = seating(setupOf(plate, flatRim(ri, ro), lips));
    const meanRadius = ((2 / 3) * (ro ** 3 - ri ** 3)) / (ro ** 2 - ri ** 2);
    const exactArea = Math.PI * (ro ** 2 - ri ** 2);
    const exactInertia = (Math.PI / 4) * (ro ** 4 - ri ** 4);
    expectWithin(exactArea, area, { rel: 5e-7 });
    expectWithin(exactInertia, inertia, { rel: 5e-7 });
    for (const e of [0, 1, 2, -2, 0.99 * kern]) {
      const sine = (forceN * e) / (stiffness * exactInertia);
      const tilt = Math.asin(sine);
      for (const upright of [true, false]) {
        const { seat, load } = solver.held(0, 0, forceN, upright ? tilt : 0, upright ? 0 : tilt);
        const [moment, other] = upright
          ? [load.momentNmm.elevation, load.momentNmm.lateral]
          : [load.momentNmm.lateral, load.momentNmm.elevation];
        expectWithin(moment / Math.cos(tilt), forceN * e, { abs: forceN * ro * BALANCE_PART }, 'moment');
        expectWithin(other, 0, { abs: forceN * ro * BALANCE_PART }, 'moment across');
        expectWithin(thickness - seat.z, forceN / (stiffness * exactArea), { rel: BALANCE_PART }, 'settlement');
        const [near, far] = upright ? [load.share.upper, load.share.lower] : [load.share.right, load.share.left];
        expectWithin(near, 0.5 + e * sharePerMm, { abs: 1e-6 }, 'share'); // the table prints seven digits
        expectWithin(near + far, 1, { abs: 1e-12 });
        const toward = upright ? RING_AZIMUTHS / 4 : RING_AZIMUTHS / 2;
        for (const [azimuth, side] of [[toward, 1], [(toward + RING_AZIMUTHS / 2) % RING_AZIMUTHS, -1], [(toward + RING_AZIMUTHS / 4) % RING_AZIMUTHS, 0]] as const) {
          const truth = 1000 * (forceN / exactArea + (side * forceN * e * meanRadius) / exactInertia);
          expectWithin(load.ringPressureKPa[azimuth]!, truth, { rel: 1e-8, abs: 1e-8 }, `radial mean at ${azimuth}`);
        }
        expectWithin(load.contactFraction, 1, { abs: ROUNDING });
      }
    }
  });

  it.each(table)('%s: at the kern %d/%d the far edge is about to lift', (_name, ri, ro, _area, _inertia, kern) => {
    const solver = seating(setupOf(plate, flatRim(ri, ro), lips));
    const inertia = (Math.PI / 4) * (ro ** 4 - ri ** 4);
    const e = (ro ** 2 + ri ** 2) / (4 * ro);
    expectWithin(e, kern, { abs: 5e-6 });
    const tilt = Math.asin((forceN * e) / (stiffness * inertia));
    const { seat } = solver.held(0, 0, forceN, tilt, 0);
    expectWithin(thickness - seat.z, ro * Math.sin(tilt), { rel: 1e-8 }, 'squeeze at the far edge');
    // Past it the far edge lifts: less moment than the formula of full contact, and less of the rim touches.
    const beyond = Math.asin((1.2 * forceN * e) / (stiffness * inertia));
    const { seat: tilted, load } = solver.held(0, 0, forceN, beyond, 0);
    expect(tilted.momentElevation / Math.cos(beyond)).toBeLessThan(1.2 * forceN * e * 0.999);
    expect(load.contactFraction).toBeLessThan(1);
  });

  it('trumpet at e = 2 mm: 0.6127822 on the near half; edges at 79.807 and 31.697 kPa', () => {
    const [, ri, ro] = table[0];
    const inertia = (Math.PI / 4) * (ro ** 4 - ri ** 4);
    const tilt = Math.asin((forceN * 2) / (stiffness * inertia));
    const { seat, load } = seating(setupOf(plate, flatRim(ri, ro), lips)).held(0, 0, forceN, tilt, 0);
    expectWithin(load.share.upper, 0.6127822, { abs: 5e-8 });
    const edge = (side: number): number => 1000 * stiffness * (thickness - seat.z + side * ro * Math.sin(tilt));
    expectWithin(edge(1), 79.807, { abs: 5e-4 });
    expectWithin(edge(-1), 31.697, { abs: 5e-4 });
    // The net's outermost ring lies a little inside the edge: the Gauss point next to it, 0.02 of the width in r².
    expectWithin(load.peakOverMeanPressure * load.meanPressureKPa, 79.807, { rel: 0.01 });
  });
});

/** A thin ring that lifts off: contact |θ| ≤ α, e/R = (α − sin α cos α)/(2(sin α − α cos α)), the same footing theory (worked out). */
describe('nearly thin ring with lift-off', () => {
  const radius = 15;
  const width = 0.15;
  /** The ring is not quite thin: its width enters squared. */
  const THIN_PART = 2 * (width / radius) ** 2;
  /**
   * The usual net looks for lift-off along its rays, as real rims lift off across their width; on a thin ring it falls between two
   * rays, some 6° apart: measured up to 0.0017.
   */
  const BETWEEN_RAYS = 0.002;
  const stiffness = 0.02;
  const thickness = 20;
  const setup = setupOf(singleArch({ kind: 'line' }), flatRim(radius - width / 2, radius + width / 2), alikeLips('linear', thickness, 400));
  const solver = seating(setup);
  // Kinks cost an even net the square of its step: (2π/1024)²/12 is 3e-6.
  const even = seating({ ...setup, evenly: { azimuths: 1024, rings: 3 } });
  const area = 2 * Math.PI * radius * width;

  // α in degrees, e/R, peak over mean.
  it.each([
    [180, 0.5, 2.0],
    [150, 0.5512706579, 2.118454561],
    [120, 0.6605105269, 2.463063162],
    [90, Math.PI / 4, Math.PI],
    [60, 0.8968123369, 4.587249348],
    [30, 0.9729942471, 9.041722237],
  ])('contact to %d° either side', (alphaDeg, eccentricity, peak) => {
    const alpha = toRadians(alphaDeg);
    const sine = 0.2;
    const forceN = (stiffness * sine * radius * area * (Math.sin(alpha) - alpha * Math.cos(alpha))) / Math.PI;
    const { seat, load } = even.held(0, 0, forceN, Math.asin(sine), 0);
    const part = (momentNmm: number): number => momentNmm / Math.sqrt(1 - sine * sine) / (forceN * radius);
    expectWithin(part(seat.momentElevation), eccentricity, { abs: THIN_PART }, 'e/R');
    const usual = solver.held(0, 0, forceN, Math.asin(sine), 0);
    expectWithin(part(usual.seat.momentElevation), eccentricity, { abs: BETWEEN_RAYS }, 'e/R on the usual net');
    // Half the contact is what touches on the near side, up to a quarter turn either way.
    if (alphaDeg <= 90) expectWithin(load.share.upper, 1, { abs: ROUNDING }, 'near half');
    expectWithin(load.ringPressureKPa[RING_AZIMUTHS / 4]! / load.meanPressureKPa, peak, { rel: 10 * THIN_PART }, 'peak');
    // Contact is read off 128 azimuths.
    expectWithin(load.contactFraction, alphaDeg / 180, { abs: 1 / 64 }, 'contact');
  });

  it.each([[0.1, 0.56366198], [0.2, 0.62732395], [0.3, 0.69098593], [0.4, 0.75464791], [0.5, 0.81830989]])(
    'before lift-off, e/R = %d: the near half carries %d',
    (part, share) => {
      const forceN = 0.5;
      // Thin ring: I = A R²/2.
      const inertia = (Math.PI / 4) * ((radius + width / 2) ** 4 - (radius - width / 2) ** 4);
      const tilt = Math.asin((forceN * part * radius) / (stiffness * inertia));
      const { load } = solver.held(0, 0, forceN, tilt, 0);
      expectWithin(load.share.upper, share, { abs: THIN_PART });
    },
  );
});

/** Two lips, k_u above and k_l below the diameter, on a rigid flat plate: a 2 × 2 system (worked out; footing theory as above). */
describe('two lips of 0.010 and 0.008 N/mm³ under the trumpet annulus, 20 N', () => {
  const thickness = 20;
  const lips: LipsSpec = {
    upper: { thicknessMm: thickness, effectiveModulusKPa: 200 },
    lower: { thicknessMm: thickness, effectiveModulusKPa: 160 },
    law: 'linear',
  };
  const solver = seating(setupOf(singleArch({ kind: 'line' }), flatRim(8.25, 13.5), lips));

  it('free: sin φ = −4.491885° in radians (φ = −4.4965°), 6.256161424 mm deep, 10.2289 N above', () => {
    const { seat, load } = solver.follow(0, 0, 20);
    expectWithin(Math.sin(seat.elevation), toRadians(-4.491885), { rel: RADIAL_PART });
    expectWithin(toDegrees(seat.elevation), -4.4965, { abs: 1e-4 });
    expectWithin(thickness - seat.z, 6.256161424, { rel: RADIAL_PART });
    expectWithin(20 * load.share.upper, 10.22893557, { rel: RADIAL_PART });
    expectWithin(20 * load.lipShare.lower, 9.771064433, { rel: RADIAL_PART });
    expectWithin(seat.lateral, 0, { abs: AXIS_RADIANS });
  });

  it('loaded 2 mm above the middle: sin φ = 6.9642475° in radians, 12.47884179 N above', () => {
    const tilt = Math.asin(toRadians(6.9642475));
    const { seat, load } = solver.held(0, 0, 20, tilt, 0);
    expectWithin(load.momentNmm.elevation / Math.cos(tilt), 40, { rel: RADIAL_PART });
    expectWithin(thickness - seat.z, 6.099365059, { rel: RADIAL_PART });
    expectWithin(20 * load.share.upper, 12.47884179, { rel: RADIAL_PART });
    expectWithin(20 * load.lipShare.lower, 7.521158211, { rel: RADIAL_PART });
  });

  it('held square: the shares are as the stiffnesses, 0.5556, not 0.5114', () => {
    const { load } = solver.held(0, 0, 20, 0, 0);
    expectWithin(load.share.upper, 0.01 / 0.018, { rel: BALANCE_PART });
    expectWithin(load.lipShare.upper, 0.01 / 0.018, { rel: BALANCE_PART });
  });
});

/** Elementary statics: what the solver says it has balanced is balanced in what it reports. */
it('the axis is a unit vector from the angles, in the player’s frame', () => {
  const profile: ProfileSpec = { kind: 'arc', radiusMm: 30 };
  const { seat } = seating(setupOf(singleArch({ kind: 'circle', radiusMm: 30 }, profile), rimOf('trumpet'), alikeLips('stiffening'))).follow(5, 4, 20);
  const axis: Vec3 = axisFromRadians(seat.elevation, seat.lateral);
  expectWithin(length(axis), 1, { abs: 1e-15 });
  // Standing to the player's left (x > 0) and high, the bell points left and up.
  expect(axis[0]).toBeGreaterThan(0);
  expect(axis[1]).toBeGreaterThan(0);
});
