/** The share read off a picture, against rims and lip lines in space projected point by point. */
import { describe, expect, it } from 'vitest';
import { areaShare, arcShare, lipLineOffset } from '../../../src/core/lipLine';
import { type Random, createRandom } from '../../../src/core/random';
import { fitEllipse } from '../../../src/measure/ellipseFit';
import type { Landmarks } from '../../../src/measure/marks';
import type { Point } from '../../../src/measure/picture';
import { type SharesSeen, sharesSeen } from '../../../src/measure/placementSeen';
import { expectWithin } from '../../support/expectWithin';

const RIM = { innerDiameterMm: 16.5, outerDiameterMm: 27, highPointDiameterMm: 21, contourRadiusMm: null };
const DEGREE = Math.PI / 180;

/** A player before the camera: rim's plane tipped up and turned, the picture rolled, the lips meeting behind the rim's plane. */
interface Scene {
  readonly share: number;
  readonly leanDeg: number;
  readonly tipDeg: number;
  readonly turnDeg: number;
  readonly rollDeg: number;
  readonly depthMm: number;
  readonly focalPx: number;
  readonly awayMm: number;
}

function look(scene: Scene): { rim: Point[]; lipLine: Point[]; landmarks: Landmarks } {
  // The rim's own plane: x to the player's left, y up, z toward the camera; the camera sees the player's left at its right.
  const pixel = (x: number, y: number, z: number): Point => {
    const [ct, st] = [Math.cos(scene.tipDeg * DEGREE), Math.sin(scene.tipDeg * DEGREE)];
    const [cu, su] = [Math.cos(scene.turnDeg * DEGREE), Math.sin(scene.turnDeg * DEGREE)];
    const [y1, z1] = [ct * y - st * z, st * y + ct * z];
    const [x2, z2] = [cu * x + su * z1, cu * z1 - su * x];
    const [cr, sr] = [Math.cos(scene.rollDeg * DEGREE), Math.sin(scene.rollDeg * DEGREE)];
    const depth = scene.awayMm - z2;
    const [right, up] = [(scene.focalPx * x2) / depth, (scene.focalPx * y1) / depth];
    return { x: 640 + cr * right - sr * up, y: 360 - (sr * right + cr * up) };
  };
  const height = lipLineOffset(RIM, { value: scene.share, by: 'diameter' });
  const [c, s] = [Math.cos(scene.leanDeg * DEGREE), Math.sin(scene.leanDeg * DEGREE)];
  const turns = Array.from({ length: 12 }, (_, k) => (2 * Math.PI * k) / 12);
  return {
    rim: turns.map((t) => pixel(13.5 * Math.cos(t), 13.5 * Math.sin(t), 0)),
    lipLine: [-6, -3, 0, 3, 6].map((along) => pixel(along * c - height * s, along * s + height * c, -scene.depthMm)),
    landmarks: { 'outer-eye-right': pixel(-45, 70, -20), 'outer-eye-left': pixel(45, 70, -20) },
  };
}

function read(scene: Scene, shake: (point: Point, sdPx: number) => Point, markSdPx: number, lipDepthSdMm: number): SharesSeen {
  const { rim, lipLine, landmarks } = look(scene);
  const fit = fitEllipse(rim.map((point) => shake(point, 0.5)));
  if (fit.kind !== 'fitted') throw new Error(fit.reason);
  const seen = sharesSeen(fit.ellipse, lipLine.map((point) => shake(point, markSdPx)), RIM, { covariance: fit.formCovariance, landmarks, markSdPx, lipDepthSdMm });
  if (seen.kind !== 'seen') throw new Error(seen.reason);
  return seen;
}

const still = (point: Point): Point => point;
/** From far away the ellipse's map is exact; 100 m leave a ten-thousandth. */
const FAR = { focalPx: 300_000, awayMm: 100_000 };
const FAR_SHARE = 5e-4;

describe('exact marks from far away', () => {
  it.each([
    { share: 0.62, leanDeg: 0, tipDeg: 0, turnDeg: 0, rollDeg: 0 },
    { share: 0.35, leanDeg: 6, tipDeg: 20, turnDeg: 0, rollDeg: 0 },
    { share: 0.5, leanDeg: 0, tipDeg: -15, turnDeg: 25, rollDeg: 12 },
    { share: 0.71, leanDeg: -4, tipDeg: 10, turnDeg: -20, rollDeg: 170 },
  ])('give the share: $share, tipped $tipDeg°, turned $turnDeg°, picture rolled $rollDeg°', (place) => {
    const seen = read({ ...place, ...FAR, depthMm: 0 }, still, 1, 0);
    expectWithin(seen.diameter.value, place.share, { abs: FAR_SHARE }, 'by diameter');
    expectWithin(seen.arc.value, arcShare(place.share), { abs: FAR_SHARE }, 'by arc');
    expectWithin(seen.area.value, areaShare(place.share), { abs: FAR_SHARE }, 'by area');
    expectWithin(seen.offsetMm, lipLineOffset(RIM, { value: place.share, by: 'diameter' }), { abs: FAR_SHARE * RIM.innerDiameterMm }, 'offset');
  });
});

const TRIALS = 1500;

describe('marks of 1 px, lips 1 mm before or behind, the camera near', () => {
  it.each([
    { tipSd: 3, seed: 701 },
    { tipSd: 12, seed: 702 },
  ])('stated deviations hold 90 to 98 % in every meaning, tipped by $tipSd° (seed $seed)', ({ tipSd, seed }) => {
    const random: Random = createRandom(seed);
    const held = { diameter: 0, arc: 0, area: 0 };
    for (let trial = 0; trial < TRIALS; trial++) {
      const share = 0.3 + 0.4 * random.uniform();
      const scene: Scene = {
        share,
        leanDeg: 3 * random.normal(),
        tipDeg: tipSd * random.normal(),
        turnDeg: tipSd * random.normal(),
        rollDeg: 3 * random.normal(),
        depthMm: random.normal(),
        focalPx: 3000,
        awayMm: 500,
      };
      const seen = read(scene, ({ x, y }, sd) => ({ x: x + sd * random.normal(), y: y + sd * random.normal() }), 1, 1);
      const truth = { diameter: share, arc: arcShare(share), area: areaShare(share) };
      for (const meaning of ['diameter', 'arc', 'area'] as const) {
        if (Math.abs(seen[meaning].value - truth[meaning]) <= 1.96 * seen[meaning].sd) held[meaning]++;
      }
    }
    for (const part of Object.values(held)) expect(part / TRIALS).toBeGreaterThan(0.9);
    for (const part of Object.values(held)) expect(part / TRIALS).toBeLessThan(0.98);
  });
});
