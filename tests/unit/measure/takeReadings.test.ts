import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import { effectiveFrames, medianOver, steadySpan } from '../../../src/measure/steadySpan';
import { isTold, measureNotes, mergedFilms, type MeasuredNote, readingsOfTake } from '../../../src/measure/takeReadings';
import type { HeadSample, NoteHeard } from '../../../src/measure/traces';
import { parsePlayersText, playersFileText } from '../../../src/records/schema';
import { demoPlayers } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';

const ROUNDING = 1e-12;
const FPS = 30;
const notes: readonly NoteHeard[] = [
  { startS: 0, endS: 1, midi: 60, cents: 0 },
  { startS: 1, endS: 2, midi: 64, cents: 0 },
  { startS: 2, endS: 2.15, midi: 67, cents: 0 },
  { startS: 5, endS: 6, midi: 69, cents: 0 },
];
const at = (timeS: number, upMm: number, elevationDeg: number | null, lateralDeg: number | null): HeadSample => ({
  timeS,
  travel: { upMm, rightMm: -upMm / 2, sdMm: 0.2, rightSdMm: 0.4 },
  elevation: elevationDeg === null ? null : { deg: elevationDeg, sdDeg: 1 },
  lateral: lateralDeg === null ? null : { deg: lateralDeg, sdDeg: 2 },
});
/** The rim is on its way within 60 ms of a change; there the samples are far off. */
const front = Array.from({ length: 90 }, (_, frame) => {
  const timeS = frame / FPS;
  const from = timeS - Math.floor(timeS);
  return at(timeS, from < 0.055 || from > 0.945 ? 99 : 1 + 2 * Math.floor(timeS), null, 3);
});

describe('the steady part', () => {
  it('leaves out 60 ms at each end, and of a short note all but the middle third', () => {
    expect(steadySpan({ startS: 1, endS: 2 })).toEqual({ startS: 1.06, endS: 1.94, short: false });
    const { startS, endS, short } = steadySpan({ startS: 1, endS: 1.15 });
    expectWithin(startS, 1.05, { abs: ROUNDING });
    expectWithin(endS, 1.1, { abs: ROUNDING });
    expect(short).toBe(true);
    expect(() => steadySpan({ startS: 1, endS: 1 })).toThrow(RangeError);
  });
});

describe('measured notes', () => {
  const measured = measureNotes({ view: 'front', samples: front }, notes);

  it('take no frame of the way from note to note', () => {
    const [first, second] = measured;
    expect(first!.travel).toMatchObject({ upMm: 1, rightMm: -0.5 });
    expect(second!.travel).toMatchObject({ upMm: 3, sdMm: 0.2, rightSdMm: 0.4 });
    expect(second!.lateral).toMatchObject({ value: 3, sd: 2 });
  });

  it('say why nothing is told', () => {
    expect(measured.map(({ elevation }) => elevation)).toEqual(['lost', 'lost', 'too-short', 'not-in-this-film']);
    expect(measured[2]!.travel).toBe('too-short');
    const blind = front.map((each) => ({ ...each, travel: null, lateral: null }));
    expect(measureNotes({ view: 'front', samples: blind }, notes)[0]).toMatchObject({ travel: 'lost', lostPart: 1 });
  });

  it('stand at the times of the notes when the film began elsewhere', () => {
    const later = front.map((each) => ({ ...each, timeS: each.timeS - 10 }));
    const shifted = measureNotes({ view: 'front', samples: later, offsetS: 10 }, notes);
    expect(shifted[1]!.travel).toMatchObject({ upMm: 3 });
  });

  it('take travel from elsewhere where it is given', () => {
    const given = measureNotes({ view: 'front', samples: front, travelOf: (_, index) => ({ upMm: index, rightMm: 0, sdMm: 0.1, rightSdMm: 0.1, frames: 5 }) }, notes);
    expect(given.map(({ travel }) => isTold(travel) && travel.upMm)).toEqual([0, 1, 2, 3]);
  });
});

describe('two films', () => {
  const side = front.map((each) => ({ ...each, travel: null, elevation: { deg: -10, sdDeg: 1 }, lateral: null }));
  const above = front.map((each) => ({ ...each, travel: null, lateral: { deg: 5, sdDeg: 1 } }));
  const of = (samples: readonly HeadSample[], view: 'front' | 'right' | 'above'): MeasuredNote[] => measureNotes({ view, samples }, notes);
  const merged = mergedFilms([of(front, 'front'), of(side, 'right'), of(above, 'above')]);

  it('give each what it sees, and weigh what both see', () => {
    expect(merged[0]!.elevation).toMatchObject({ value: -10, sd: 1 });
    const { lateral } = merged[0]!;
    if (!isTold(lateral)) throw new Error('lateral is told');
    // 3 ± 2 and 5 ± 1: (3/4 + 5)/(1/4 + 1), by hand.
    expectWithin(lateral.value, 4.6, { abs: ROUNDING });
    expectWithin(lateral.sd, Math.sqrt(0.8), { abs: ROUNDING });
  });

  it('weigh travel up and to the right each by its own deviation', () => {
    const sure = { upMm: 1, rightMm: 1, sdMm: 0.1, rightSdMm: 0.4, frames: 5 };
    const other = { upMm: 2, rightMm: 2, sdMm: 0.2, rightSdMm: 0.2, frames: 5 };
    const [both] = mergedFilms([sure, other].map((travel) => of(front, 'front').map((one) => ({ ...one, travel }))));
    if (!isTold(both!.travel)) throw new Error('travel is told');
    // (1/0.01 + 2/0.04)/(1/0.01 + 1/0.04) and (1/0.16 + 2/0.04)/(1/0.16 + 1/0.04), by hand.
    expectWithin(both!.travel.upMm, 1.2, { abs: ROUNDING });
    expectWithin(both!.travel.sdMm, Math.sqrt(1 / 125), { abs: ROUNDING });
    expectWithin(both!.travel.rightMm, 1.8, { abs: ROUNDING });
    expectWithin(both!.travel.rightSdMm, Math.sqrt(1 / 31.25), { abs: ROUNDING });
  });

  it('must be of the same notes', () => {
    expect(() => mergedFilms([of(front, 'front'), []])).toThrow(/0 notes beside 4/);
  });

  it('make readings that a record takes, with an unseen angle said to be so', () => {
    const seen = readingsOfTake(merged, 60, { take: 2 });
    expect(seen.map(({ note }) => note)).toEqual(['C4', 'E4']);
    expect(seen[1]).toMatchObject({ take: 2, method: 'video', travel: { upMm: 3 }, horn: { elevationDeg: -10, sdDeg: 1 } });
    const frontOnly = readingsOfTake(of(front, 'front'), 60, { take: 1 });
    expect(frontOnly[0]!.travel).toEqual({ upMm: 1, rightMm: -0.5, sdMm: 0.2, rightSdMm: 0.4 });
    expect(frontOnly[0]!.horn).toEqual({ elevationDeg: 0, lateralDeg: 3, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 2 });
    const { player } = demoPlayers[0]!;
    const parsed = parsePlayersText(playersFileText([{ ...player, lessons: [{ ...player.lessons[0]!, readings: frontOnly, tryOuts: [] }] }]));
    if (parsed.kind === 'refused') throw new Error(parsed.message);
    expect(parsed.players[0]!.lessons[0]!.readings).toEqual(frontOnly);
  });
});

describe('deviation of a median', () => {
  it('is no less than what the frames say of themselves', () => {
    expect(medianOver([1, 1, 1].map((value) => ({ value, sd: 0.4 })))).toEqual({ value: 1, sd: 0.4, frames: 3 });
  });

  it.each([0, 0.5, 0.9])('holds the truth in 90 to 98 % of 2,000 notes of 30 frames, each like the one before by %s (seed 7)', (like) => {
    const random = createRandom(7);
    let held = 0;
    for (let trial = 0; trial < 2000; trial++) {
      let error = random.normal();
      const frames = Array.from({ length: 30 }, () => {
        error = like * error + Math.sqrt(1 - like * like) * random.normal();
        return { value: error, sd: 0 };
      });
      const { value, sd } = medianOver(frames)!;
      if (Math.abs(value) <= 1.96 * sd) held++;
    }
    // Where frames are much alike a single note cannot know how much: it comes out too sure, which the shared deviation covers.
    expect(held / 2000).toBeGreaterThanOrEqual(like > 0.8 ? 0.7 : 0.9);
    expect(held / 2000).toBeLessThanOrEqual(0.98);
  });

  it('counts white frames nearly whole, and a chain by (1 − ρ)/(1 + ρ)', () => {
    const random = createRandom(3);
    const white = Array.from({ length: 2000 }, () => random.normal());
    expectWithin(effectiveFrames(white), 2000, { rel: 0.1 });
    let last = 0;
    const chain = Array.from({ length: 20_000 }, () => (last = 0.6 * last + 0.8 * random.normal()));
    expectWithin(effectiveFrames(chain), 20_000 * (0.4 / 1.6), { rel: 0.1 });
  });
});
