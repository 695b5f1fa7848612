/**
 * What teachers and players take for granted: common practice, no published source. Directions and orders only, no degrees.
 */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/core/analyse';
import type { ReadingAnalysis } from '../../src/core/analysis';
import type { PlayerRecord, RimSpec } from '../../src/core/specs';
import { arches, instruments, rims } from '../../src/records/library';
import { demoPlayers } from '../support/demos';
import { expectWithin } from '../support/expectWithin';
import { defaultRecord } from '../support/records';

const archOf = (id: string) => {
  const model = arches.find((arch) => arch.id === id);
  if (!model) throw new Error(id);
  return model.arch;
};

/** One reading a travel (up, right), on successive notes. */
function readingsAt(record: PlayerRecord, travels: readonly (readonly [number, number])[]): readonly ReadingAnalysis[] {
  const notes = ['C3', 'D3', 'E3', 'F3', 'G3', 'A3', 'B3', 'C4', 'D4', 'E4'];
  const { readings, problems } = analyse({
    ...record,
    readings: travels.map(([upMm, rightMm], index) => ({ note: notes[index]!, travel: { upMm, rightMm } })),
  });
  expect(problems).toEqual([]);
  return readings;
}

const everyInstrument = instruments.map(({ id }) => [id, defaultRecord(id)] as const);
const everyRim = rims.map(({ id, rim }): readonly [string, RimSpec] => [id, rim]);

describe('a lower jaw that stands further back tilts the horn down', () => {
  it.each(everyRim)('%s rim', (_, rim) => {
    const record = { ...defaultRecord('tenor-trombone'), rim };
    const average = analyse({ ...record, arch: archOf('average') }).home.follow.pose.elevationDeg;
    const receded = analyse({ ...record, arch: archOf('receded-lower-jaw') }).home.follow.pose.elevationDeg;
    expect(receded).toBeLessThan(average - 1);
  });

  it('and the further, the more', () => {
    const record = defaultRecord('trumpet');
    const arch = archOf('average');
    if ('single' in arch) throw new Error('two jaws');
    const elevations = [0, -1, -2, -3, -4, -5].map(
      (forwardMm) => analyse({ ...record, arch: { ...arch, jaw: { ...arch.jaw, forwardMm } } }).home.follow.pose.elevationDeg,
    );
    elevations.slice(1).forEach((elevation, index) => expect(elevation).toBeLessThan(elevations[index]!));
  });
});

describe('opposite travels on the same arch ask for opposite swings', () => {
  it.each(everyInstrument)('%s: to the right the bell swings right, to the left left', (_, record) => {
    const [right, left] = readingsAt(record, [[0, 3], [0, -3]]);
    expect(right!.changeFromHome.lateralDeg).toBeGreaterThan(1);
    expect(left!.changeFromHome.lateralDeg).toBeLessThan(-1);
    // An even arch: the same swing to either side.
    expectWithin(right!.changeFromHome.lateralDeg, -left!.changeFromHome.lateralDeg, { abs: 1e-6 });
  });

  it.each(everyInstrument)('%s: up and down ask for elevations of opposite sign', (_, record) => {
    const [up, down] = readingsAt(record, [[2, 0], [-2, 0]]);
    expect(up!.changeFromHome.elevationDeg * down!.changeFromHome.elevationDeg).toBeLessThan(0);
  });

  it('the two invented players, who travel opposite ways, end at opposite changes of elevation', () => {
    const highest = demoPlayers.map(({ record }) => {
      const { readings } = analyse(record);
      return readings.reduce((top, reading) => (reading.midi > top.midi ? reading : top));
    });
    const [one, two] = highest;
    expect(one!.travel.upMm * two!.travel.upMm).toBeLessThan(0);
    expect(one!.changeFromHome.elevationDeg * two!.changeFromHome.elevationDeg).toBeLessThan(0);
  });
});

describe('on the average arch sideways travel asks for more swing per millimetre than vertical travel', () => {
  it.each(everyInstrument)('%s', (_, record) => {
    for (const mm of [1, 2, 3]) {
      const [right, up, down] = readingsAt({ ...record, arch: archOf('average') }, [[0, mm], [mm, 0], [-mm, 0]]);
      const swing = (reading: ReadingAnalysis | undefined): number =>
        Math.hypot(reading!.changeFromHome.elevationDeg, reading!.changeFromHome.lateralDeg) / mm;
      expect(swing(right)).toBeGreaterThan(swing(up));
      expect(swing(right)).toBeGreaterThan(swing(down));
    }
  });
});

/** The rim and the lips move together over the teeth: the lip line keeps its place inside the rim. */
describe('a player’s lip share stays the same along a path', () => {
  it('by place: a dragged path does not move the lip line', () => {
    for (const { record } of demoPlayers) {
      const analysis = analyse(record);
      const moved = analyse({ ...record, readings: record.readings.map((reading) => ({ ...reading, travel: { upMm: 0.5, rightMm: 1 } })) });
      expect(moved.home.lipLineMm).toBe(analysis.home.lipLineMm);
    }
  });

  it('by load on a plate, where nothing else changes: the same part of the force on the upper lip everywhere', () => {
    const record: PlayerRecord = {
      ...defaultRecord('trumpet'),
      arch: { single: { form: { kind: 'line' }, profile: { kind: 'straight' } } },
      upperLipShare: { value: 2 / 3, by: 'diameter' },
    };
    const readings = readingsAt(record, [[0, 0], [4, 0], [-3, 2], [1, -5]]);
    for (const reading of readings) {
      expectWithin(reading.follow.load.lipShare.upper, readings[0]!.follow.load.lipShare.upper, { abs: 1e-9 });
      expect(reading.follow.load.lipShare.upper).toBeGreaterThan(0.5);
    }
  });
});
