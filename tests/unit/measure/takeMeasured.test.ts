import { describe, expect, test } from 'vitest';
import { headFromFilm } from '../../../src/measure/headFromFilm';
import { lineSamples } from '../../../src/measure/lineSamples';
import { steadyFrames } from '../../../src/measure/steadySpan';
import { measureTake } from '../../../src/measure/takeMeasured';
import { isTold } from '../../../src/measure/takeReadings';
import type { FilmTrace, NoteHeard, TracedFrame } from '../../../src/measure/traces';
import { expectWithin } from '../../support/expectWithin';
import { filmHead } from '../../support/filmedHead';

const NOTES = 6;
const FRAMES = 24;
const taken = filmHead({ seed: 41, turnSdDeg: 2, notes: NOTES, framesPerNote: FRAMES });
const times = taken.trace.frames.map(({ timeS }) => timeS);
/** As long as its frames and 60 ms at either end, which are left out. */
const notes = taken.noteFrames.map((own, index): NoteHeard => ({
  startS: times[own[0]!]! - 0.061,
  endS: times[own.at(-1)!]! + 0.061,
  midi: 60 + index,
  cents: 0,
}));
const { camera } = taken;
const headWith = (steady: readonly (readonly number[])[]) => headFromFilm({ trace: taken.trace, camera: taken.camera, rimDiameterMm: taken.rimDiameterMm, steady });

/** A horn seen from the right whose elevation steps from note to note; the head's level line stands still. */
function sideTrace(elevationsDeg: readonly number[], shiftS: number): FilmTrace {
  return {
    view: 'right',
    frames: times.map((timeS, index): TracedFrame => {
      const note = taken.noteFrames.findIndex((own) => own.includes(index));
      const angle = ((elevationsDeg[note] ?? 0) * Math.PI) / 180;
      const point = (x: number, y: number) => ({ x, y, sdPx: 0.2 });
      return {
        timeS: timeS - shiftS,
        rim: null,
        points: {
          'level-back': point(100, 359.5),
          'level-front': point(500, 359.5),
          'horn-near': point(600, 400),
          'horn-far': point(600 + 300 * Math.cos(angle), 400 - 300 * Math.sin(angle)),
        },
      };
    }),
  };
}

describe('a take put together', () => {
  test('the frames of the notes are those of their steady parts', () => {
    expect(steadyFrames(times, notes)).toEqual(taken.noteFrames);
    expect(steadyFrames(times, notes.map((note) => ({ ...note, startS: note.startS + 5, endS: note.endS + 5 })), 5)).toEqual(taken.noteFrames);
    expect(steadyFrames(times, [{ startS: -9, endS: -8 }])).toEqual([[]]);
  });

  test('travel is counted from the home note, and comes from the film from the front', () => {
    const { notes: measured } = measureTake([{ trace: taken.trace, camera, head: headWith(taken.noteFrames), offsetS: 0 }], notes, 60);
    expect(measured).toHaveLength(NOTES);
    measured.forEach(({ travel }, index) => {
      if (!isTold(travel)) throw new Error(`note ${index}: ${travel}`);
      const truth = taken.truth[index]!;
      expectWithin(travel.upMm, truth.upMm - taken.truth[0]!.upMm, { abs: 4 * travel.sdMm + 0.02 });
      expectWithin(travel.rightMm, truth.rightMm - taken.truth[0]!.rightMm, { abs: 4 * travel.sdMm + 0.02 });
    });
  });

  test('two soundings of the home note together are home', () => {
    const twice = notes.map((note, index) => (index === 3 ? { ...note, midi: 60 } : note));
    const { notes: measured } = measureTake([{ trace: taken.trace, camera, head: headWith(taken.noteFrames), offsetS: 0 }], twice, 60);
    const [first, second] = [measured[0]!.travel, measured[3]!.travel];
    if (!isTold(first) || !isTold(second)) throw new Error('home was not told');
    expectWithin(first.upMm + second.upMm, 0, { abs: 1e-9 });
    expectWithin(second.upMm - first.upMm, taken.truth[3]!.upMm - taken.truth[0]!.upMm, { abs: 0.5 });
  });

  test('no travel is told where home was not played, but the angles are', () => {
    const { notes: measured } = measureTake([{ trace: taken.trace, camera, head: headWith(taken.noteFrames), offsetS: 0 }], notes, 99);
    expect(measured.map(({ travel }) => travel)).toEqual(notes.map(() => 'lost'));
    expect(measured.every(({ lateral }) => isTold(lateral))).toBe(true);
  });

  test('a second film from the side gives the elevation, at its own time', () => {
    const elevations = [-10, -12, -14, -16, -18, -20];
    const shiftS = 0.75;
    const { notes: measured } = measureTake(
      [{ trace: taken.trace, camera, head: headWith(taken.noteFrames), offsetS: 0 }, { trace: sideTrace(elevations, shiftS), camera, head: null, offsetS: shiftS }],
      notes,
      60,
    );
    const alone = measureTake([{ trace: sideTrace(elevations, shiftS), camera, head: null, offsetS: shiftS }], notes, 60).notes;
    alone.forEach(({ elevation, travel, lateral }, index) => {
      expect([travel, lateral].map(isTold)).toEqual([false, false]);
      expectWithin(isTold(elevation) ? elevation.value : NaN, elevations[index]!, { abs: 1e-6 });
    });
    measured.forEach(({ elevation, travel }, index) => {
      const own = alone[index]!.elevation;
      if (!isTold(elevation) || !isTold(own)) throw new Error('not told');
      // Together they are surer than the surer of the two.
      expect(elevation.sd).toBeLessThan(own.sd);
      expect(isTold(travel)).toBe(true);
    });
  });

  test('a film that was not followed says nothing, and breaks nothing', () => {
    const empty: FilmTrace = { view: 'front', frames: [] };
    const { notes: measured } = measureTake([{ trace: empty, camera, head: { kind: 'not-found', reason: 'too-few-landmarks' }, offsetS: 0 }], notes, 60);
    expect(measured.every(({ travel, elevation, lateral }) => ![travel, elevation, lateral].some(isTold))).toBe(true);
    expect(measureTake([], notes, 60).notes).toEqual([]);
  });
});

describe('the horn’s line in every frame', () => {
  test('a lost end leaves the frame out', () => {
    const trace = sideTrace([-10, -10, -10, -10, -10, -10], 0);
    const { 'horn-far': _, ...points } = trace.frames[0]!.points;
    const [lost, seen] = lineSamples({ ...trace, frames: [{ ...trace.frames[0]!, points }, trace.frames[1]!] }, camera);
    expect(lost!.seen).toBeNull();
    expectWithin(seen!.seen!.deg, -10, { abs: 1e-9 });
  });

  test('from the front there is none', () => {
    expect(() => lineSamples({ view: 'front', frames: [] }, camera)).toThrow(RangeError);
  });
});
