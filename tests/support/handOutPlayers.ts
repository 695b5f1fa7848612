/** Invented players for looking at the hand-out: the ready-made ones, and some that strain it. */
import type { Estimate, Findings } from '../../src/core/findings/findings';
import { noteName } from '../../src/core/pitch';
import type { PlayerRecord, ReadingSpec } from '../../src/core/specs';
import { arches, demoPlayers } from '../../src/records/library';
import { defaultRecord } from './records';

export function inventedPlayer(name: string): PlayerRecord {
  const [up, down] = demoPlayers.map(({ record }) => record) as [PlayerRecord, PlayerRecord];
  switch (name) {
    case 'up':
      return up;
    case 'down':
      return down;
    case 'tuba': {
      const record = defaultRecord('tuba');
      return { ...record, player: { ...record.player, label: 'Invented tuba player' }, readings: risen(record.readings, 0.8, -0.3) };
    }
    case 'broad':
      return { ...up, arch: arches.find(({ id }) => id === 'broad')!.arch, player: { ...up.player, label: 'Invented, broad arch' } };
    case 'one':
      return { ...up, readings: up.readings.filter(({ note }) => note === up.home?.note) };
    case 'none':
      return { ...up, readings: [] };
    case 'many':
      return { ...up, readings: manyNotes(24) };
    case 'too-many':
      return { ...up, readings: manyNotes(40) };
    case 'widest':
      // Five octaves, and two travels that no mouth has.
      return {
        ...up,
        home: { note: 'F4' },
        readings: [
          ...Array.from({ length: 38 }, (_, index) => ({
            note: noteName(36 + Math.round(index * 1.6)),
            travel: { upMm: (index - 18) * 0.1, rightMm: (index - 18) * 0.05, sdMm: 0.4 },
          })),
          { note: 'C1', travel: { upMm: 0, rightMm: 400 } },
          { note: 'D1', travel: { upMm: 0, rightMm: 400 } },
        ],
      };
    default:
      throw new RangeError(`player ${JSON.stringify(name)}; allowed: up, down, tuba, broad, one, none, many, too-many, widest`);
  }
}

/** Travel that grows evenly with the readings, from nothing at the middle one. */
function risen(readings: readonly ReadingSpec[], upMm: number, rightMm: number): readonly ReadingSpec[] {
  const middle = Math.floor((readings.length - 1) / 2);
  return readings.map((reading, index) => ({ ...reading, travel: { upMm: (index - middle) * upMm, rightMm: (index - middle) * rightMm } }));
}

/** A chromatic run from E3 with ledger lines below and above. */
function manyNotes(count: number): readonly ReadingSpec[] {
  return Array.from({ length: count }, (_, index) => ({
    note: noteName(52 + index),
    travel: { upMm: (index - 13) * 0.15, rightMm: (index - 13) * 0.08, sdMm: 0.4 },
  }));
}

const estimate = (value: number, sd: number): Estimate => ({ value, sd, low: value - 2 * sd, high: value + 2 * sd });
const evidence = { notes: 8, readings: 16 };

/** As long as they come: everything is told, and the travel turns back. */
export const inventedFindings: Findings = {
  travel: [{
    direction: null,
    line: {
      kind: 'told', evidence, fromUpDeg: estimate(21, 4), mmPerOctave: estimate(2.1, 0.2), upMmPerOctave: estimate(1.9, 0.2),
      middleMm: { upMm: 0, rightMm: 0 }, extentMm: estimate(4.2, 0.3), offLineMm: 0.4, expectedOffLineMm: 0.4, straightP: 0.5,
    },
    way: { kind: 'told', evidence, way: 'pushes-up' },
    turnBack: {
      kind: 'told', evidence, found: true, p: 0.01, at: { note: 'F5', midi: 77, sizeMm: 1.6, side: 'above' },
      takesFor: { eye: { sizeMm: 2, takes: null }, ruler: { sizeMm: 2, takes: 4 }, video: { sizeMm: 2, takes: 1 } },
    },
  }],
  airstream: { kind: 'cannot-tell', reason: 'not-seen', needs: [] },
  follow: {
    elevation: { kind: 'told', evidence, ratio: estimate(0.8, 0.15), offsetDeg: 0, points: [], fitP: 0.5 },
    lateral: { kind: 'told', evidence, ratio: estimate(0.7, 0.2), offsetDeg: 0, points: [], fitP: 0.5 },
  },
};
