/** What the moving picture is told against what is written down: a glance is quick, and this is how far it may be off. */
import { expect, it } from 'vitest';
import { analyse, workingsOf } from '../../src/core/analyse';
import type { Analysis, ReadingAnalysis } from '../../src/core/analysis';
import type { PlayerRecord } from '../../src/core/specs';
import { arches, rims } from '../../src/records/library';
import { demoPlayers } from '../support/demos';
import { expectWithin } from '../support/expectWithin';

const PLACES = 12;
const ANGLE_DEG = 0.01;
const SHARE = 0.02;
const PEAK_PART = 0.08;

/** Steps of a hand that takes the rim far up and down and across, as no player would. */
const placeOf = (step: number): { upMm: number; rightMm: number } => ({
  upMm: 7 * Math.sin(step / 4.1) + 0.4 * Math.sin(step / 1.7),
  rightMm: 3 * Math.sin(step / 3.1),
});

const moved = (record: PlayerRecord, travel: { upMm: number; rightMm: number }): PlayerRecord => ({
  ...record,
  readings: record.readings.map((reading, index) =>
    index === record.readings.length - 1 ? { ...reading, travel: { ...reading.travel, ...travel } } : reading),
});

const lastOf = (analysis: Analysis, record: PlayerRecord): ReadingAnalysis | undefined =>
  analysis.readings.find((one) => one.sources.includes(record.readings.length - 1));

/** Lips other than the demo players' own: thin ones, thick soft ones under much force. */
const LIPS = [
  null,
  { thicknessMm: 6, effectiveModulusKPa: 100, newtons: 50 },
  { thicknessMm: 12, effectiveModulusKPa: 50, newtons: 50 },
] as const;

function withLips(record: PlayerRecord, other: (typeof LIPS)[number]): PlayerRecord {
  if (other === null) return record;
  const { newtons, ...lip } = other;
  return { ...record, lips: { ...record.lips, upper: lip, lower: { ...lip, thicknessMm: lip.thicknessMm + 1 } }, force: { newtons } };
}

const mouths = demoPlayers.flatMap((player) =>
  [arches[0]!, arches[3]!].flatMap((arch) =>
    [rims[0]!, rims.at(-1)!].flatMap((rim) =>
      LIPS.map((lips) => ({
        name: `${player.name}, ${arch.name}, ${rim.name}, ${lips === null ? 'own lips' : `${lips.thicknessMm} mm, ${lips.effectiveModulusKPa} kPa, ${lips.newtons} N`}`,
        record: withLips({ ...player.record, arch: arch.arch, rim: rim.rim }, lips),
        own: lips === null,
      })))));

it.each(mouths)('a glance is near the full answer: $name', ({ record, own }) => {
  let analysis = analyse(record);
  let compared = 0;
  for (let step = 0; step < PLACES; step++) {
    const now = moved(record, placeOf(step));
    analysis = analyse(now, analysis, 'glance');
    const glance = lastOf(analysis, now);
    const full = lastOf(analyse(now), now);
    if (glance === undefined || full === undefined) continue;
    compared++;
    expect(glance.detail).toBe('glance');
    expectWithin(glance.follow.pose.elevationDeg, full.follow.pose.elevationDeg, { abs: ANGLE_DEG }, `elevation at ${step}`);
    expectWithin(glance.follow.pose.lateralDeg, full.follow.pose.lateralDeg, { abs: ANGLE_DEG }, `lateral at ${step}`);
    // What the load may be off by is promised for lips as players have them.
    for (const which of own ? (['follow', 'held'] as const) : []) {
      const [quick, slow] = [glance[which].load, full[which].load];
      expectWithin(quick.share.upper, slow.share.upper, { abs: SHARE }, `${which}: upper share at ${step}`);
      expectWithin(quick.share.left, slow.share.left, { abs: SHARE }, `${which}: left share at ${step}`);
      expectWithin(quick.peakOverMeanPressure, slow.peakOverMeanPressure, { rel: PEAK_PART }, `${which}: peak at ${step}`);
    }
  }
  expect(compared).toBeGreaterThan(PLACES / 2);
});

it('a full look after a glance at the same place is as if there had been no glance', () => {
  const { record } = demoPlayers[0]!;
  const home = analyse(record);
  const { session } = workingsOf(home);
  const request = { upMm: home.home.upMm + 6.4, rightMm: home.home.rightMm + 2.3, forceN: record.force.newtons, jaw: null };
  const fresh = workingsOf(analyse({ ...record, rim: { ...record.rim } })).session;
  const truth = fresh.follow(request, home.home.follow.pose);
  const glance = session.follow(request, home.home.follow.pose, 'glance');
  if (truth.kind !== 'seated' || glance.kind !== 'seated') throw new Error('no seat where one is wanted');
  const after = session.follow(request, glance.pose);
  if (after.kind !== 'seated') throw new Error('no seat after the glance');
  expectWithin(after.pose.elevationDeg, truth.pose.elevationDeg, { abs: 1e-6 }, 'elevation');
  expectWithin(after.pose.lateralDeg, truth.pose.lateralDeg, { abs: 1e-6 }, 'lateral');
  // Else the glance was as good as the full answer, and nothing was at stake.
  expect(Math.abs(glance.pose.elevationDeg - truth.pose.elevationDeg)).toBeGreaterThan(1e-5);
});
