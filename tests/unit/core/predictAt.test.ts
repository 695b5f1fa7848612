import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { computeBands } from '../../../src/core/bands';
import { createLive } from '../../../src/core/live';
import { midiOf } from '../../../src/core/pitch';
import { predictAt, recordWithNotes } from '../../../src/core/predictAt';
import type { PlayerRecord } from '../../../src/core/specs';
import { demoPlayers } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';

const { record } = demoPlayers[0]!;
const analysis = analyse(record);
const [low, high] = [analysis.readings[0]!.midi, analysis.readings.at(-1)!.midi];
const everySemitone = Array.from({ length: high - low + 1 }, (_, index) => low + index);

describe('predictions between the readings', () => {
  const predictions = predictAt(analysis, everySemitone);

  it('has every semitone of the path, low to high, and says which were measured', () => {
    expect(predictions.map(({ midi }) => midi)).toEqual(everySemitone);
    expect(predictions.filter(({ measured }) => measured).map(({ note }) => note)).toEqual(record.readings.map(({ note }) => note));
  });

  it('at a reading is the analysis itself, with its band', () => {
    const bands = computeBands(analysis);
    analysis.readings.forEach((reading, index) => {
      const found = predictions.find(({ midi }) => midi === reading.midi)!;
      expectWithin(found.changeFromHome.elevationDeg, reading.changeFromHome.elevationDeg, { abs: 1e-9 }, reading.note);
      expectWithin(found.band.lateralSdDeg, bands[index]!.change.lateralSdDeg, { abs: 1e-9 }, `${reading.note}: band`);
      expect(found.predictedHorn).toEqual(reading.predictedHorn);
    });
  });

  it('between readings is what the moving picture shows there', () => {
    const live = createLive(analysis, true);
    for (const { midi, changeFromHome, measured } of predictions) {
      if (measured) continue;
      const { follow } = live.atPitch(midi, { horn: 'follow', view: 'seated' })!;
      expectWithin(follow.pose.elevationDeg - analysis.home.follow.pose.elevationDeg, changeFromHome.elevationDeg, { abs: 0.02 }, `elevation at ${midi}`);
      expectWithin(follow.pose.lateralDeg - analysis.home.follow.pose.lateralDeg, changeFromHome.lateralDeg, { abs: 0.02 }, `lateral at ${midi}`);
    }
  });

  it('takes each deviation of the travel between those of its neighbours', () => {
    const [first, second] = analysis.readings.toSorted((a, b) => a.midi - b.midi);
    const sds = new Map([[first!.midi, [0.2, 1]], [second!.midi, [0.4, 3]]]);
    const readings = record.readings.map((reading) => {
      const [sdMm, rightSdMm] = sds.get(midiOf(reading.note)) ?? [1, 1];
      return { ...reading, travel: { upMm: 0, rightMm: 0, ...reading.travel, sdMm, rightSdMm } };
    });
    const middle = Math.floor((first!.midi + second!.midi) / 2);
    const part = (middle - first!.midi) / (second!.midi - first!.midi);
    const added = recordWithNotes(analyse({ ...record, readings }), [middle]).readings.at(-1)!.travel!;
    expectWithin(added.sdMm!, 0.2 + 0.2 * part, { abs: 1e-12 });
    expectWithin(added.rightSdMm!, 1 + 2 * part, { abs: 1e-12 });
  });

  it('leaves out what lies beyond the readings, and refuses half a semitone', () => {
    expect(predictAt(analysis, [low - 1, low, high + 1]).map(({ midi }) => midi)).toEqual([low]);
    expect(() => predictAt(analysis, [60.5])).toThrow(/midis\[0\]: 60.5/);
  });

  it('keeps the ways apart', () => {
    const both: PlayerRecord = {
      ...record,
      readings: record.readings.flatMap((reading) => [
        { ...reading, direction: 'up' as const },
        { ...reading, direction: 'down' as const, travel: { ...reading.travel!, upMm: reading.travel!.upMm * 0.5 } },
      ]),
    };
    const [up, down] = (['up', 'down'] as const).map((way) => predictAt(analyse(both), [high - 1, high], way));
    expect(up!.map(({ direction, measured }) => [direction, measured])).toEqual([['up', false], ['up', true]]);
    expect(down!.map(({ direction }) => direction)).toEqual(['down', 'down']);
    expect(down![0]!.changeFromHome.elevationDeg).toBeLessThan(up![0]!.changeFromHome.elevationDeg);
  });
});
