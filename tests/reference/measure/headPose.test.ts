/** The head's pose and the horn's axis from exact pictures: both must come back. */
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import type { Vec3 } from '../../../src/core/vector';
import { project } from '../../../src/measure/camera';
import { findHeadPose } from '../../../src/measure/headPose';
import { GENERIC_HEAD } from '../../../src/measure/headShape';
import { hornFromFront } from '../../../src/measure/hornFromFront';
import { LANDMARK_NAMES } from '../../../src/measure/marks';
import { FACING, compose, rotationFromVector, turn } from '../../../src/measure/rotation';
import type { TracedPoint } from '../../../src/measure/traces';
import { expectWithin } from '../../support/expectWithin';
import { projectCircle } from '../../support/projectedCircle';

const camera = { width: 1280, height: 720, focalPx: 1000, focalRelativeSd: 0.1 };

describe('the pose from exact pictures of the landmarks', () => {
  it.each([4, 6, 9])('is exact with %i landmarks, seeds 1 to 30', (count) => {
    const names = [LANDMARK_NAMES[0], ...LANDMARK_NAMES.slice(3), ...LANDMARK_NAMES.slice(1, 3)].slice(0, count);
    const shape = Object.fromEntries(names.map((name) => [name, GENERIC_HEAD[name]]));
    for (let seed = 1; seed <= 30; seed++) {
      const random = createRandom(seed);
      const rotation = compose(rotationFromVector([0.15 * random.normal(), 0.15 * random.normal(), 0.2 * random.normal()]), FACING);
      const shift: Vec3 = [20 * random.normal(), 50 + 20 * random.normal(), 250 + 100 * random.uniform()];
      const seen = Object.fromEntries(names.map((name) => {
        const [x, y, z] = turn(rotation, GENERIC_HEAD[name].placeMm);
        return [name, { ...project(camera, [x + shift[0], y + shift[1], z + shift[2]]), sdPx: 0.3 }];
      }));
      const pose = findHeadPose(camera, seen, shape);
      if (pose.kind !== 'found') throw new Error(`seed ${seed}: ${pose.reason}`);
      rotation.forEach((each, k) => expectWithin(pose.rotation[k]!, each, { abs: 1e-9 }, `seed ${seed}, rotation ${k}`));
      shift.forEach((each, k) => expectWithin(pose.shift[k]!, each, { rel: 1e-9, abs: 1e-9 }, `seed ${seed}, shift ${k}`));
    }
  });

  it('refuses fewer than four, fewer than six on the generic shape, and exchanged sides', () => {
    const seen = Object.fromEntries(LANDMARK_NAMES.map((name): [string, TracedPoint] => {
      const [x, y, z] = turn(FACING, GENERIC_HEAD[name].placeMm);
      return [name, { ...project(camera, [x, y + 50, z + 300]), sdPx: 0.3 }];
    }));
    const first = (count: number) => Object.fromEntries(Object.entries(seen).slice(0, count));
    expect(findHeadPose(camera, first(3), GENERIC_HEAD)).toEqual({ kind: 'not-found', reason: 'too-few-landmarks' });
    expect(findHeadPose(camera, first(5))).toEqual({ kind: 'not-found', reason: 'too-few-landmarks' });
    const mirrored = Object.fromEntries(Object.entries(seen).map(([name, p]) => [name, { ...p, x: 1279 - p.x }]));
    expect(findHeadPose(camera, mirrored)).toEqual({ kind: 'not-found', reason: 'sides-exchanged' });
  });

  it('bears one landmark that is 20 px off', () => {
    const seen = Object.fromEntries(LANDMARK_NAMES.map((name, i) => {
      const [x, y, z] = turn(FACING, GENERIC_HEAD[name].placeMm);
      const at = project(camera, [x, y + 50, z + 300]);
      return [name, { x: at.x + (i === 3 ? 20 : 0), y: at.y, sdPx: 0.3 }];
    }));
    const exactShape = Object.fromEntries(LANDMARK_NAMES.map((name) => [name, { ...GENERIC_HEAD[name], sdMm: [0.01, 0.01, 0.01] as const }]));
    const pose = findHeadPose(camera, seen, exactShape);
    if (pose.kind !== 'found') throw new Error(pose.reason);
    expect(pose.weights['outer-eye-right']!).toBeLessThan(0.01);
    // Plain least squares turns it by some tenths of a degree.
    pose.rotation.forEach((each, k) => expectWithin(each, FACING[k]!, { abs: 5e-4 }, `rotation ${k}`));
  });
});

describe('the horn from the front, exact pictures', () => {
  it.each([true, false])('finds axis and rim, far mark known: %s, seeds 1 to 30', (known) => {
    for (let seed = 1; seed <= 30; seed++) {
      const random = createRandom(seed);
      const [elevation, lateral] = [-0.25 + 0.08 * random.normal(), 0.08 * random.normal()];
      const axis: Vec3 = [-Math.sin(lateral) * Math.cos(elevation), -Math.sin(elevation), -Math.cos(lateral) * Math.cos(elevation)];
      const centre: Vec3 = [10 * random.normal(), 10 * random.normal(), 200];
      const ellipse = projectCircle(camera, centre, axis, 13.5)!;
      const at = (mm: number): TracedPoint => ({ ...project(camera, [centre[0] + mm * axis[0], centre[1] + mm * axis[1], centre[2] + mm * axis[2]]), sdPx: 0.3 });
      const found = hornFromFront(camera, 13.5, {
        rim: { ...ellipse, centreSdPx: 0.1, axesSdPx: 0.1 }, near: at(15), far: at(100), farMm: known ? { value: 100, sd: 1 } : undefined,
      });
      if (found.kind !== 'found') throw new Error(`seed ${seed}: ${found.reason}`);
      // The weak pull toward the camera (0.6 rad) moves the axis by that much less than its own deviation.
      axis.forEach((each, k) => expectWithin(found.axis[k]!, each, { abs: known ? 5e-4 : 5e-3 }, `seed ${seed}, axis ${k}`));
    }
  });

  it('does not choose between the ellipse\'s two answers without a line', () => {
    const ellipse = projectCircle(camera, [0, 0, 200], [0, 0.3, -0.954], 13.5)!;
    expect(hornFromFront(camera, 13.5, { rim: { ...ellipse, centreSdPx: 0.1, axesSdPx: 0.1 } })).toEqual({ kind: 'not-found', reason: 'two-fold' });
  });
});
