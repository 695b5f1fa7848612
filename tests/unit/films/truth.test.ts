/** The maker of films is held to its own word: what it says is true is what it draws. */
import { describe, expect, test } from 'vitest';
import { toDegrees } from '../../../src/core/frame';
import { LANDMARK_NAMES } from '../../../src/measure/marks';
import { marksAt, visibleLandmarks } from '../../support/films/marksAt';
import { GLIDE_HALF_S } from '../../support/films/notesPlayed';
import { headPlaceAt } from '../../support/films/headMotion';
import { sceneOf } from '../../support/films/scene';
import { noteTruths, rimEdgePoint, seenAt, steadyNoteAt, truthAt } from '../../support/films/truth';
import { expectWithin } from '../../support/expectWithin';

const SEEDS = [1, 2, 3, 4, 5, 6];

describe('the rim as it is seen', () => {
  test.each(SEEDS)('the ellipse passes through the projected points of the circle (seed %i)', (seed) => {
    const scene = sceneOf({ seed, headTurnSdDeg: 5 });
    for (const timeS of [0, 1.7, 4.2, 9]) {
      const truth = truthAt(scene, timeS);
      const { centre, semiMajorPx, semiMinorPx, angleRad } = truth.px.rimEllipse;
      expect(semiMajorPx).toBeGreaterThanOrEqual(semiMinorPx);
      for (let step = 0; step < 24; step++) {
        const point = seenAt(scene, truth, rimEdgePoint(scene, truth.rim, (2 * Math.PI * step) / 24));
        const [x, y] = [point.x - centre.x, point.y - centre.y];
        const along = (x * Math.cos(angleRad) + y * Math.sin(angleRad)) / semiMajorPx;
        const across = (y * Math.cos(angleRad) - x * Math.sin(angleRad)) / semiMinorPx;
        // Seventy pixels from the middle: a millionth of that is far below what anyone could see, far above rounding.
        expectWithin(Math.hypot(along, across), 1, { abs: 1e-6 }, `point ${step} at ${timeS} s`);
      }
    }
  });

  test('it is about as wide as asked and stays in the picture', () => {
    for (const seed of SEEDS) {
      const scene = sceneOf({ seed });
      for (let timeS = 0; timeS < 10; timeS += 0.25) {
        const { centre, semiMajorPx } = truthAt(scene, timeS).px.rimEllipse;
        // The head comes up to 10 mm nearer or goes further, of 650.
        expectWithin(2 * semiMajorPx, 150, { rel: 0.05 }, 'width, px');
        expect(Math.min(centre.x, centre.y, 1279 - centre.x, 719 - centre.y)).toBeGreaterThan(semiMajorPx);
      }
    }
  });
});

describe('the take', () => {
  test('two views of one seed are one performance of one player', () => {
    const front = sceneOf({ seed: 8 });
    const side = sceneOf({ seed: 8, view: 'right', startS: 1.25 });
    expect(side.landmarks).toEqual(front.landmarks);
    expect(truthAt(side, 2).rim).toEqual(truthAt(front, 3.25).rim);
    expect(side.notes[2]!.startS).toBe(front.notes[2]!.startS - 1.25);
  });

  test.each([2, 5])('the head turns with the deviation asked (%i degrees) and shifts as far as asked', (turnSdDeg) => {
    const scene = sceneOf({ seed: 5, headTurnSdDeg: turnSdDeg, headShiftMm: 10 });
    const places = Array.from({ length: 1001 }, (_, at) => headPlaceAt(scene.headMotion, at / 100));
    // For small turns the matrix's parts beside the diagonal are the turns themselves; 5 % is left for their products.
    const aboutY = places.map(({ rotation }) => toDegrees(Math.asin((rotation[2] - rotation[6]) / 2)));
    expectWithin(Math.hypot(...aboutY) / Math.sqrt(aboutY.length), turnSdDeg, { rel: 0.05 }, 'turn about the upright axis');
    expectWithin(Math.max(...places.map(({ shiftMm }) => Math.abs(shiftMm[1]))), 10, { abs: 0.1 }, 'shift up or down, mm');
  });

  test('rim and horn stand still within a note and are on the way between two', () => {
    const scene = sceneOf({ seed: 3 });
    const truths = noteTruths(scene);
    const home = scene.notes[scene.home]!;
    expect(truths[scene.home]).toMatchObject({ travelUpMm: 0, travelRightMm: 0 });
    truths.forEach((note, at) => {
      for (const part of [0.3, 0.5, 0.7]) {
        const timeS = note.startS + part * (note.endS - note.startS);
        const { rim } = truthAt(scene, timeS);
        expect(steadyNoteAt(scene, timeS)).toBe(at);
        expectWithin(rim.upMm - home.upMm, note.travelUpMm, { abs: 1e-12 });
        expectWithin(-rim.centre[0] - home.rightMm, note.travelRightMm, { abs: 1e-12 });
        expectWithin(rim.elevationDeg, note.elevationDeg, { abs: 1e-12 });
      }
    });
    const slur = scene.notes.findIndex((note, at) => at > 0 && note.startS === scene.notes[at - 1]!.endS);
    expect(slur).toBeGreaterThan(0);
    const boundary = scene.notes[slur]!.startS;
    expect(steadyNoteAt(scene, boundary + GLIDE_HALF_S / 2)).toBeNull();
    expect(steadyNoteAt(scene, boundary - GLIDE_HALF_S / 2)).toBeNull();
  });

  test('what makes no film is refused with its allowed range', () => {
    expect(() => sceneOf({ seed: 1, durationS: 0 })).toThrow(/durationS 0; allowed: over 0, at most 600/);
    expect(() => sceneOf({ seed: 1, framesPerS: Number.NaN })).toThrow(/framesPerS NaN; allowed/);
    expect(() => sceneOf({ seed: 1, innerDiameterMm: 30 })).toThrow(/rim 30 to 27 mm; allowed: 0 < inner < outer/);
    expect(() => sceneOf({ seed: 1, notes: [] })).toThrow(/notes is empty/);
  });
});

describe('marks', () => {
  test('from the front six landmarks or more are seen, and enough of the rim', () => {
    for (const seed of SEEDS) {
      const scene = sceneOf({ seed });
      const marks = marksAt(scene, 2);
      expect(Object.keys(marks.landmarks).length).toBeGreaterThanOrEqual(6);
      expect(marks.rim!.length).toBeGreaterThanOrEqual(9);
      expect(marks.hornMarkMm!.value).toBe(scene.horn.farMm);
      expect(marks.level).toBeUndefined();
    }
  });

  test('from the right the left ear is not seen; the level line and the horn are marked', () => {
    const scene = sceneOf({ seed: 2, view: 'right' });
    expect(visibleLandmarks(scene, 1)).toContain('ear-right');
    expect(visibleLandmarks(scene, 1)).not.toContain('ear-left');
    const marks = marksAt(scene, 1);
    expect(marks.rim).toBeUndefined();
    expect(marks.level!.from.x).toBeLessThan(marks.level!.to.x);
    expect(marks.horn!.from.x).toBeLessThan(marks.horn!.to.x);
  });

  test('a hand that shakes by 0.5 px does so by its seed', () => {
    const scene = sceneOf({ seed: 2 });
    const exact = marksAt(scene, 1).rim!;
    const offs = Array.from({ length: 100 }, (_, seed) => marksAt(scene, 1, { jitterPx: 0.5, seed }).rim!.flatMap((point, at) => [point.x - exact[at]!.x, point.y - exact[at]!.y])).flat();
    // Over a thousand draws: the deviation of a deviation is 1.6 % or less, and 6 % is far outside that.
    expectWithin(Math.hypot(...offs) / Math.sqrt(offs.length), 0.5, { rel: 0.06 }, 'deviation, px');
    expect(marksAt(scene, 1, { jitterPx: 0.5, seed: 3 })).toEqual(marksAt(scene, 1, { jitterPx: 0.5, seed: 3 }));
    expect(Object.keys(marksAt(scene, 1).landmarks).every((name) => (LANDMARK_NAMES as readonly string[]).includes(name))).toBe(true);
  });
});
