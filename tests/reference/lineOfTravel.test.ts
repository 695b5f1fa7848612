/**
 * The line of travel on simulated players: 95 % intervals hold the truth in 93 to 97 %, and takes asked for do what they promise.
 * No outside truth beyond the players' own.
 */
import { describe, expect, it } from 'vitest';
import { lineOfTravel } from '../../src/core/findings/lineOfTravel';
import { createRandom } from '../../src/core/random';
import { expectWithin } from '../support/expectWithin';
import { midisOver, seenWay } from '../support/simulatedWays';

const PLAYERS = 2000;
const SEED = 31;
const RANGE_SEMITONES = 30;
/** Three binomial deviations of 95 % in 2,000 players are 1.5 points. */
const COVERED: readonly [number, number] = [0.93, 0.97];

interface Made {
  readonly sdMm: number;
  /** Absent: as up. */
  readonly rightSdMm?: number;
  readonly mmPerOctave: number;
  readonly notes: number;
}

describe.each([
  { sdMm: 0.3, mmPerOctave: 2, notes: 5 },
  { sdMm: 0.3, mmPerOctave: 1.5, notes: 13 },
  { sdMm: 0.7, mmPerOctave: 2, notes: 7 },
  { sdMm: 1, mmPerOctave: 3, notes: 7 },
  { sdMm: 1, mmPerOctave: 4, notes: 5 },
  { sdMm: 1.5, mmPerOctave: 4, notes: 9 },
  { sdMm: 0.3, rightSdMm: 0.9, mmPerOctave: 3, notes: 7 },
] as readonly Made[])('$notes notes, deviation $sdMm mm (right $rightSdMm), $mmPerOctave mm per octave', ({ sdMm, rightSdMm, mmPerOctave, notes }) => {
  const midis = midisOver(notes, RANGE_SEMITONES);
  const along = midis.map((midi) => (mmPerOctave * (midi - 60)) / 12);

  it.each([0, 20, -70, 130, 180])(`up is %d° from straight up: intervals of ${PLAYERS} players (seed ${SEED})`, (fromUpDeg) => {
    const random = createRandom(SEED);
    const truths = { mmPerOctave, upMmPerOctave: mmPerOctave * Math.cos((fromUpDeg * Math.PI) / 180), extentMm: along[notes - 1]! - along[0]! };
    const held = { fromUpDeg: 0, mmPerOctave: 0, upMmPerOctave: 0, extentMm: 0, straight: 0 };
    let told = 0;
    for (let player = 0; player < PLAYERS; player++) {
      const line = lineOfTravel(seenWay(midis, along, fromUpDeg, sdMm, random, rightSdMm));
      if (line.kind === 'cannot-tell') continue;
      told++;
      const off = ((((fromUpDeg - line.fromUpDeg.value + 180) % 360) + 360) % 360) - 180;
      if (line.fromUpDeg.value + off >= line.fromUpDeg.low && line.fromUpDeg.value + off <= line.fromUpDeg.high) held.fromUpDeg++;
      for (const what of ['mmPerOctave', 'upMmPerOctave', 'extentMm'] as const) {
        if (truths[what] >= line[what].low && truths[what] <= line[what].high) held[what]++;
      }
      if (line.straightP > 0.05) held.straight++;
    }
    expect(told / PLAYERS, 'told').toBeGreaterThan(0.97);
    for (const [what, count] of Object.entries(held)) {
      expect(count / told, `${what} held`).toBeGreaterThanOrEqual(COVERED[0]);
      expect(count / told, `${what} held`).toBeLessThanOrEqual(COVERED[1]);
    }
  });
});

it(`players who hold still are told a line in 3 of 100 at most (${PLAYERS}, seed ${SEED})`, () => {
  const random = createRandom(SEED);
  const midis = midisOver(9, RANGE_SEMITONES);
  const told = Array.from({ length: PLAYERS }, () => lineOfTravel(seenWay(midis, midis.map(() => 0), 0, 1, random))).filter(({ kind }) => kind === 'told');
  expect(told.length / PLAYERS).toBeLessThanOrEqual(0.03);
});

it(`the takes asked for at the two ends let a line be told about four times in five (${PLAYERS} players, seed ${SEED})`, () => {
  const random = createRandom(SEED);
  const midis = midisOver(5, RANGE_SEMITONES);
  // A travel of exactly the size that takes are worked out for where less is seen: 2 mm over the range.
  const along = midis.map((midi) => (2 * (midi - 60)) / RANGE_SEMITONES);
  const still = lineOfTravel({ direction: null, notes: midis.map((midi) => ({ note: 'C4', midi, upMm: 0, rightMm: 0, sdMm: 1, rightSdMm: 1, readings: 1 })) });
  if (still.kind === 'told') throw new Error('told of readings that are all alike');
  const [need] = still.needs;
  expect(need!.takes).toBeGreaterThan(1);
  const told = Array.from({ length: PLAYERS }, () => {
    const once = seenWay(midis, along, 20, 1, random);
    const ends = seenWay(midis, along, 20, 1 / Math.sqrt(1 + need!.takes), random);
    return lineOfTravel({ direction: null, notes: once.notes.map((note, i) => (i === 0 || i === midis.length - 1 ? ends.notes[i]! : note)) });
  }).filter(({ kind }) => kind === 'told').length;
  // Whole takes overshoot, and direction as well as sense must be sure.
  expectWithin(told / PLAYERS, 0.8, { abs: 0.08 }, 'told');
});
