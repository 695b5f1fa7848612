import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { buildArch } from '../../../src/core/arch';
import type { RimPose } from '../../../src/core/analysis';
import { contourHeight } from '../../../src/core/rim';
import { restAt, restLips } from '../../../src/stage/lipRest';
import { LIP_COLUMNS, LIP_ROWS, createLipSheet, moveLips } from '../../../src/stage/lipSheet';
import { createStand, writeStand } from '../../../src/stage/stand';
import { expectWithin } from '../../support/expectWithin';
import { demoRecord } from './drawnMouth';

const arch = buildArch(demoRecord.arch);
const analysis = analyse(demoRecord);
const { rim, lips } = demoRecord;
const contour = (radius: number): number => contourHeight(rim, radius);
const rest = restLips(arch, lips);

function dented(pose: RimPose) {
  const sheet = createLipSheet(rest, rim, contour, analysis.home.lipLineMm);
  const stand = createStand();
  writeStand(pose, stand);
  moveLips(sheet, stand, analysis.home.lipLineMm);
  const [ax, ay, az] = pose.axis;
  return Array.from({ length: LIP_COLUMNS * LIP_ROWS }, (_, vertex) => {
    const point = [sheet.positions[vertex * 3]!, sheet.positions[vertex * 3 + 1]!, sheet.positions[vertex * 3 + 2]!] as const;
    const away = [point[0] - pose.rimCentreMm[0], point[1] - pose.rimCentreMm[1], point[2] - pose.rimCentreMm[2]] as const;
    const depth = away[0] * ax + away[1] * ay + away[2] * az;
    const radius = Math.hypot(away[0] - ax * depth, away[1] - ay * depth, away[2] - az * depth);
    return { point, depth, radius, row: vertex % LIP_ROWS };
  });
}

describe('the lips at rest', () => {
  it('stand the upper lip’s thickness before the teeth', () => {
    for (const arc of [-13, -6, 0, 4, 11]) {
      for (const height of [1, 5, 11, 15]) {
        const foot = arch.upper.pointAt(arc, 0);
        const normal = arch.upper.normalAt(arc, 0);
        const level = Math.hypot(normal[0], normal[2]);
        const out = restAt(rest, rest.outerUpper, arc, height);
        const gap = arch.gapAt([foot[0] + (normal[0] / level) * out, height, foot[2] + (normal[2] / level) * out]);
        expectWithin(gap, lips.upper.thicknessMm, { abs: 0.15 }, `gap at arc ${arc}, height ${height}`);
      }
    }
  });
});

describe.each(analysis.readings.map((reading) => ({ note: reading.note, pose: reading.follow.pose })))('the lips under the rim at $note', ({ pose }) => {
  const vertices = dented(pose);
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;

  it('meet its underside wherever it presses, and never stand before it', () => {
    const under = vertices.filter(({ radius }) => radius > inner + 0.2 && radius < outer - 0.2);
    expect(under.length).toBeGreaterThan(400);
    for (const { depth, radius } of under) expect(depth - contour(radius)).toBeLessThan(1e-3);
    const touching = under.filter(({ depth, radius }) => contour(radius) - depth < 0.02);
    // The follow seat has the whole annulus in contact for this player.
    const seat = analysis.readings.find((reading) => reading.follow.pose === pose)!.follow;
    expectWithin(touching.length / under.length, seat.load.contactFraction, { abs: 0.06 }, 'part of the annulus in contact');
  });

  it('are untouched away from it', () => {
    const far = vertices.filter(({ radius, row }) => radius > outer + 9 && Math.abs(row - (LIP_ROWS - 1) / 2) > 12);
    expect(far.length).toBeGreaterThan(300);
    for (const { point, row } of far) {
      const thickness = row > (LIP_ROWS - 1) / 2 ? lips.upper.thicknessMm : lips.lower.thicknessMm;
      // 0.3: the table is in steps of 2 mm and its rays are level.
      expectWithin(arch.gapAt(point), thickness, { abs: 0.3 }, 'gap');
    }
  });

  it('have finite places', () => {
    for (const { point } of vertices) expect(point.every(Number.isFinite)).toBe(true);
  });
});
