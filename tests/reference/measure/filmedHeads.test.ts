/**
 * Travel and angles of simulated takes, at the level of marks, against their truth: the simulator (tests/support/filmedHead.ts) has its own
 * geometry. 1280 × 720, rim 150 px wide, eight notes of 20 frames, head ±10 mm, landmarks tracked to 0.3 px with errors alike from frame to
 * frame (0.6) and marked to 1 px, rim to 0.1 px, the person's shape, focal length (12 %) and rim depth drawn from what the estimator is told.
 */
import { describe, expect, it } from 'vitest';
import { headFromFilm, type FrontFilm, type HeadFilm } from '../../../src/measure/headFromFilm';
import { headSamples, readPlace } from '../../../src/measure/rimPlaces';
import { filmHead, type FilmedHeadSpec } from '../../support/filmedHead';

const TAKES = 40;
const FIRST_SEED = 1001;
/** A take has one shape and one lens: its seven notes err together, so that a share over 40 takes is uncertain by about 2 %. */
const COVERED = { least: 0.9, most: 0.99 };

interface Result {
  /** Root mean squares over all notes but home: of the travel's error as a vector, mm, and of the angles', degrees. */
  readonly travelMm: number;
  readonly elevationDeg: number;
  readonly lateralDeg: number;
  readonly elevationChangeDeg: number;
  readonly lateralChangeDeg: number;
  /** Part of the stated 95 % intervals that hold the truth: travel (up and right), angles, changes of the angles. */
  readonly travelCovered: number;
  readonly anglesCovered: number;
  readonly changesCovered: number;
  readonly setAside: number;
}

const found = (film: FrontFilm): HeadFilm => {
  const head = headFromFilm(film);
  if (head.kind !== 'found') throw new Error(head.reason);
  return head;
};

function measure(spec: Omit<FilmedHeadSpec, 'seed'>, takes = TAKES): Result {
  const errors: Record<'up' | 'right' | 'elevation' | 'lateral' | 'elevationChange' | 'lateralChange', { error: number; sd: number }[]> = {
    up: [], right: [], elevation: [], lateral: [], elevationChange: [], lateralChange: [],
  };
  let setAside = 0;
  for (let seed = FIRST_SEED; seed < FIRST_SEED + takes; seed++) {
    const film = filmHead({ ...spec, seed });
    const head = found(film);
    setAside += head.setAside.length;
    const home = film.truth[0]!;
    for (let note = 1; note < film.truth.length; note++) {
      const place = readPlace(head, film.noteFrames[note]!, [film.noteFrames[0]!]);
      if (place.kind !== 'read') throw new Error(place.reason);
      const truth = film.truth[note]!;
      errors.up.push({ error: place.travel.upMm - truth.upMm, sd: place.travel.upSdMm });
      errors.right.push({ error: place.travel.rightMm - truth.rightMm, sd: place.travel.rightSdMm });
      errors.elevation.push({ error: place.elevation!.deg - truth.elevationDeg, sd: place.elevation!.sdDeg });
      errors.lateral.push({ error: place.lateral!.deg - truth.lateralDeg, sd: place.lateral!.sdDeg });
      errors.elevationChange.push({ error: place.elevationChange!.deg - (truth.elevationDeg - home.elevationDeg), sd: place.elevationChange!.sdDeg });
      errors.lateralChange.push({ error: place.lateralChange!.deg - (truth.lateralDeg - home.lateralDeg), sd: place.lateralChange!.sdDeg });
    }
  }
  type Errors = readonly { readonly error: number; readonly sd: number }[];
  const rms = (all: Errors): number => Math.sqrt(all.reduce((sum, { error }) => sum + error * error, 0) / all.length);
  const covered = (...lists: Errors[]): number => {
    const all = lists.flat();
    return all.filter(({ error, sd }) => Math.abs(error) <= 1.96 * sd).length / all.length;
  };
  return {
    travelMm: Math.hypot(rms(errors.up), rms(errors.right)),
    elevationDeg: rms(errors.elevation),
    lateralDeg: rms(errors.lateral),
    elevationChangeDeg: rms(errors.elevationChange),
    lateralChangeDeg: rms(errors.lateralChange),
    travelCovered: covered(errors.up, errors.right),
    anglesCovered: covered(errors.elevation, errors.lateral),
    changesCovered: covered(errors.elevationChange, errors.lateralChange),
    setAside,
  };
}

const expectCovered = (part: number, what: string): void => {
  expect(part, what).toBeGreaterThanOrEqual(COVERED.least);
  expect(part, what).toBeLessThanOrEqual(COVERED.most);
};

describe('simulated takes, seeds 1001 on', () => {
  it.each([[2, 0.4], [5, 0.7]])('head turning %i°, notes known: travel below %f mm, lateral below 3°, intervals hold', (turnSdDeg, travelMm) => {
    const result = measure({ turnSdDeg });
    expect(result.travelMm).toBeLessThan(travelMm);
    expect(result.lateralDeg).toBeLessThan(3);
    expectCovered(result.travelCovered, 'travel');
    expectCovered(result.anglesCovered, 'angles');
    expectCovered(result.changesCovered, 'changes of angles');
    expect(result.setAside).toBe(0);
  }, 120_000);

  it('does without the notes, less exactly, and says so', () => {
    const result = measure({ turnSdDeg: 2, notesKnown: false });
    expect(result.travelMm).toBeLessThan(0.5);
    expectCovered(result.travelCovered, 'travel');
  }, 120_000);
});

describe('a model that is off', () => {
  const FEW = 12;
  it.each<[string, Omit<FilmedHeadSpec, 'seed'>]>([
    ['focal length 10 % off where 5 % was told', { turnSdDeg: 5, focalFactor: 1.1, focalRelativeSd: 0.05 }],
    ['a shape off by 1.5 times its deviations', { turnSdDeg: 5, shapeTimes: 1.5 }],
    ['an eye corner that slips 3 px halfway', { turnSdDeg: 2, slip: { name: 'outer-eye-left', px: 3 } }],
  ])('%s: travel still below 0.7 mm', (_, spec) => {
    expect(measure(spec, FEW).travelMm).toBeLessThan(0.7);
  }, 120_000);
});

describe('a film of 900 frames', () => {
  it('has a sample for every frame, 0 at home on average, with gaps where rim or landmarks are lost', () => {
    const film = filmHead({ seed: 5, turnSdDeg: 3, notes: 18, framesPerNote: 50 });
    const frames = film.trace.frames.map((frame, i) => (i === 100 ? { ...frame, rim: null } : i === 101 ? { ...frame, points: {} } : frame));
    const started = performance.now();
    const head = found({ ...film, trace: { ...film.trace, frames } });
    // 1.0 to 1.6 s of processor time on the slow machine it was measured on; the bound leaves room for other work beside it.
    expect(performance.now() - started).toBeLessThan(10_000);
    const samples = headSamples(head, frames.map(({ timeS }) => timeS), [film.noteFrames[0]!]);
    if (!Array.isArray(samples)) throw new Error(samples.reason);
    expect(samples.length).toBe(900);
    expect(samples[100]!.travel).toBeNull();
    expect(samples[101]!.travel).toBeNull();
    expect(samples.filter(({ travel }) => travel).length).toBe(898);
    const home = film.noteFrames[0]!.map((i) => samples[i]!.travel!.upMm);
    expect(Math.abs(home.reduce((a, b) => a + b, 0) / home.length)).toBeLessThan(0.02);
  }, 60_000);
});
