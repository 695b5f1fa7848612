/**
 * The net on which a seat is balanced, against a dense even one of 256 azimuths × 8 rings, for every ready-made arch and rim. Not an
 * outside truth: the model's own promise about its quadrature (docs/model.md, "Quadrature").
 */
import { describe, it } from 'vitest';
import { homePlace } from '../../src/core/analyse';
import { buildArch } from '../../src/core/arch';
import { frontalPosition, toDegrees } from '../../src/core/frame';
import { lipLineOffset } from '../../src/core/lipLine';
import { createLoadReader } from '../../src/core/load';
import { createSeatSolver } from '../../src/core/seat';
import type { SeatFound, SeatSetup } from '../../src/core/seatAnswer';
import { createSeatEnergy } from '../../src/core/seatEnergy';
import { layUniformNodes } from '../../src/core/rim';
import type { LipsSpec } from '../../src/core/specs';
import { arches, rims } from '../../src/records/library';
import { expectWithin } from '../support/expectWithin';
import { found, loaded } from '../support/seating';
import { defaultRecord } from '../support/records';

/** Promised: 0.01° in either angle and half a percent of the peak pressure. */
const ANGLE_DEG = 0.01;
const PEAK_PART = 0.005;
const DENSE = { azimuths: 256, rings: 8 };

const different: LipsSpec = defaultRecord('trumpet').lips;
const lipSets: readonly (readonly [string, LipsSpec])[] = [
  ['lips of 12 and 13 mm', different],
  ['lips alike', { ...different, lower: different.upper }],
  ['a soft and a firm lip', { ...different, lower: { thicknessMm: 11, effectiveModulusKPa: 300 } }],
];
// Up and to the right of home, mm.
const travels = [[0, 0], [3, 0], [-3, 1], [0, 4], [1.5, -2.5]] as const;

const cases = arches.flatMap((arch) =>
  rims.map((rim) => ({ archName: arch.id, rimName: rim.id, archSpec: arch.arch, rim: rim.rim })),
);

describe.each(lipSets)('%s', (_, lips) => {
  it.each(cases)('$archName arch, $rimName rim: angles within 0.01°, peak within 0.5 %', ({ archSpec, rim }) => {
    const record = { ...defaultRecord('trumpet'), arch: archSpec, rim };
    const home = homePlace(record);
    const arch = buildArch(archSpec);
    const setup: SeatSetup = { arch, rim, lips, lipLineMm: lipLineOffset(rim, record.upperLipShare) };
    const usual = createSeatSolver(setup);
    const reader = createLoadReader(setup);
    const dense = createSeatSolver({ ...setup, evenly: DENSE });
    const denseNet = createSeatEnergy(arch.upper.placed, arch.lower!.placed, lips, layUniformNodes(rim, setup.lipLineMm, DENSE.azimuths, DENSE.rings));
    const peakAt = (x: number, y: number, seat: SeatFound): number => {
      denseNet.evaluate(x, y, seat.z, seat.elevation, seat.lateral, false);
      return Math.max(...denseNet.pressure);
    };
    let near: SeatFound | undefined;
    for (const [up, right] of travels) {
      const { x, y } = frontalPosition(home.upMm + up, home.rightMm + right);
      const seat = found(usual.follow(x, y, 20));
      const load = loaded(reader.read(usual.energy, x, y, seat, 20, false));
      near = found(dense.follow(x, y, 20, near ?? seat));
      expectWithin(toDegrees(seat.elevation), toDegrees(near.elevation), { abs: ANGLE_DEG }, `elevation at ${up}, ${right}`);
      expectWithin(toDegrees(seat.lateral), toDegrees(near.lateral), { abs: ANGLE_DEG }, `lateral at ${up}, ${right}`);
      const peak = (load.peakOverMeanPressure * load.meanPressureKPa) / 1000;
      expectWithin(peak, peakAt(x, y, near), { rel: PEAK_PART }, `peak at ${up}, ${right}`);
    }
  });
});

/** The even net of 256 × 8 itself errs by up to 0.012° here. */
const DENSEST = { azimuths: 1024, rings: 16 };
/** Where the rim's centre stands, as parts of the inner radius from the mean biting line of these arches: the handover then runs along the rim. */
const ALONG = [-0.75, 0.65, 0.8, 0.95] as const;
const BITING_LINE_MM = -3;

describe.each(lipSets)('far up or down, with %s', (_, lips) => {
  it.each(cases)('$archName arch, $rimName rim: angles within 0.01°', ({ archSpec, rim }) => {
    const arch = buildArch(archSpec);
    const setup: SeatSetup = { arch, rim, lips, lipLineMm: lipLineOffset(rim, defaultRecord('trumpet').upperLipShare) };
    const usual = createSeatSolver(setup);
    const dense = createSeatSolver({ ...setup, evenly: DENSEST });
    for (const part of ALONG) {
      const y = BITING_LINE_MM + (part * rim.innerDiameterMm) / 2;
      const seat = found(usual.follow(1, y, 20));
      const truth = found(dense.follow(1, y, 20, seat));
      expectWithin(toDegrees(seat.elevation), toDegrees(truth.elevation), { abs: ANGLE_DEG }, `elevation at ${part}`);
      expectWithin(toDegrees(seat.lateral), toDegrees(truth.lateral), { abs: ANGLE_DEG }, `lateral at ${part}`);
    }
  });
});
