/**
 * Tracking against made films: a head in space, turning 2° (deviation) about each axis and moving 10 mm, a ring of metal with a horn before it,
 * noise of 2 grey levels, blinks, and each frame coded in blocks. Outside truth: the scene's own geometry (tests/support/films).
 */
import { describe, expect, it, vi } from 'vitest';
import { createFilmTracker } from '../../../src/measure/filmTracker';
import { LANDMARK_NAMES } from '../../../src/measure/marks';
import { blockCoded } from '../../support/blockCoding';
import { expectWithin } from '../../support/expectWithin';
import { marksAt } from '../../support/films/marksAt';
import { renderFrame } from '../../support/films/renderFrame';
import { sceneOf } from '../../support/films/scene';
import { truthAt } from '../../support/films/truth';

/** Drawing and coding a frame takes 0.1 to 0.5 s, by what else the machine does. */
vi.setConfig({ testTimeout: 240_000 });

const FRAMES = 40;
/** Quantiser step: a phone's quality. */
const STEP = 16;

function trackedErrors(seed: number): { rim: number[]; axis: number[]; inRim: boolean[]; landmarks: number[]; inLandmarks: boolean[]; lostRims: number } {
  const scene = sceneOf({ seed, view: 'front', durationS: 3 });
  const tracker = createFilmTracker({ view: 'front', anchors: [{ timeS: 0, marks: marksAt(scene, 0) }], rim: scene.rim });
  const errors = { rim: [] as number[], axis: [] as number[], inRim: [] as boolean[], landmarks: [] as number[], inLandmarks: [] as boolean[], lostRims: 0 };
  for (let frame = 0; frame < FRAMES; frame++) {
    const timeS = frame / 15;
    const picture = renderFrame(scene, timeS);
    blockCoded(picture, STEP);
    const traced = tracker.followForward(picture, timeS)!;
    const { px } = truthAt(scene, timeS);
    if (traced.rim) {
      const [dx, dy] = [traced.rim.centre.x - px.rimEllipse.centre.x, traced.rim.centre.y - px.rimEllipse.centre.y];
      errors.rim.push(dx, dy);
      errors.inRim.push(...[dx, dy].map((error) => Math.abs(error) < 1.96 * traced.rim!.centreSdPx));
      errors.axis.push(traced.rim.semiMajorPx - px.rimEllipse.semiMajorPx);
    } else errors.lostRims += 1;
    for (const name of LANDMARK_NAMES) {
      const point = traced.points[name];
      if (!point) continue;
      for (const error of [point.x - px.landmarks[name].x, point.y - px.landmarks[name].y]) {
        errors.landmarks.push(error);
        errors.inLandmarks.push(Math.abs(error) < 1.96 * point.sdPx);
      }
    }
  }
  return errors;
}

const rms = (errors: readonly number[]): number => Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
const share = (inside: readonly boolean[]): number => inside.filter(Boolean).length / inside.length;

describe.each([3, 21])('a film from the front, seed %i, at half its frames (so twice as fast)', (seed) => {
  const { rim, axis, inRim, landmarks, inLandmarks, lostRims } = trackedErrors(seed);

  it('gives the rim in every frame, its centre to 0.1 px RMS and its semi-major axis to 0.15 px', () => {
    expect(lostRims).toBe(0);
    expectWithin(rms(rim), 0, { abs: 0.1 }, 'centre');
    expectWithin(rms(axis), 0, { abs: 0.15 }, 'semi-major axis');
  });

  it('gives the landmarks to 0.3 px RMS', () => {
    expect(landmarks.length).toBeGreaterThan(FRAMES * 8);
    expectWithin(rms(landmarks), 0, { abs: 0.3 }, 'landmarks');
  });

  it('states deviations that hold the truth nine times in ten and more', () => {
    expect(share(inRim)).toBeGreaterThan(0.9);
    expect(share(inLandmarks)).toBeGreaterThan(0.9);
  });
});
