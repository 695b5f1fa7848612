import { describe, expect, it } from 'vitest';
import { analyse, homePlace, workingsOf } from '../../../src/core/analyse';
import type { Analysis } from '../../../src/core/analysis';
import { computeBands } from '../../../src/core/bands';
import { createLive, samplePath } from '../../../src/core/live';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import type { HornSpec, PlayerRecord } from '../../../src/core/specs';
import { HomeUnseatedError } from '../../../src/core/words';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';
import { defaultRecord } from '../../support/records';

/** What an answer owes to where its search began, degrees. */
const SAME_DEG = 1e-6;
const player = demoPlayers[0]!.record;

function sameAnswers(one: Analysis, two: Analysis, abs = SAME_DEG): void {
  expect(one.readings.length).toBe(two.readings.length);
  expect(one.problems).toEqual(two.problems);
  one.readings.forEach((reading, index) => {
    const other = two.readings[index]!;
    for (const question of ['follow', 'held'] as const) {
      expectWithin(reading[question].pose.elevationDeg, other[question].pose.elevationDeg, { abs });
      expectWithin(reading[question].pose.lateralDeg, other[question].pose.lateralDeg, { abs });
      expectWithin(reading[question].load.share.upper, other[question].load.share.upper, { abs });
    }
    expectWithin(reading.changeFromHome.elevationDeg, other.changeFromHome.elevationDeg, { abs });
    for (const view of ['plate', 'sphere', 'normal'] as const) {
      expectWithin(reading.views[view].changeFromHome.lateralDeg, other.views[view].changeFromHome.lateralDeg, { abs });
    }
  });
}

describe('an analysis made from the one before', () => {
  const before = analyse(player);

  it('of the same record equals it', () => {
    sameAnswers(analyse(player, before), before);
  });

  const changes: [string, (record: PlayerRecord) => PlayerRecord][] = [
    ['one travel', (r) => ({ ...r, readings: r.readings.map((each, i) => (i === 1 ? { ...each, travel: { ...each.travel!, upMm: each.travel!.upMm + 0.7 } } : each)) })],
    ['the force', (r) => ({ ...r, force: { newtons: r.force.newtons * 1.3 } })],
    ['home', (r) => ({ ...r, home: { ...r.home, upMm: (r.home?.upMm ?? homePlace(r).upMm) + 1 } })],
    ['the share', (r) => ({ ...r, upperLipShare: { value: 0.55, by: 'diameter' } })],
    ['a lip', (r) => ({ ...r, lips: { ...r.lips, upper: { ...r.lips.upper, thicknessMm: 14 } } })],
    ['the instrument’s rim', (r) => ({ ...r, rim: defaultRecord('tuba').rim })],
    ['a reading taken away', (r) => ({ ...r, readings: r.readings.slice(1) })],
    ['a horn angle', (r) => ({ ...r, readings: r.readings.map((each) => ({ ...each, horn: { elevationDeg: -5, lateralDeg: 2 } })) })],
  ];
  it.each(changes)('after a change of %s equals a fresh one', (_, change) => {
    const changed = change(player);
    const reused = analyse(changed, before);
    const fresh = analyse(changed);
    sameAnswers(reused, fresh);
    expect(reused.readings.map((reading) => reading.predictedHorn === null)).toEqual(fresh.readings.map((reading) => reading.predictedHorn === null));
  });

  it('keeps what did not change: the readings’ own answers are the same objects', () => {
    const [name, change] = changes[0]!;
    expect(name).toBe('one travel');
    const after = analyse(change(player), before);
    expect(after.readings[2]!.follow).toBe(before.readings[2]!.follow);
    expect(after.readings[1]!.follow).not.toBe(before.readings[1]!.follow);
  });
});

describe('home', () => {
  it('absent, has the lip line at mid-opening: −opening/2 + r·(2·share − 1)', () => {
    const record: PlayerRecord = { ...defaultRecord('trumpet'), upperLipShare: { value: 0.6, by: 'diameter' } };
    if ('single' in record.arch) throw new Error('two jaws');
    const { home: _home, ...homeless } = record;
    const place = homePlace(homeless);
    expectWithin(place.upMm, -record.arch.jaw.openingMm / 2 + (record.rim.innerDiameterMm / 2) * 0.2, { abs: 1e-12 });
    expect(place.rightMm).toBe(0);
    const { home } = analyse(homeless);
    expectWithin(home.upMm + home.lipLineMm, -record.arch.jaw.openingMm / 2, { abs: 1e-12 });
  });

  it('without a seat is an error that says where; a reading without one is a problem in words', () => {
    expect(() => analyse({ ...player, home: { upMm: 55, rightMm: 60 } })).toThrow(HomeUnseatedError);
    const { readings, problems } = analyse({ ...player, readings: [...player.readings, { note: 'C2', travel: { upMm: 55, rightMm: 60 } }] });
    expect(readings.length).toBe(player.readings.length);
    expect(problems).toHaveLength(1);
    expect(problems[0]!.readingIndex).toBe(player.readings.length);
    expect(problems[0]!.words).toContain('C2');
  });

  it('a predicted horn is the angle measured at home and the change from there', () => {
    const note = player.home!.note!;
    const readings = player.readings.map((each) => (each.note === note ? { ...each, horn: { elevationDeg: -11, lateralDeg: 3 } } : each));
    const { home, readings: answered } = analyse({ ...player, readings });
    expect(home.measured?.elevationDeg).toBe(-11);
    for (const reading of answered) {
      expectWithin(reading.predictedHorn!.elevationDeg!, -11 + reading.changeFromHome.elevationDeg, { abs: 1e-12 });
      expectWithin(reading.predictedHorn!.lateralDeg!, 3 + reading.changeFromHome.lateralDeg, { abs: 1e-12 });
    }
  });
});

describe('where one angle of the horn was not seen at home', () => {
  const note = player.home!.note!;
  const withHome = (horn: HornSpec) => analyse({ ...player, readings: player.readings.map((each) => (each.note === note ? { ...each, horn } : each)) });

  it.each([
    ['up and down', { elevationDeg: -11, lateralDeg: 3, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 2 }, 'elevation'],
    ['sideways', { elevationDeg: -11, lateralDeg: 3, sdDeg: 1, lateralSdDeg: UNSEEN_HORN_SD_DEG }, 'lateral'],
  ] as const)('%s: no angle is predicted there, and no band of one', (_, horn, unseen) => {
    const seen = unseen === 'lateral' ? 'elevation' : 'lateral';
    const analysis = withHome(horn);
    const bands = computeBands(analysis);
    analysis.readings.forEach(({ predictedHorn, changeFromHome }, index) => {
      expect(predictedHorn![`${unseen}Deg`]).toBeNull();
      expectWithin(predictedHorn![`${seen}Deg`]!, horn[`${seen}Deg`] + changeFromHome[`${seen}Deg`], { abs: 1e-12 });
      const { predicted } = bands[index]!;
      expect(predicted![`${unseen}SdDeg`]).toBeNull();
      expect(predicted![`${seen}SdDeg`]).toBeGreaterThan(0);
      expect(predicted![`${seen}SdDeg`]).toBeLessThan(UNSEEN_HORN_SD_DEG);
    });
  });

  it('neither was: there is no predicted horn', () => {
    const analysis = withHome({ elevationDeg: 0, lateralDeg: 0, sdDeg: UNSEEN_HORN_SD_DEG });
    expect(analysis.readings.every(({ predictedHorn }) => predictedHorn === null)).toBe(true);
    expect(computeBands(analysis).every(({ predicted }) => predicted === null)).toBe(true);
  });
});

describe('a full answer', () => {
  it.each(demoPlayers.map(({ id, record }) => [id, record] as const))('%s: owes nothing to where its search began', (_, record) => {
    const analysis = analyse(record);
    const { session } = workingsOf(analysis);
    const { home, readings } = analysis;
    readings.forEach((reading, index) => {
      const request = { upMm: home.upMm + reading.travel.upMm, rightMm: home.rightMm + reading.travel.rightMm, forceN: reading.forceN, jaw: reading.jaw };
      // The note before it, and the last one before the first.
      const elsewhere = readings.at(index - 1)!;
      session.follow({ ...request, upMm: home.upMm + elsewhere.travel.upMm, rightMm: home.rightMm + elsewhere.travel.rightMm }, elsewhere.follow.pose, 'glance');
      const follow = session.follow(request, elsewhere.follow.pose);
      const held = session.held(request, home.follow.pose, elsewhere.held.pose);
      if (follow.kind !== 'seated' || held.kind !== 'seated') throw new Error(`${reading.note}: no seat from elsewhere`);
      expectWithin(follow.pose.elevationDeg, reading.follow.pose.elevationDeg, { abs: 1e-8 }, `${reading.note}, elevation`);
      expectWithin(follow.pose.lateralDeg, reading.follow.pose.lateralDeg, { abs: 1e-8 }, `${reading.note}, lateral`);
      expectWithin(held.pose.rimCentreMm[2], reading.held.pose.rimCentreMm[2], { abs: 1e-8 }, `${reading.note}, depth held`);
    });
  });
});

describe('the moving picture', () => {
  /** Promised: a frame at a reading is that reading's analysis as far as anybody can see. It is a glance (glance.test.ts): here 2e-5° was seen. */
  const FRAME_DEG = 1e-4;

  it.each(demoPlayers.map(({ id, record }) => [id, record] as const))('%s: at a reading it shows that reading’s analysis', (_, record) => {
    const analysis = analyse(record);
    const live = createLive(analysis);
    for (const reading of analysis.readings) {
      const frame = live.atPitch(reading.midi, { horn: 'follow', view: 'seated', direction: reading.direction })!;
      expectWithin(frame.follow.pose.elevationDeg, reading.follow.pose.elevationDeg, { abs: FRAME_DEG }, `${reading.note}, elevation`);
      expectWithin(frame.follow.pose.lateralDeg, reading.follow.pose.lateralDeg, { abs: FRAME_DEG }, `${reading.note}, lateral`);
      expectWithin(frame.held.pose.rimCentreMm[2], reading.held.pose.rimCentreMm[2], { abs: FRAME_DEG }, `${reading.note}, depth held`);
      expect(frame.extrapolated).toBe(false);
    }
    expect(live.atPitch(analysis.readings[0]!.midi - 60, { horn: 'follow', view: 'seated' })!.extrapolated).toBe(true);
  });

  it('shows what was asked: held keeps home’s angle, the plate keeps home’s axis, and a drag asks by travel', () => {
    const analysis = analyse(player);
    const live = createLive(analysis);
    const travel = { upMm: 1.5, rightMm: -2 };
    const held = live.atTravel(travel, { horn: 'held', view: 'seated' })!;
    expectWithin(held.shown.lateralDeg, analysis.home.follow.pose.lateralDeg, { abs: 1e-12 });
    const plate = live.atTravel(travel, { horn: 'follow', view: 'plate' })!;
    expect(plate.shown.axis).toEqual(analysis.home.follow.pose.axis);
    expect(plate.midi).toBeNull();
    expect(live.atTravel({ upMm: 0, rightMm: 58 }, { horn: 'follow', view: 'seated' })).toBeNull();
  });

  it('a sampled path runs from the lowest to the highest reading', () => {
    const analysis = analyse(player);
    const live = createLive(analysis);
    const frames = samplePath(analysis, live, 24, { horn: 'follow', view: 'seated' });
    expect(frames).toHaveLength(24);
    expect(frames[0]!.midi).toBe(live.range!.low);
    expect(frames[23]!.midi).toBe(live.range!.high);
  });
});
