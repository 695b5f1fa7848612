/**
 * Travel and angles of simulated takes, at the level of marks, against their truth: the simulator (tests/support/filmedHead.ts) has its own
 * geometry. 1280 × 720, rim 150 px wide, eight notes of 10 frames, head ±10 mm, landmarks tracked to 0.3 px with errors alike from frame to
 * frame (0.6) and marked to 1 px, rim to 0.1 px, the person's shape, focal length (12 %) and rim depth drawn from what the estimator is told.
 */
import { describe, expect, it } from 'vitest';
import { focalFromEquivalent, unknownCamera } from '../../../src/measure/camera';
import { headFromFilm, type FrontFilm, type HeadFilm } from '../../../src/measure/headFromFilm';
import { headSamples, readPlace } from '../../../src/measure/rimPlaces';
import { expectWithin } from '../../support/expectWithin';
import { filmHead, type FilmedHeadSpec } from '../../support/filmedHead';

/** Of each way; pooled where a share is told. */
const TAKES = 15;
const FIRST_SEED = 1001;
/** A take is half a second of processor time; on a busy machine ten times that. */
const PATIENCE_MS = 300_000;
/** Frames of each of the eight notes: an answer hangs on how many notes there are, not on how long they last. */
const PER_NOTE = 10;
/**
 * A take has one shape and one lens: its seven notes err together, so that a share over 30 takes is uncertain by about 2.5 %.
 */
const COVERED = { least: 0.9, most: 0.99 };

interface Result {
  /** Root mean squares over all notes but home: of the travel's error as a vector, mm, and of the angles', degrees. */
  readonly travelMm: number;
  readonly elevationDeg: number;
  readonly lateralDeg: number;
  readonly elevationChangeDeg: number;
  readonly lateralChangeDeg: number;
  /** Errors with their deviations: travel (up and right), angles, changes of the angles. */
  readonly travels: Errors;
  readonly angles: Errors;
  readonly changes: Errors;
  readonly setAside: number;
  readonly heads: readonly HeadFilm[];
}

type Errors = readonly { readonly error: number; readonly sd: number }[];

const found = (film: FrontFilm): HeadFilm => {
  const head = headFromFilm(film);
  if (head.kind !== 'found') throw new Error(head.reason);
  return head;
};

function measure(spec: Omit<FilmedHeadSpec, 'seed'>, takes = TAKES, firstSeed = FIRST_SEED): Result {
  const errors: Record<'up' | 'right' | 'elevation' | 'lateral' | 'elevationChange' | 'lateralChange', { error: number; sd: number }[]> = {
    up: [], right: [], elevation: [], lateral: [], elevationChange: [], lateralChange: [],
  };
  const heads: HeadFilm[] = [];
  for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
    const film = filmHead({ framesPerNote: PER_NOTE, ...spec, seed });
    const head = found(film);
    heads.push(head);
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
  const rms = (all: Errors): number => Math.sqrt(all.reduce((sum, { error }) => sum + error * error, 0) / all.length);
  return {
    travelMm: Math.hypot(rms(errors.up), rms(errors.right)),
    elevationDeg: rms(errors.elevation),
    lateralDeg: rms(errors.lateral),
    elevationChangeDeg: rms(errors.elevationChange),
    lateralChangeDeg: rms(errors.lateralChange),
    travels: [...errors.up, ...errors.right],
    angles: [...errors.elevation, ...errors.lateral],
    changes: [...errors.elevationChange, ...errors.lateralChange],
    setAside: heads.reduce((sum, { setAside }) => sum + setAside.length, 0),
    heads,
  };
}

const expectCovered = (what: string, ...lists: Errors[]): void => {
  const all = lists.flat();
  const part = all.filter(({ error, sd }) => Math.abs(error) <= 1.96 * sd).length / all.length;
  expect(part, what).toBeGreaterThanOrEqual(COVERED.least);
  expect(part, what).toBeLessThanOrEqual(COVERED.most);
};

describe('simulated takes, seeds 1001 on', () => {
  it('turning 2° and 5°, notes known: travel below 0.4 and 0.7 mm, lateral below 3°, intervals hold', () => {
    const [calm, lively] = [measure({ turnSdDeg: 2 }), measure({ turnSdDeg: 5 }, TAKES, FIRST_SEED + TAKES)];
    expect(calm.travelMm).toBeLessThan(0.4);
    expect(lively.travelMm).toBeLessThan(0.7);
    for (const { lateralDeg, setAside } of [calm, lively]) {
      expect(lateralDeg).toBeLessThan(3);
      expect(setAside).toBe(0);
    }
    expectCovered('travel', calm.travels, lively.travels);
    expectCovered('angles', calm.angles, lively.angles);
    expectCovered('changes of angles', calm.changes, lively.changes);
  }, PATIENCE_MS);

  it('does without the notes, less exactly, and says so', () => {
    const result = measure({ turnSdDeg: 2, notesKnown: false });
    expect(result.travelMm).toBeLessThan(0.5);
    expectCovered('travel', result.travels);
  }, PATIENCE_MS);
});

describe('nothing told of the lens, seeds 4001 on', () => {
  it('28, 50 and 105 mm are found from the film itself, and travel and angles are told as if they had been known', () => {
    const { focalPx, focalRelativeSd } = unknownCamera(1280, 720);
    const results = [28, 50, 105].map((equivalentMm, at) => {
      const trueFocalPx = focalFromEquivalent(equivalentMm, 1280, 720);
      const result = measure({ turnSdDeg: 4, focalPx, focalRelativeSd, focalFactor: trueFocalPx / focalPx }, 6, 4001 + 6 * at);
      expect(result.travelMm, `travel through ${equivalentMm} mm`).toBeLessThan(0.7);
      expect(result.lateralDeg, `lateral through ${equivalentMm} mm`).toBeLessThan(3);
      for (const { fitted } of result.heads) expectWithin(Math.log(fitted.focalPx / trueFocalPx), 0, { abs: 0.1 }, `logarithm of the focal length, ${equivalentMm} mm`);
      return result;
    });
    // Too few takes for a share's upper bound; what is told is bounded instead: errors were 0.10 to 0.14 mm, 0.12 to 0.14 told.
    const travels = results.flatMap(({ travels }) => travels);
    expect(travels.filter(({ error, sd }) => Math.abs(error) <= 1.96 * sd).length / travels.length).toBeGreaterThanOrEqual(COVERED.least);
    expect(Math.sqrt(travels.reduce((sum, { sd }) => sum + sd * sd, 0) / travels.length)).toBeLessThan(0.25);
    expectCovered('angles', ...results.map(({ angles }) => angles));
    expectCovered('changes of angles', ...results.map(({ changes }) => changes));
  }, PATIENCE_MS);
});

describe('marked again in the middle of the take, seeds 3001 on', () => {
  const FEW = 8;
  it('landmarks, rim and horn, 1 px a mark: the hand’s new errors are told, and it is found how large they are', () => {
    const result = measure({ turnSdDeg: 4, again: { at: [0.5] } }, FEW, 3001);
    expectCovered('travel', result.travels);
    // Too few takes for a share's upper bound; what is told is bounded instead: 0.26 and 0.32° where nothing is marked again.
    expect(result.changes.filter(({ error, sd }) => Math.abs(error) <= 1.96 * sd).length / result.changes.length).toBeGreaterThanOrEqual(COVERED.least);
    expect(Math.max(...result.changes.map(({ sd }) => sd))).toBeLessThan(0.9);
    // What moves all landmarks together shows in nothing but travel. With each landmark's marks taken for one it was 0.5 mm, held in 85 %.
    expect(result.travelMm).toBeLessThan(0.4);
    for (const { handMm } of result.heads) {
      expect(handMm).toBeGreaterThan(0.1);
      expect(handMm).toBeLessThan(0.45);
    }
    expect(result.setAside).toBe(0);
  }, PATIENCE_MS);
});

describe('a model that is off', () => {
  const FEW = 4;
  it.each<[string, Omit<FilmedHeadSpec, 'seed'>]>([
    ['focal length 10 % off where 5 % was told', { turnSdDeg: 5, focalFactor: 1.1, focalRelativeSd: 0.05 }],
    ['a shape off by 1.5 times its deviations', { turnSdDeg: 5, shapeTimes: 1.5 }],
    ['an eye corner that slips 3 px halfway', { turnSdDeg: 2, slip: { name: 'outer-eye-left', px: 3 } }],
  ])('%s: travel still below 0.7 mm', (_, spec) => {
    expect(measure(spec, FEW).travelMm).toBeLessThan(0.7);
  }, PATIENCE_MS);
});

describe('a landmark that jumps far', () => {
  it('120 px, where a tracker lost it: it is the one that is set aside, and travel is told as without it (seed 6003)', () => {
    const result = measure({ turnSdDeg: 3, slip: { name: 'ear-right', px: 120 } }, 1, 6003);
    expect(result.heads[0]!.setAside).toEqual(['ear-right']);
    expect(result.travelMm).toBeLessThan(0.3);
  }, PATIENCE_MS);
});

describe('a film of 900 frames', () => {
  it('has a sample for every frame, 0 at home on average, with gaps where rim or landmarks are lost', () => {
    const film = filmHead({ seed: 5, turnSdDeg: 3, notes: 18, framesPerNote: 50 });
    const frames = film.trace.frames.map((frame, i) => (i === 100 ? { ...frame, rim: null } : i === 101 ? { ...frame, points: {} } : frame));
    const started = process.cpuUsage().user;
    const head = found({ ...film, trace: { ...film.trace, frames } });
    // 1.0 to 1.6 s of processor time on the slow machine it was measured on; the bound leaves room for other work beside it.
    expect((process.cpuUsage().user - started) / 1e6).toBeLessThan(10);
    const samples = headSamples(head, frames.map(({ timeS }) => timeS), [film.noteFrames[0]!]);
    if (!Array.isArray(samples)) throw new Error(samples.reason);
    expect(samples.length).toBe(900);
    expect(samples[100]!.travel).toBeNull();
    expect(samples[101]!.travel).toBeNull();
    expect(samples.filter(({ travel }) => travel).length).toBe(898);
    const home = film.noteFrames[0]!.map((i) => samples[i]!.travel!.upMm);
    expect(Math.abs(home.reduce((a, b) => a + b, 0) / home.length)).toBeLessThan(0.02);
  }, PATIENCE_MS);
});
