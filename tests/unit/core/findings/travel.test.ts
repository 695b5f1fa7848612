import { describe, expect, it } from 'vitest';
import { alongLine } from '../../../../src/core/findings/alongLine';
import { lineOfTravel } from '../../../../src/core/findings/lineOfTravel';
import { readingsOfWays } from '../../../../src/core/findings/readingsOfWay';
import { sayOf } from '../../../../src/core/findings/say';
import { FOUND_P, soughtTravel, takesFor, turnBack } from '../../../../src/core/findings/turnBack';
import { createTurnBackTest } from '../../../../src/core/findings/turnBackTest';
import { SIDEWAYS_WITHIN_DEG, whichWay } from '../../../../src/core/findings/whichWay';
import { createRandom } from '../../../../src/core/random';
import type { PlayerRecord, ReadingSpec } from '../../../../src/core/specs';
import { expectWithin } from '../../../support/expectWithin';
import { fullRecord } from '../../../support/records';
import { midisOver, seenWay } from '../../../support/simulatedWays';

const ROUNDING = { abs: 1e-9 };
const SEED = 3;

const withReadings = (readings: ReadingSpec[]): PlayerRecord => ({ ...fullRecord(), readings });

/** Places along a direction with no error at all, which claim `sdMm`. */
function exactWay(midis: readonly number[], alongMm: readonly number[], fromUpDeg: number, sdMm: number) {
  const way = seenWay(midis, alongMm, fromUpDeg, 0, createRandom(SEED));
  return { ...way, notes: way.notes.map((note) => ({ ...note, sdMm, rightSdMm: sdMm })) };
}

describe('readings of each way of playing', () => {
  it('pools takes by their deviations, leaves out what nobody saw, keeps ascending and descending apart', () => {
    const ways = readingsOfWays(
      withReadings([
        { note: 'C5', travel: { upMm: 4, rightMm: 1, sdMm: 1 }, direction: 'up' },
        { note: 'C5', travel: { upMm: 1, rightMm: 4, sdMm: 0.5, rightSdMm: 2 }, direction: 'up' },
        { note: 'C5', travel: { upMm: 9, rightMm: 9 }, direction: 'down' },
        { note: 'C4', travel: { upMm: 0, rightMm: 0, sdMm: 0 } },
        { note: 'G4', direction: 'up' },
      ]),
    );
    expect(ways.map(({ direction, notes }) => [direction, notes.map(({ note }) => note)])).toEqual([
      ['up', ['C4', 'C5']],
      ['down', ['C4', 'C5']],
    ]);
    const [home, high] = ways[0]!.notes;
    expectWithin(home!.sdMm, 0.05, ROUNDING, 'exact counts as the smallest deviation');
    expectWithin(high!.upMm, (4 * 1 + 1 * 4) / 5, ROUNDING);
    expectWithin(high!.sdMm, 1 / Math.sqrt(5), ROUNDING);
    expectWithin(high!.rightMm, (1 * 1 + 4 * 0.25) / 1.25, ROUNDING, 'to the right by its own');
    expectWithin(high!.rightSdMm, 1 / Math.sqrt(1.25), ROUNDING);
    expect(high!.readings).toBe(2);
  });

  it('has no way where no travel was seen', () => {
    expect(readingsOfWays(withReadings([{ note: 'C4' }]))).toEqual([]);
  });
});

it('where no travel was seen each part on the travel asks for notes', () => {
  const more = [{ notes: [], takes: 1, of: 'travel' }];
  const { findings, ways } = sayOf({ ...fullRecord(), readings: [{ note: 'F3' }, { note: 'C4' }] });
  const missing = (moreNotes: number) => ({ kind: 'cannot-tell', reason: 'too-few-notes', needs: more.map((need) => ({ ...need, moreNotes })) });
  expect(findings.travel).toEqual([{ direction: null, line: missing(3), way: missing(3), turnBack: missing(4) }]);
  expect(ways).toEqual([{ notes: [], along: null }]);
  expect(sayOf({ ...fullRecord(), readings: [] }).findings.travel).toEqual(findings.travel);
});

describe('line of travel', () => {
  it.each([0, 35, 90, 150, -120, -45])('exact readings toward %d° give direction, extent and rise back', (fromUpDeg) => {
    const midis = midisOver(7, 24);
    const line = lineOfTravel(exactWay(midis, midis.map((midi) => (3 * (midi - 58)) / 12), fromUpDeg, 0.4));
    if (line.kind !== 'told') throw new Error(line.reason);
    expectWithin(line.fromUpDeg.value, fromUpDeg, ROUNDING);
    expectWithin(line.mmPerOctave.value, 3, ROUNDING);
    expectWithin(line.upMmPerOctave.value, 3 * Math.cos((fromUpDeg * Math.PI) / 180), ROUNDING);
    expectWithin(line.extentMm.value, 6, ROUNDING);
    expectWithin(line.offLineMm, 0, ROUNDING);
    expectWithin(line.straightP, 1, ROUNDING);
    expect(line.evidence).toEqual({ notes: 7, readings: 7 });
  });

  it('says which notes and how many are missing', () => {
    const two = exactWay([52, 64], [0, 4], 0, 0.5);
    expect(lineOfTravel(two)).toEqual({
      kind: 'cannot-tell',
      reason: 'too-few-notes',
      needs: [{ notes: [], takes: 1, moreNotes: 1, of: 'travel' }],
    });
    expect(lineOfTravel(exactWay([60, 61, 63], [0, 1, 2], 0, 0.5))).toMatchObject({ reason: 'too-little-range' });
    expect(lineOfTravel({ direction: null, notes: [] })).toMatchObject({ reason: 'too-few-notes', needs: [{ moreNotes: 3 }] });
  });

  it('cannot tell little travel, and asks for fewer takes the more was seen', () => {
    const midis = midisOver(5, 24);
    const needed = [0, 2.6, 3.2].map((extentMm) => {
      const line = lineOfTravel(exactWay(midis, midis.map((midi) => (extentMm * midi) / 24), 10, 1.2));
      if (line.kind === 'told') throw new Error(`told at ${extentMm} mm`);
      expect(line.needs[0]!.notes).toEqual(['E3', 'E5']);
      return line.needs[0]!.takes;
    });
    expect(needed[0]).toBeGreaterThanOrEqual(needed[1]!);
    expect(needed[1]).toBeGreaterThan(needed[2]!);
    const still = lineOfTravel(exactWay(midis, midis.map(() => 0), 0, 1.2));
    expect(still).toMatchObject({ reason: 'too-little-travel' });
  });

  it('a bend beyond the deviations makes a straight line unlikely', () => {
    const midis = midisOver(9, 24);
    const way = exactWay(midis, midis.map((midi) => (midi - 64) / 4), 0, 0.3);
    const bent = { ...way, notes: way.notes.map((note) => ({ ...note, rightMm: 1.5 * ((note.midi - 64) / 12) ** 2 })) };
    const line = lineOfTravel(bent);
    if (line.kind !== 'told') throw new Error(line.reason);
    expect(line.straightP).toBeLessThan(0.05);
    expect(line.offLineMm).toBeGreaterThan(line.expectedOffLineMm);
  });
});

describe('which way', () => {
  const midis = midisOver(7, 24);
  const rising = midis.map((midi) => midi / 4);

  it.each([
    [0, 'pushes-up'],
    [-50, 'pushes-up'],
    [180, 'pulls-down'],
    [130, 'pulls-down'],
    [90, 'to-the-side'],
    [-95, 'to-the-side'],
  ] as const)('%d° from straight up: %s', (fromUpDeg, way) => {
    expect(whichWay(exactWay(midis, rising, fromUpDeg, 0.5))).toMatchObject({ kind: 'told', way });
  });

  it('near level but not surely, it asks for takes of the lowest and highest note, and with them it tells', () => {
    const unsure = exactWay(midis, rising, 90 - 0.6 * SIDEWAYS_WITHIN_DEG, 1);
    const finding = whichWay(unsure);
    if (finding.kind === 'told') throw new Error(finding.way);
    expect(finding).toMatchObject({ reason: 'too-unsure', needs: [{ notes: ['E3', 'E5'], of: 'travel' }] });
    const more = Math.sqrt(1 + finding.needs[0]!.takes);
    const notes = unsure.notes.map((note, i) => (i === 0 || i === midis.length - 1 ? { ...note, sdMm: note.sdMm / more, rightSdMm: note.rightSdMm / more } : note));
    expect(whichWay({ direction: null, notes }).kind).toBe('told');
  });
});

describe('a side seen otherwise than up', () => {
  const midis = midisOver(9, 30);
  const rising = midis.map((midi) => (midi - midis[0]!) / 6);
  const way = (fromUpDeg: number, sdMm: number, rightSdMm: number) => {
    const { notes, ...rest } = exactWay(midis, rising, fromUpDeg, sdMm);
    return { ...rest, notes: notes.map((note) => ({ ...note, rightSdMm })) };
  };

  it('widens a place along the line as far as the line runs sideways', () => {
    const sds = (fromUpDeg: number) => alongLine(way(fromUpDeg, 0.3, 0.6), fromUpDeg).map(({ sdMm }) => sdMm);
    sds(0).forEach((sd) => expectWithin(sd, 0.3, ROUNDING, 'straight up'));
    sds(90).forEach((sd) => expectWithin(sd, 0.6, ROUNDING, 'level'));
    sds(45).forEach((sd) => expectWithin(sd, Math.sqrt(0.09 + 0.36) / Math.SQRT2, ROUNDING, 'between'));
  });

  it('leaves the rise and its interval as they are, and blurs the line’s direction where it runs up', () => {
    const [alike, blurred] = [lineOfTravel(way(0, 0.3, 0.3)), lineOfTravel(way(0, 0.3, 0.9))];
    if (alike.kind !== 'told' || blurred.kind !== 'told') throw new Error('a line is told');
    expectWithin(blurred.upMmPerOctave.sd, alike.upMmPerOctave.sd, ROUNDING);
    expectWithin(blurred.mmPerOctave.sd, alike.mmPerOctave.sd, ROUNDING);
    expectWithin(blurred.extentMm.sd, alike.extentMm.sd, ROUNDING);
    expectWithin(blurred.fromUpDeg.value, 0, ROUNDING);
    // Three times for small angles; the interval's bend adds to it.
    expectWithin(blurred.fromUpDeg.sd / alike.fromUpDeg.sd, 3, { rel: 0.05 });
  });

  it('that is seen worse makes a turn-back along it less sure, and not one upward', () => {
    const along = soughtTravel(midis, 0.6);
    const p = (fromUpDeg: number, rightSdMm: number): number => {
      const { notes } = exactWay(midis, along, fromUpDeg, 0.4);
      const found = turnBack({ direction: null, notes: notes.map((note) => ({ ...note, rightSdMm })) }, createRandom(SEED));
      if (found.kind !== 'told') throw new Error(found.reason);
      return found.p;
    };
    expectWithin(p(0, 0.8), p(0, 0.4), { abs: 0.01 }, 'upward');
    expect(p(90, 0.8)).toBeGreaterThan(3 * p(90, 0.4));
  });
});

describe('turn-back', () => {
  const midis = midisOver(13, 30);

  it('the same seed gives the same p; mirrored, turned over or shifted travel gives the same too', () => {
    const values = soughtTravel(midis, 0.25).map((each, i) => each + 0.3 * Math.sin(7 * i));
    const sds = midis.map((_, i) => 0.3 + 0.02 * i);
    const p = (places: readonly number[]): number => createTurnBackTest(midis, sds, createRandom(SEED)).p(places);
    expect(p(values)).toBe(p(values));
    expectWithin(p(values.map((each) => -each)), p(values), ROUNDING);
    expectWithin(p(values.map((each) => each + 40)), p(values), { abs: 1e-3 });
  });

  it('finds a plain one and names its note, size and side, at the top and at the bottom', () => {
    const top = turnBack(exactWay(midis, soughtTravel(midis, 0.25, 3), 15, 0.4), createRandom(SEED));
    if (top.kind !== 'told') throw new Error(top.reason);
    expect(top.found).toBe(true);
    expect(top.p).toBeLessThanOrEqual(FOUND_P);
    expect(top.at).toMatchObject({ midi: midis[9], side: 'above' });
    expectWithin(top.at!.sizeMm, 3, ROUNDING);
    const lowFirst = soughtTravel(midis.map((midi) => -midi).reverse(), 0.25, 3).reverse();
    const bottom = turnBack(exactWay(midis, lowFirst, 15, 0.4), createRandom(SEED));
    if (bottom.kind !== 'told') throw new Error(bottom.reason);
    expect(bottom.at).toMatchObject({ midi: midis[3], side: 'below' });
  });

  it('names no place where none stands out, but how many takes it would need', () => {
    const finding = turnBack(exactWay(midis, midis.map((midi) => midi / 4), 15, 0.4), createRandom(SEED));
    if (finding.kind !== 'told') throw new Error(finding.reason);
    expect(finding).toMatchObject({ found: false, at: null });
    const { eye, ruler, video } = finding.takesFor;
    expect(eye.takes!).toBeGreaterThan(ruler.takes!);
    expect(ruler.takes!).toBeGreaterThan(video.takes!);
  });

  it('needs no more takes where notes are more, and gives up where nobody would play so many', () => {
    const few = takesFor([52, 56, 60, 64, 68], 0.25, createRandom(SEED));
    const many = takesFor(midis, 0.25, createRandom(SEED));
    expect(few.ruler.takes!).toBeGreaterThanOrEqual(many.ruler.takes!);
    expect(takesFor([52, 53, 54, 55], 0.25, createRandom(SEED)).eye.takes ?? Infinity).toBeGreaterThan(many.eye.takes!);
  });

  it('cannot tell of three notes, or of readings that could all be one place', () => {
    expect(turnBack(exactWay([52, 60, 64], [0, 3, 1], 0, 0.3), createRandom(SEED))).toMatchObject({
      reason: 'too-few-notes',
      needs: [{ moreNotes: 1 }],
    });
    const still = turnBack(exactWay(midis, midis.map((_, i) => 0.01 * i), 0, 0.5), createRandom(SEED));
    expect(still).toMatchObject({ kind: 'cannot-tell', reason: 'too-little-travel' });
  });

  it('refuses pitches that do not rise and deviations of nothing', () => {
    expect(() => createTurnBackTest([1, 2, 2, 3], [1, 1, 1, 1], createRandom(SEED))).toThrow('midis[2] 2: allowed is more than 2');
    expect(() => createTurnBackTest([1, 2, 3, 4], [1, 1, 0, 1], createRandom(SEED))).toThrow('sds[2] 0');
  });
});
