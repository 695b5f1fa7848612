import { describe, expect, test } from 'vitest';
import { createRandom } from '../../../src/core/random';
import type { PictureMarks, ViewFrom } from '../../../src/measure/marks';
import { type MarkedPicture, type PictureResult, resultsOf, rimEllipse } from '../../../src/measure/pictureResult';
import { expectWithin } from '../../support/expectWithin';
import { marksAt } from '../../support/films/marksAt';
import { type Scene, sceneOf } from '../../support/films/scene';
import { truthAt } from '../../support/films/truth';

/** Of a careful hand, px. */
const JITTER_PX = 0.7;
const SEEDS = [11, 12, 13, 14, 15, 16];

const middles = (scene: Scene): number[] => scene.notes.slice(0, 3).map(({ startS, endS }) => (Math.max(0, startS) + endS) / 2);
const pictureOf = (scene: Scene, timeS: number, focal = 1): MarkedPicture => ({
  view: scene.view,
  marks: marksAt(scene, timeS, { jitterPx: JITTER_PX, seed: Math.round(1000 * timeS) }),
  camera: { width: scene.camera.width, height: scene.camera.height, focalPx: focal * scene.camera.focalPx, focalRelativeSd: 0.03 },
});
const results = (scene: Scene, home: number | null): readonly PictureResult[] => resultsOf(middles(scene).map((timeS) => pictureOf(scene, timeS)), scene.rim, home);

describe('pictures from the front', () => {
  test(`travel from home lies within three of its deviations, and is not told with larger ones than 2 mm (seeds ${SEEDS.join(', ')})`, () => {
    for (const seed of SEEDS) {
      const scene = sceneOf({ seed, view: 'front', durationS: 8 });
      const [home, ...others] = middles(scene).map((timeS) => truthAt(scene, timeS).rim);
      const [ofHome, ...told] = results(scene, 0);
      expect(ofHome?.travel).toMatchObject({ upMm: 0, rightMm: 0 });
      others.forEach((truth, at) => {
        const { travel, lateral, elevation, problems } = told[at]!;
        expect(problems).toEqual([]);
        expect(travel!.sdMm).toBeLessThan(2);
        expectWithin(travel!.upMm, truth.upMm - home!.upMm, { abs: 3 * travel!.sdMm }, `seed ${seed}, up, mm`);
        expectWithin(travel!.rightMm, truth.rightMm - home!.rightMm, { abs: 3 * travel!.sdMm }, `seed ${seed}, right, mm`);
        expectWithin(lateral!.deg, truth.lateralDeg, { abs: 3 * lateral!.sdDeg }, `seed ${seed}, lateral, degrees`);
        expectWithin(elevation!.deg, truth.elevationDeg, { abs: 3 * elevation!.sdDeg }, `seed ${seed}, elevation, degrees`);
      });
    }
  });

  const scene = sceneOf({ seed: SEEDS[0]!, view: 'front', durationS: 8 });
  const [first = 0, second = 0] = middles(scene);
  const one = pictureOf(scene, first);

  test('without a home there is no travel, and nothing to complain of', () => {
    expect(results(scene, null).map(({ travel }) => travel)).toEqual([null, null, null]);
    expect(results(scene, null).flatMap(({ problems }) => problems)).toEqual([]);
  });

  test('by another lens than home’s are not compared', () => {
    const [, apart] = resultsOf([one, pictureOf(scene, second, 1.1)], scene.rim, 0);
    expect(apart).toMatchObject({ travel: null, problems: [{ kind: 'home-apart' }] });
  });

  const random = createRandom(5, 1);
  test.each([1, 2, 3, 4, 5, 6, 7, 8])('landmarks put anywhere are no head, and tell nothing (%i)', () => {
    const anywhere = Object.fromEntries(Object.keys(one.marks.landmarks).map((name) => [name, { x: 300 + 680 * random.uniform(), y: 100 + 500 * random.uniform() }]));
    const [told] = resultsOf([{ ...one, marks: { ...one.marks, landmarks: anywhere } }], scene.rim, 0);
    expect(told).toMatchObject({ travel: null, elevation: null, lateral: null, problems: [{ kind: 'head' }] });
  });

  test.each([
    ['no marks', { landmarks: {} }, [{ kind: 'rim-points', have: 0, need: 5 }, { kind: 'head-points', have: 0, need: 6 }]],
    ['no head', { ...one.marks, landmarks: {} }, [{ kind: 'head-points', have: 0, need: 6 }]],
    ['no horn', { ...one.marks, horn: undefined }, [{ kind: 'line-missing', line: 'horn' }]],
    ['rim on a line', { ...one.marks, rim: [0, 1, 2, 3, 4].map((x) => ({ x, y: 2 * x })) }, [{ kind: 'rim', reason: 'line' }]],
    ['half a rim', { ...one.marks, rim: arc(150) }, [{ kind: 'rim', reason: 'short-arc' }]],
    ['lip line beside the rim', { ...one.marks, lipLine: [{ x: 0, y: 0 }, { x: 20, y: 0 }] }, [{ kind: 'share', reason: 'outside-cup' }]],
    ['sides exchanged', { ...one.marks, landmarks: exchanged(one.marks.landmarks) }, [{ kind: 'head', reason: 'sides-exchanged' }]],
  ] satisfies [string, PictureMarks, PictureResult['problems']][])('%s is said', (_, marks, problems) => {
    expect(resultsOf([{ ...one, marks }], scene.rim, null)[0]!.problems).toEqual(problems);
  });

  test('the rim’s ellipse alone is the one of the whole answer', () => {
    expect(rimEllipse(one.marks)).toEqual(resultsOf([one], scene.rim, null)[0]!.ellipse);
    expect(rimEllipse({ rim: arc(150) })).toBeNull();
  });
});

describe('pictures from the side and from above', () => {
  test.each(['right', 'left', 'above'] satisfies ViewFrom[])('%s: the angle lies within three of its deviations', (view) => {
    for (const seed of SEEDS) {
      const scene = sceneOf({ seed, view, durationS: 8 });
      const [timeS = 0] = middles(scene);
      const truth = truthAt(scene, timeS).rim;
      const [result] = resultsOf([pictureOf(scene, timeS)], scene.rim, null);
      const [told, true_] = view === 'above' ? [result!.lateral, truth.lateralDeg] : [result!.elevation, truth.elevationDeg];
      expectWithin(told!.deg, true_, { abs: 3 * told!.sdDeg }, `seed ${seed}, degrees`);
      expect(view === 'above' ? result!.elevation : result!.lateral).toBeNull();
    }
  });

  test('both lines are needed', () => {
    const marks = { landmarks: {}, horn: { from: { x: 0, y: 0 }, to: { x: 100, y: 0 } } };
    const camera = { width: 640, height: 480, focalPx: 900, focalRelativeSd: 0.1 };
    expect(resultsOf([{ view: 'right', marks, camera }], RIM, null)[0]!.problems).toEqual([{ kind: 'line-missing', line: 'level' }]);
    const backward = { ...marks, level: { from: { x: 0, y: 9 }, to: { x: 100, y: 9 } }, horn: { from: { x: 100, y: 0 }, to: { x: 0, y: 0 } } };
    expect(resultsOf([{ view: 'right', marks: backward, camera }], RIM, null)[0]!.problems).toEqual([{ kind: 'angle', reason: 'backward' }]);
  });
});

const RIM = { outerDiameterMm: 27, innerDiameterMm: 16.5 };

function arc(degrees: number): { x: number; y: number }[] {
  return Array.from({ length: 8 }, (_, at) => {
    const angle = (at * degrees * Math.PI) / 180 / 7;
    return { x: 600 + 70 * Math.cos(angle), y: 400 + 70 * Math.sin(angle) };
  });
}

function exchanged(landmarks: PictureMarks['landmarks']): PictureMarks['landmarks'] {
  return Object.fromEntries(
    Object.entries(landmarks).map(([name, point]) => [name.endsWith('-right') ? name.replace('-right', '-left') : name.replace('-left', '-right'), point]),
  );
}
