/**
 * Low on a broad arch the jaws hand over twice on one side of the rim. A cold search once looked at its top and bottom alone, took one jaw to be
 * the nearer all along, and laid few points across a kink, 0.003° off; a warm one that knew the line laid many.
 */
import { it } from 'vitest';
import { homePlace } from '../../src/core/analyse';
import { buildArch } from '../../src/core/arch';
import { frontalPosition, toDegrees } from '../../src/core/frame';
import { lipLineOffset } from '../../src/core/lipLine';
import { createSeatSolver } from '../../src/core/seat';
import { arches } from '../../src/records/library';
import { expectWithin } from '../support/expectWithin';
import { found } from '../support/seating';
import { defaultRecord } from '../support/records';

const SAME_DEG = 1e-6;

it.each([[-16.45, -9.5, -15.6, -9], [-16.45, 9.5, -15.6, 9]])('a seat at %d mm up, %d mm right is the same from nothing and from beside it', (up, right, fromUp, fromRight) => {
  const record = { ...defaultRecord('trumpet'), arch: arches.find(({ id }) => id === 'broad')!.arch };
  const home = homePlace(record);
  const setup = { arch: buildArch(record.arch), rim: record.rim, lips: record.lips, lipLineMm: lipLineOffset(record.rim, record.upperLipShare) };
  const { x, y } = frontalPosition(home.upMm + up, home.rightMm + right);
  const beside = frontalPosition(home.upMm + fromUp, home.rightMm + fromRight);
  const solver = createSeatSolver(setup);
  const warm = found(solver.follow(x, y, 20, found(solver.follow(beside.x, beside.y, 20))));
  const cold = found(createSeatSolver(setup).follow(x, y, 20));
  const truth = found(createSeatSolver({ ...setup, evenly: { azimuths: 1024, rings: 16 } }).follow(x, y, 20));
  expectWithin(toDegrees(warm.elevation), toDegrees(cold.elevation), { abs: SAME_DEG });
  expectWithin(toDegrees(warm.lateral), toDegrees(cold.lateral), { abs: SAME_DEG });
  expectWithin(toDegrees(cold.elevation), toDegrees(truth.elevation), { abs: 0.001 });
});
