/** Scans made from closed forms must give back what they were made of: parameters to 0.05 mm, seats to 0.05°. */
import { describe, expect, it } from 'vitest';
import { lipLineOffset } from '../../src/core/lipLine';
import { homePlace } from '../../src/core/analyse';
import { buildArch } from '../../src/core/arch';
import { toDegrees } from '../../src/core/frame';
import type { Faces } from '../../src/core/gapFace';
import { createRandom } from '../../src/core/random';
import { layUniformNodes } from '../../src/core/rim';
import { createSeatSolver } from '../../src/core/seat';
import { BY_ELEVATION, BY_LATERAL, BY_Z, EE, EL, LL, ZE, ZL, ZZ, createSeatEnergy } from '../../src/core/seatEnergy';
import { solveSymmetric } from '../../src/core/smallSystem';
import type { JawArchSpec } from '../../src/core/specs';
import { compareSeats } from '../../src/scans/compareSeats';
import { fitJaw } from '../../src/scans/fitJaw';
import { freeFormNumbers, freeProfileNumbers } from '../../src/scans/freeNumbers';
import { type GapField, createGapField } from '../../src/scans/gapField';
import { type MendedScan, mendScan } from '../../src/scans/mendScan';
import { type ScanMesh, boxOf } from '../../src/scans/mesh';
import { scanDifferences } from '../../src/scans/scanDifferences';
import { placeScan } from '../../src/scans/scannedFace';
import { scannedMouth } from '../../src/scans/scannedMouth';
import { angleWeightedNormals, createSignedDistance } from '../../src/scans/signedDistance';
import { demoPlayers } from '../support/demos';
import { expectWithin } from '../support/expectWithin';
import { plainFace } from '../support/plainFace';
import { alikeLips, flatRim, found, seating, setupOf } from '../support/seating';
import { type Cut, cutBall, cutFace, cutTeeth } from '../support/scannedShapes';

const mended = (mesh: ScanMesh): MendedScan => {
  const scan = mendScan(mesh);
  if (scan === null) throw new Error('no triangle left');
  return scan;
};

const placed = (mesh: ScanMesh): { readonly placed: ReturnType<typeof placeScan> } => {
  const scan = mended(mesh);
  return { placed: placeScan(createGapField(createSignedDistance(scan), boxOf(scan.mesh.points))) };
};

/** Every so many corners, mm. */
const someOf = (mesh: ScanMesh, every: number): Float64Array => mesh.points.filter((_, at) => Math.floor(at / 3) % every === 0);

const RIM = flatRim(8.25, 13.6);
const LIPS = alikeLips('stiffening');

describe('A seat on a scan is the seat on the surface it was cut from', () => {
  it('on a ball of 30 mm the axis runs from its middle through the rim’s centre', () => {
    const radius = 30;
    const ball: Faces = { upper: placed(cutBall(radius, 120, [0, 0, -radius])), lower: null };
    const { follow } = seating(setupOf(ball, RIM, LIPS));
    for (const [x, y] of [[0, 0], [4, 0], [-3, 5]] as const) {
      const { seat } = follow(x, y, 20);
      const depth = seat.z + radius;
      expectWithin(toDegrees(seat.elevation), toDegrees(Math.asin(y / Math.hypot(x, y, depth))), { abs: 0.05 }, 'elevation');
      expectWithin(toDegrees(seat.lateral), toDegrees(-Math.atan2(x, depth)), { abs: 0.05 }, 'lateral');
    }
  }, 60_000);

  it('on a torus, and on the published beta form with crowns and gums', () => {
    const torus: JawArchSpec = { form: { kind: 'circle', radiusMm: 26 }, profile: { kind: 'arc', radiusMm: 40 } };
    const beta: JawArchSpec = {
      form: { kind: 'power', widthMm: 62, depthMm: 40, exponent: 0.8 },
      profile: { kind: 'arcs', inclinationDeg: 6, crownHeightMm: 10, crownRadiusMm: 14, gumRadiusMm: 20, gumInclinationDeg: 0 },
    };
    for (const [spec, heights] of [[torus, [-22, 22]], [beta, [0, 26]]] as const) {
      const arch = buildArch({ single: spec });
      const scanned: Faces = { upper: placed(cutFace(arch.upper, { arcMm: 36, heights, columns: 160, rows: 56, ...(heights[0] === 0 ? { thickMm: 6 } : {}) })), lower: null };
      const on = seating(setupOf(arch, RIM, LIPS));
      const onScan = seating(setupOf(scanned, RIM, LIPS));
      for (const [x, y] of [[0, 6], [3, 4], [-4, 8]] as const) {
        const truth = on.follow(x, y, 20).seat;
        const { seat } = onScan.follow(x, y, 20);
        expectWithin(toDegrees(seat.elevation), toDegrees(truth.elevation), { abs: 0.05 }, `${spec.form.kind}: elevation`);
        expectWithin(toDegrees(seat.lateral), toDegrees(truth.lateral), { abs: 0.05 }, `${spec.form.kind}: lateral`);
        expectWithin(seat.z, truth.z, { abs: 0.05 }, `${spec.form.kind}: depth`);
      }
    }
  }, 60_000);

  it('on both jaws of a player, with the load round the rim', () => {
    const { record } = demoPlayers[0]!;
    const arch = buildArch(record.arch);
    const cut: Cut = { arcMm: 40, heights: [0, 26], columns: 180, rows: 60, thickMm: 6 };
    const scanned: Faces = { upper: placed(cutFace(arch.upper, cut)), lower: placed(cutFace(arch.lower!, cut)) };
    const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
    const on = seating(setupOf(arch, record.rim, record.lips, lipLineMm));
    const onScan = seating(setupOf(scanned, record.rim, record.lips, lipLineMm));
    const home = homePlace(record);
    for (const [right, up] of [[0, 0], [4, 0], [-2, 4]] as const) {
      const truth = on.follow(-right, home.upMm + up, record.force.newtons);
      const { seat, load } = onScan.follow(-right, home.upMm + up, record.force.newtons);
      expectWithin(toDegrees(seat.elevation), toDegrees(truth.seat.elevation), { abs: 0.05 }, 'elevation');
      expectWithin(toDegrees(seat.lateral), toDegrees(truth.seat.lateral), { abs: 0.05 }, 'lateral');
      expectWithin(load.share.upper, truth.load.share.upper, { abs: 0.002 }, 'share of the upper half');
      expectWithin(load.peakOverMeanPressure, truth.load.peakOverMeanPressure, { rel: 0.01 }, 'peak');
    }
  }, 120_000);
});

describe('On jaws with teeth of their own', () => {
  it('a seat is balanced on the triangles themselves, summed without the lattice, to 0.05°', () => {
    const { record } = demoPlayers[0]!;
    const arch = buildArch(record.arch);
    const random = createRandom(51);
    const noise = (): number => 0.02 * random.normal();
    const cut: Cut = { arcMm: 38, heights: [0, 24], columns: 300, rows: 70, thickMm: 6 };
    const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
    const upper = mended(cutTeeth(arch.upper, cut, 8.5, 1.5, noise));
    const lower = mended(cutTeeth(arch.lower!, cut, 5.5, 1.5, noise));
    const [upperDistance, lowerDistance] = [createSignedDistance(upper), createSignedDistance(lower)];
    const scanned: Faces = {
      upper: { placed: placeScan(createGapField(upperDistance, boxOf(upper.mesh.points))) },
      lower: { placed: placeScan(createGapField(lowerDistance, boxOf(lower.mesh.points))) },
    };
    const solver = createSeatSolver(setupOf(scanned, record.rim, record.lips, lipLineMm));
    const even = layUniformNodes(record.rim, lipLineMm, 256, 8);
    const plain = createSeatEnergy(plainFace(upperDistance), plainFace(lowerDistance), record.lips, even);
    const smooth = createSeatEnergy(scanned.upper.placed, scanned.lower!.placed, record.lips, even);
    const home = homePlace(record);
    const forceN = record.force.newtons;
    for (const [x, up] of [[0, 0], [2, 0], [4, 2], [-2, -2]] as const) {
      const seat = found(solver.follow(x, home.upMm + up, forceN));
      const at = [x, home.upMm + up, seat.z, seat.elevation, seat.lateral] as const;
      expect(plain.evaluate(...at, false) && smooth.evaluate(...at, false)).toBe(true);
      // One Newton step from here to where the triangles themselves would be balanced, by the smooth gaps' Hessian.
      const { value } = smooth;
      const matrix = [[value[ZZ]!, value[ZE]!, value[ZL]!], [value[ZE]!, value[EE]!, value[EL]!], [value[ZL]!, value[EL]!, value[LL]!]];
      const step = solveSymmetric(matrix, [plain.value[BY_Z]! + forceN, plain.value[BY_ELEVATION]!, plain.value[BY_LATERAL]!]);
      expectWithin(toDegrees(step![1]!), 0, { abs: 0.05 }, `elevation at ${x}, ${up}`);
      expectWithin(toDegrees(step![2]!), 0, { abs: 0.05 }, `lateral at ${x}, ${up}`);
    }
  }, 60_000);
});

describe('A scan and the arch that stands for it', () => {
  it('differ by what was put onto the scan, place by place', () => {
    const surface = buildArch({ single: { form: { kind: 'circle', radiusMm: 26 }, profile: { kind: 'arc', radiusMm: 40 } } }).upper;
    const mesh = cutFace(surface, { arcMm: 30, heights: [-18, 18], columns: 60, rows: 30 });
    const out = (arc: number): number => (Math.abs(arc) < 4 ? 0.4 : 0);
    const points = Float64Array.from([...Array(mesh.points.length / 3).keys()].flatMap((at) => {
      const [column, row] = [Math.floor(at / 31), at % 31];
      const [arc, height] = [-30 + column, -18 + (36 * row) / 30];
      const normal = surface.normalAt(arc, height);
      return [0, 1, 2].map((axis) => mesh.points[3 * at + axis]! + out(arc) * normal[axis]!);
    }));
    const { outMm, compared, rmsMm, mostMm } = scanDifferences(points, angleWeightedNormals({ points, triangles: mesh.triangles }), surface);
    outMm.forEach((found, at) => expectWithin(found, out(-30 + Math.floor(at / 31)), { abs: 1e-6 }, `corner ${at}`));
    expect(compared).toBe(outMm.length);
    expectWithin(rmsMm, 0.4 * Math.sqrt(7 / 61), { abs: 1e-6 }, 'root mean square');
    expectWithin(mostMm, 0.4, { abs: 1e-6 }, 'nineteen of twenty');
    // Further off than a labial face can be.
    expect(scanDifferences(Float64Array.of(0, 0, 30, 0, 0, -26), Float64Array.of(0, 0, 1, 0, 0, 1), surface).compared).toBe(0);
    // On the face, but facing inward.
    expect(scanDifferences(Float64Array.of(0, 0, 0, 0, 0, 0), Float64Array.of(0, 0, -1, 0, 0, 1), surface).compared).toBe(1);
  });

  it('predict the same swing where they are the same, and another where a tooth stands out', () => {
    const { record } = demoPlayers[0]!;
    const arch = buildArch(record.arch);
    const cut: Cut = { arcMm: 36, heights: [0, 24], columns: 120, rows: 40, thickMm: 6 };
    const scanned: Faces = { upper: placed(cutFace(arch.upper, cut)), lower: placed(cutFace(arch.lower!, cut)) };
    const mouth = { at: () => scanned, lowerAt: () => scanned.lower!.placed };
    const [same, unseated] = compareSeats(record, () => mouth, [{ upMm: 1, rightMm: 3, jaw: null }, { upMm: 90, rightMm: 0, jaw: null }]);
    if (same?.kind !== 'compared') throw new Error('not compared');
    expectWithin(same.onScan.elevationDeg, same.onArch.elevationDeg, { abs: 0.05 }, 'elevation');
    expectWithin(same.onScan.lateralDeg, same.onArch.lateralDeg, { abs: 0.05 }, 'lateral');
    expect(Math.abs(same.onArch.lateralDeg)).toBeGreaterThan(2);
    expect(unseated).toMatchObject({ kind: 'unseated', on: 'arch' });
    if (!('upper' in record.arch)) throw new Error('a player of two jaws');
    const standing = { ...record, arch: { ...record.arch, upper: { ...record.arch.upper, teeth: [{ fdi: 12, outMm: 1.5, centreMm: -12, widthMm: 6.5 }] } } };
    const [other] = compareSeats(standing, () => mouth, [{ upMm: 1, rightMm: 3, jaw: null }]);
    if (other?.kind !== 'compared') throw new Error('not compared');
    expect(Math.abs(other.onArch.lateralDeg - other.onScan.lateralDeg)).toBeGreaterThan(0.1);
  }, 60_000);
});

describe('A scan gives back the numbers it was cut from', () => {
  it('a ball: its radius, sideways and upright, from starts some millimetres off', () => {
    const radius = 30;
    const { points } = cutBall(radius, 120, [0, 0, -radius]);
    // What lies before the middle, as of a jaw.
    const front = points.filter((_, at) => points[3 * Math.floor(at / 3) + 2]! > -radius / 2);
    const start: JawArchSpec = { form: { kind: 'circle', radiusMm: 25 }, profile: { kind: 'arc', radiusMm: 36 } };
    const fit = fitJaw(someOf({ points: front, triangles: new Uint32Array() }, 11), start, [...freeFormNumbers(start), ...freeProfileNumbers(start)], 1, true);
    if (fit.kind !== 'fitted') throw new Error(fit.reason);
    expectWithin(fit.values[0]!, radius, { abs: 0.05 }, 'radius of the form');
    expectWithin(fit.values[1]!, radius, { abs: 0.05 }, 'radius of the profile');
  });

  it('a torus: both radii, from a start some millimetres off', () => {
    const spec: JawArchSpec = { form: { kind: 'circle', radiusMm: 26 }, profile: { kind: 'arc', radiusMm: 40 } };
    const mesh = cutFace(buildArch({ single: spec }).upper, { arcMm: 30, heights: [-18, 18], columns: 120, rows: 60 });
    const start: JawArchSpec = { form: { kind: 'circle', radiusMm: 31 }, profile: { kind: 'arc', radiusMm: 33 } };
    const fit = fitJaw(someOf(mesh, 17), start, [...freeFormNumbers(start), ...freeProfileNumbers(start)], 1, true);
    if (fit.kind !== 'fitted') throw new Error(fit.reason);
    expectWithin(fit.values[0]!, 26, { abs: 0.05 }, 'radius of the form');
    expectWithin(fit.values[1]!, 40, { abs: 0.05 }, 'radius of the profile');
  });

  it('the published beta form with crowns and gums: width, depth and all of the profile, the scan lying 1 mm aside', () => {
    const spec: JawArchSpec = {
      form: { kind: 'power', widthMm: 60, depthMm: 45, exponent: 0.8 },
      profile: { kind: 'arcs', inclinationDeg: 6, crownHeightMm: 10, crownRadiusMm: 14, gumRadiusMm: 12, gumInclinationDeg: -5 },
    };
    const surface = buildArch({ single: spec }).upper;
    const mesh = cutFace(surface, { arcMm: 40, heights: [0.2, 20], columns: 160, rows: 60 });
    const aside = { points: mesh.points.map((place, at) => place + [0.5, -0.3, 0.8][at % 3]!), triangles: mesh.triangles };
    const start: JawArchSpec = {
      form: { kind: 'power', widthMm: 56, depthMm: 40, exponent: 0.8 },
      profile: { kind: 'arcs', inclinationDeg: 4, crownHeightMm: 9.3, crownRadiusMm: 16, gumRadiusMm: 14, gumInclinationDeg: -2 },
    };
    const fit = fitJaw(someOf(aside, 7), start, [...freeFormNumbers(start), ...freeProfileNumbers(start)], 1);
    if (fit.kind !== 'fitted') throw new Error(`${fit.reason} after ${fit.iterations}`);
    const truth = [60, 45, 6, 10, 14, 12, -5, -0.5, 0.3, -0.8];
    for (const [index, value] of truth.entries()) expectWithin(fit.values[index]!, value, { abs: 0.05 }, `number ${index}`);
    expect(fit.residualMm).toBeLessThan(0.01);
  }, 60_000);
});

describe('Scans in an arch’s place', () => {
  it('seat the rim as the arch does, wherever the lower jaw stands, one jaw scanned or both', () => {
    const { record } = demoPlayers[0]!;
    if ('single' in record.arch) throw new Error('a player of two jaws');
    const closed = buildArch({ ...record.arch, jaw: { openingMm: 0, forwardMm: 0, hingeDeg: 0 } });
    const cut: Cut = { arcMm: 38, heights: [0, 26], columns: 170, rows: 60, thickMm: 6 };
    const fieldOf = (surface: Parameters<typeof cutFace>[0]): GapField => {
      const scan = mended(cutFace(surface, cut));
      return createGapField(createSignedDistance(scan), boxOf(scan.mesh.points));
    };
    const [upper, lower] = [fieldOf(closed.upper), fieldOf(closed.lower!)];
    const jaws = [null, { openingMm: 9, forwardMm: 1.5, hingeDeg: 4 }] as const;
    for (const fields of [{ upper, lower }, { upper }, { lower }]) {
      for (const [index, seats] of compareSeats(record, scannedMouth(fields), jaws.map((jaw) => ({ upMm: 0.5, rightMm: 2.5, jaw }))).entries()) {
        if (seats.kind !== 'compared') throw new Error(`not compared: ${seats.reason}`);
        expectWithin(seats.onScan.elevationDeg, seats.onArch.elevationDeg, { abs: 0.05 }, `elevation, jaw ${index}`);
        expectWithin(seats.onScan.lateralDeg, seats.onArch.lateralDeg, { abs: 0.05 }, `lateral, jaw ${index}`);
      }
    }
  }, 60_000);
});
