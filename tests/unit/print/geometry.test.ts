/** What the figures draw is what was computed. */
import { describe, expect, test } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { buildArch } from '../../../src/core/arch';
import { axisFromAngles } from '../../../src/core/frame';
import type { Analysis } from '../../../src/core/analysis';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import type { PlayerRecord } from '../../../src/core/specs';
import { aboveGeometry, paperAngle } from '../../../src/print/aboveGeometry';
import { axisLengthMm, type Point } from '../../../src/print/hornShape';
import { homeJaw, sheetNotes } from '../../../src/print/sheetNotes';
import { sideGeometry } from '../../../src/print/sideGeometry';
import { arches, demoPlayers } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';

const [up, down] = demoPlayers.map(({ record }) => record) as [PlayerRecord, PlayerRecord];
const analyses = new Map([up, down, { ...up, arch: arches.find(({ id }) => id === 'broad')!.arch }].map((record) => [record, analyse(record)]));

/** The foot of a drawn point is found again by another computation than the one that drew it, mm. */
const ON_SURFACE_MM = 1e-6;
/** Sums of doubles of some tens of mm or degrees. */
const ROUNDING = 1e-9;

describe.each([...analyses.values()].map((analysis) => [analysis.record.player.label, analysis] as const))('%s', (_label, analysis) => {
  const arch = buildArch(analysis.record.arch, homeJaw(analysis)!);
  const side = sideGeometry(analysis);
  const above = aboveGeometry(analysis);

  test('every point of the section lies on its jaw', () => {
    expect(side.faces.map(({ jaw }) => jaw)).toEqual(['upper', 'lower']);
    for (const { jaw, crown, gum } of side.faces) {
      const surface = jaw === 'lower' ? arch.lower! : arch.upper;
      expect(crown.length + gum.length).toBeGreaterThan(20);
      for (const [z, y] of [...crown, ...gum]) expectWithin(surface.gapAt([0, y, z]), 0, { abs: ON_SURFACE_MM }, `${jaw} at ${y}`);
    }
  });

  test('the arches from above lie on their jaws', () => {
    expect(above.arches.map(({ jaw }) => jaw)).toEqual(['upper', 'lower']);
    for (const { jaw, edge } of above.arches) {
      const surface = jaw === 'lower' ? arch.lower! : arch.upper;
      const y = surface.pointAt(0, 0)[1];
      expect(edge.length).toBeGreaterThan(20);
      for (const [right, z] of edge) expectWithin(surface.gapAt([-right, y, z]), 0, { abs: ON_SURFACE_MM }, `${jaw} at ${right}`);
    }
  });

  test('the swing is the change from home, about the rim where it was computed', () => {
    expect(side.moved.map(({ role }) => role)).toEqual(['highest', 'lowest']);
    for (const { swing, reading, horn } of side.moved) {
      expectWithin(swing.toDeg - swing.fromDeg, reading.changeFromHome.elevationDeg, { abs: ROUNDING }, reading.note);
      const [, y, z] = reading.follow.pose.rimCentreMm;
      expect(swing.centreMm).toEqual([z, y]);
      expectWithin(angleOf(horn.centreMm, horn.tipMm), reading.follow.pose.elevationDeg, { abs: ROUNDING }, 'axis');
      expectWithin(Math.hypot(horn.tipMm[0] - z, horn.tipMm[1] - y), axisLengthMm(analysis.record.rim), { abs: ROUNDING }, 'length');
    }
    const [sideways] = above.moved;
    expect(sideways?.reading).toBe(sheetNotes(analysis).sideways);
    expectWithin(sideways!.swing.toDeg - sideways!.swing.fromDeg, sideways!.reading.changeFromHome.lateralDeg, { abs: ROUNDING }, 'sideways');
  });

  test('from above, the axis points where the horn does', () => {
    const [sideways] = above.moved;
    const { pose } = sideways!.reading.follow;
    const [x, , z] = axisFromAngles(pose);
    expectWithin(angleOf(sideways!.horn.centreMm, sideways!.horn.tipMm), (Math.atan2(z, -x) * 180) / Math.PI, { abs: ROUNDING }, 'axis');
    expect(paperAngle(0)).toBe(Math.PI / 2);
  });
});

test('a mirrored player has the mirrored figure from above and the same from the side', () => {
  const mirrored: PlayerRecord = {
    ...up,
    readings: up.readings.map(({ horn, ...reading }) => ({
      ...reading,
      ...(reading.travel && { travel: { ...reading.travel, rightMm: -reading.travel.rightMm } }),
      ...(horn && { horn: { ...horn, lateralDeg: -horn.lateralDeg } }),
    })),
  };
  const [own, other] = [analyses.get(up)!, analyse(mirrored)].map((analysis) => ({ side: sideGeometry(analysis), above: aboveGeometry(analysis) })) as [Drawn, Drawn];
  // Two searches for a seat, each closed to about 1e-6 mm and a little more in the angle at the axis's end.
  const within = { abs: 1e-4 };
  const flip = ([right, up]: Point): Point => [-right, up];
  expectSamePoints(other.above.arches[0]!.edge, own.above.arches[0]!.edge.map(flip).reverse(), within);
  const [ownHorn, otherHorn] = [own.above.moved[0]!, other.above.moved[0]!];
  expect(Math.abs(ownHorn.horn.centreMm[0])).toBeGreaterThan(0.5);
  expectSamePoints([otherHorn.horn.centreMm, otherHorn.horn.tipMm], [ownHorn.horn.centreMm, ownHorn.horn.tipMm].map(flip), within);
  expectWithin(otherHorn.swing.measuredDeg!, -ownHorn.swing.measuredDeg!, within, 'measured');
  expectSamePoints(other.side.moved[0]!.horn.rim[0]!, own.side.moved[0]!.horn.rim[0]!, within);
});

test.each(['home', 'note'] as const)('an angle that nobody saw at %s has no measured mark, the other keeps its own', (where) => {
  const { highest, sideways } = sheetNotes(analyses.get(up)!);
  const unseen = (sds: { sdDeg: number; lateralSdDeg: number }) =>
    analyse({
      ...up,
      readings: up.readings.map((reading) =>
        reading.horn && (where === 'home' ? reading.note === up.home!.note : reading.note === highest!.note || reading.note === sideways!.note)
          ? { ...reading, horn: { ...reading.horn, ...sds } }
          : reading,
      ),
    });
  const upUnseen = unseen({ sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 1 });
  const rightUnseen = unseen({ sdDeg: 1, lateralSdDeg: UNSEEN_HORN_SD_DEG });
  const marks = (analysis: Analysis) => [
    sideGeometry(analysis).moved.find(({ role }) => role === 'highest')!.swing.measuredDeg,
    aboveGeometry(analysis).moved[0]!.swing.measuredDeg,
  ];
  expect(marks(analyses.get(up)!)).not.toContain(null);
  expect(marks(upUnseen)).toEqual([null, marks(analyses.get(up)!)[1]]);
  expect(marks(rightUnseen)).toEqual([marks(analyses.get(up)!)[0], null]);
});

test('without readings both figures show home alone', () => {
  const analysis = analyse({ ...up, readings: [] });
  expect(sideGeometry(analysis).moved).toEqual([]);
  expect(aboveGeometry(analysis).moved).toEqual([]);
  expect(sheetNotes(analysis)).toEqual({ lowest: null, highest: null, sideways: null, told: null });
});

test('a player whose home is the highest note is told of by the lowest', () => {
  const top = up.readings.at(-1)!.note;
  const analysis = analyse({
    ...up,
    home: { note: top },
    readings: up.readings.map((reading) => ({ ...reading, travel: reading.note === top ? { upMm: 0, rightMm: 0 } : reading.travel })),
  });
  const { highest, lowest, told } = sheetNotes(analysis);
  expect(highest).toBeNull();
  expect(lowest?.note).toBe(up.readings[0]!.note);
  expect(told).toBe(lowest);
});

test('a single surface is drawn as one line of its own', () => {
  const single = { single: { form: { kind: 'circle', radiusMm: 25 }, profile: { kind: 'arc', radiusMm: 30 } } } as const;
  const analysis = analyse({ ...up, arch: single, home: { note: 'F4', upMm: 0, rightMm: 0 }, readings: up.readings.slice(0, 3) });
  const [face, ...others] = sideGeometry(analysis).faces;
  expect(others).toEqual([]);
  const surface = buildArch(single).upper;
  for (const [z, y] of face!.crown) expectWithin(surface.gapAt([0, y, z]), 0, { abs: ON_SURFACE_MM }, `at ${y}`);
});

interface Drawn {
  readonly side: ReturnType<typeof sideGeometry>;
  readonly above: ReturnType<typeof aboveGeometry>;
}

const angleOf = (from: Point, to: Point): number => (Math.atan2(to[1] - from[1], to[0] - from[0]) * 180) / Math.PI;

function expectSamePoints(actual: readonly Point[], truth: readonly Point[], within: { readonly abs: number }): void {
  expect(actual.length).toBe(truth.length);
  actual.forEach(([right, up], index) => {
    expectWithin(right, truth[index]![0], within, `right of point ${index}`);
    expectWithin(up, truth[index]![1], within, `up of point ${index}`);
  });
}
