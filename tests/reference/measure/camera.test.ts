/** The pinhole camera, rotations and the plane's similarity against outside truths. */
import { describe, expect, it } from 'vitest';
import { circleForm, focalFromEquivalent, project, rayOf } from '../../../src/measure/camera';
import { compose, rotationFromVector, turn, turnBack } from '../../../src/measure/rotation';
import { fitSimilarity } from '../../../src/measure/similarity';
import { createRandom } from '../../../src/core/random';
import { type Vec3, cross, dot } from '../../../src/core/vector';
import { expectWithin } from '../../support/expectWithin';
import { ellipseThrough } from '../../support/filmedHead';
import { projectCircle } from '../../support/projectedCircle';

/** Rounding of doubles in px of a thousand, times some hundred. */
const PX = 1e-9;

const POINTS: readonly Vec3[] = [[0, 75, 2], [-16, 70, -13], [46, 71, -23], [-55, 45, -22], [70, 46, -95], [3, -2, 10]];

/** Printed by cv2.projectPoints of OpenCV 5.0.0 (pip opencv-python-headless), no distortion, middle at ((w − 1)/2, (h − 1)/2). */
const OPENCV: readonly { vector: Vec3; shift: Vec3; focalPx: number; width: number; height: number; px: readonly (readonly [number, number])[] }[] = [
  {
    vector: [0.1, -0.2, 0.05], shift: [12, -8, 420], focalPx: 1100, width: 1280, height: 720,
    px: [[657.8186694212641, 529.559803467918], [625.3505123079456, 526.3179136989754], [791.9428821872325, 537.1385810566843],
      [526.5977726306086, 462.9225071783155], [946.1303218764073, 519.7727655756471], [672.9934357942824, 331.6019487004446]],
  },
  {
    vector: [2.9, 0.15, -0.3], shift: [-20, 35, 300], focalPx: 950, width: 1280, height: 720,
    px: [[605.8289251564258, 243.7589248218152], [569.1590808525306, 269.8475870800958], [749.7502362441039, 286.83044203854604],
      [462.26760829211656, 337.53114098755043], [816.8357203686264, 402.9790319447067], [576.379282064783, 474.00228694785983]],
  },
  {
    vector: [-0.4, 0.7, 1.2], shift: [5, 6, 900], focalPx: 2400, width: 1920, height: 1080,
    px: [[787.5438761347054, 624.1544774219467], [780.7043214035101, 565.0546106599026], [793.2225674160532, 672.5012046366238],
      [819.2990048337476, 457.0477456131448], [802.7060721077703, 573.4365566496593], [986.6828751893015, 575.8861688857091]],
  },
];

describe('perspective', () => {
  it.each(OPENCV)('gives what projectPoints gives, turn ($vector)', ({ vector, shift, focalPx, width, height, px }) => {
    const rotation = rotationFromVector(vector);
    const camera = { width, height, focalPx, focalRelativeSd: 0 };
    POINTS.forEach((point, i) => {
      const [x, y, z] = turn(rotation, point);
      const seen = project(camera, [x + shift[0], y + shift[1], z + shift[2]]);
      expectWithin(seen.x, px[i]![0], { abs: PX }, 'x');
      expectWithin(seen.y, px[i]![1], { abs: PX }, 'y');
      const ray = rayOf(camera, seen);
      expectWithin(ray[0] / ray[2], (x + shift[0]) / (z + shift[2]), { abs: 1e-12 }, 'ray');
    });
  });

  it('takes 43.27 mm of equivalent focal length for a picture\'s diagonal', () => {
    expectWithin(focalFromEquivalent(Math.hypot(36, 24), 1280, 720), Math.hypot(1280, 720), { rel: 1e-14 });
  });
});

describe('the ellipse of a circle', () => {
  it('passes through the circle\'s points projected one by one, seeds 1 to 40', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const random = createRandom(seed);
      const camera = { width: 1280, height: 720, focalPx: 1000, focalRelativeSd: 0 };
      const tilt: Vec3 = [0.6 * random.normal(), 0.6 * random.normal(), random.normal()];
      const rotation = rotationFromVector(tilt);
      const centre: Vec3 = [30 * random.normal(), 30 * random.normal(), 180 + 40 * random.uniform()];
      const radius = 8 + 12 * random.uniform();
      const dots = [0, 1, 2, 3, 4, 5, 6].map((k) => {
        const p = turn(rotation, [radius * Math.cos(k), radius * Math.sin(k), 0]);
        return [639.5 + (1000 * (p[0] + centre[0])) / (p[2] + centre[2]), 359.5 + (1000 * (p[1] + centre[1])) / (p[2] + centre[2])] as const;
      });
      const form = circleForm(camera, centre, turn(rotation, [0, 0, 1]), radius)!;
      const det = form.xx * form.yy - form.xy ** 2;
      for (const [x, y] of dots) {
        const u = x - form.centre.x;
        const v = y - form.centre.y;
        expectWithin((form.yy * u * u - 2 * form.xy * u * v + form.xx * v * v) / det, 1, { abs: 1e-9 }, `seed ${seed}`);
      }
      const ellipse = projectCircle(camera, centre, turn(rotation, [0, 0, 1]), radius)!;
      const brute = ellipseThrough(dots.slice(0, 5));
      expectWithin(ellipse.semiMajorPx, brute.semiMajorPx, { rel: 1e-8 }, 'larger');
      expectWithin(ellipse.semiMinorPx, brute.semiMinorPx, { rel: 1e-8 }, 'smaller');
      expectWithin(Math.sin(ellipse.angleRad - brute.angleRad), 0, { abs: 1e-6 }, 'angle');
    }
  });

  it('is none where the circle reaches the camera', () => {
    expect(projectCircle({ width: 10, height: 10, focalPx: 10, focalRelativeSd: 0 }, [0, 0, 5], [1, 0, 0], 6)).toBeNull();
  });
});

describe('rotations', () => {
  it('turn by Rodrigues’ formula, near half a turn and near none too, and compose', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const random = createRandom(seed);
      const direction: Vec3 = [random.normal(), random.normal(), random.normal()];
      const size = Math.hypot(...direction);
      for (const angle of [1e-7, 1e-3, 1, 3, Math.PI - 1e-4]) {
        const vector: Vec3 = [(direction[0] * angle) / size, (direction[1] * angle) / size, (direction[2] * angle) / size];
        const axis: Vec3 = [direction[0] / size, direction[1] / size, direction[2] / size];
        const across = cross(axis, [1, 2, 3]);
        const along = (1 - Math.cos(angle)) * dot(axis, [1, 2, 3]);
        turn(rotationFromVector(vector), [1, 2, 3]).forEach((each, k) =>
          expectWithin(each, Math.cos(angle) * (k + 1) + Math.sin(angle) * across[k]! + along * axis[k]!, { abs: 1e-12 }, `seed ${seed}, angle ${angle}`),
        );
      }
      const r = rotationFromVector(direction);
      const twice = turn(compose(r, r), direction);
      direction.forEach((each, k) => expectWithin(twice[k]!, each, { abs: 1e-12 }, 'its own axis'));
      turnBack(r, turn(r, [1, 2, 3])).forEach((each, k) => expectWithin(each, k + 1, { abs: 1e-12 }, 'there and back'));
    }
  });
});

describe('the similarity of the plane', () => {
  it('is that of Umeyama\'s worked example, whose best map is a mirrored one', () => {
    // Umeyama 1991, section IV: points (0,0), (1,0), (0,2) onto (0,0), (−1,0), (0,2). In closed form the turn is that of (3, −2)/√13,
    // the scale √13/5, the shift (−4/5, 2/5); the paper prints 0.832, 0.555, 0.721, −0.800, 0.400 (from memory).
    const fit = fitSimilarity([{ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 0, y: 2 }], [{ x: 0, y: 0 }, { x: -1, y: 0 }, { x: 0, y: 2 }]);
    if (fit.kind !== 'fitted') throw new Error('not fitted');
    expectWithin(fit.scale, Math.sqrt(13) / 5, { abs: 1e-14 }, 'scale');
    expectWithin(Math.cos(fit.angleRad), 3 / Math.sqrt(13), { abs: 1e-14 }, 'cosine');
    expectWithin(Math.sin(fit.angleRad), -2 / Math.sqrt(13), { abs: 1e-14 }, 'sine');
    expectWithin(fit.shift.x, -0.8, { abs: 1e-14 }, 'x');
    expectWithin(fit.shift.y, 0.4, { abs: 1e-14 }, 'y');
    expect(fit.mirroredFitsBetter).toBe(true);
    // Left over, summed by hand over the three points with the map above.
    const left = [[0, 0, 0, 0], [1, 0, -1, 0], [0, 2, 0, 2]].map(([x, y, u, v]) => {
      const mx = 0.6 * x! + 0.4 * y! - 0.8;
      const my = -0.4 * x! + 0.6 * y! + 0.4;
      return (mx - u!) ** 2 + (my - v!) ** 2;
    });
    expectWithin(fit.meanSquare, left.reduce((a, b) => a + b, 0) / 3, { abs: 1e-14 }, 'left');
  });

  it('counts weights as repeated points', () => {
    const from = [{ x: 0, y: 1 }, { x: 4, y: 2 }, { x: 3, y: -5 }];
    const to = [{ x: 2, y: 1 }, { x: 4, y: 8 }, { x: 9, y: -1 }];
    const weighted = fitSimilarity(from, to, [1, 2, 1]);
    const repeated = fitSimilarity([from[0]!, from[1]!, from[1]!, from[2]!], [to[0]!, to[1]!, to[1]!, to[2]!]);
    if (weighted.kind !== 'fitted' || repeated.kind !== 'fitted') throw new Error('not fitted');
    expectWithin(weighted.scale, repeated.scale, { rel: 1e-14 });
    expectWithin(weighted.angleRad, repeated.angleRad, { rel: 1e-13 });
  });
});
