/** What is drawn lies where the truth says, found by means that share nothing with the drawing. */
import { describe, expect, test } from 'vitest';
import type { GreyPicture, Point } from '../../../src/measure/picture';
import { hornHit, hornPieces, hornPlaceOf } from '../../support/films/hornShape';
import { renderFrame } from '../../support/films/renderFrame';
import { type Scene, sceneOf } from '../../support/films/scene';
import { rimEdgePoint, seenAt, truthAt } from '../../support/films/truth';
import { expectWithin } from '../../support/expectWithin';

/** Every scene's textures take about half a second, several on a busy machine. */
const SLOW_MS = 60_000;

const clean = { noiseSd: 0, durationS: 6, headTurnSdDeg: 4 };

describe('the drawn frame', () => {
  test.each([1, 2, 3])("the rim's edge lies within 0.1 px of the truth (seed %i)", (seed) => {
    const scene = sceneOf({ ...clean, seed });
    const offs: number[] = [];
    for (const timeS of [0.5, 2.3, 4.1]) offs.push(...edgeOffsPx(scene, timeS));
    expect(offs.length).toBeGreaterThan(150);
    const mean = offs.reduce((sum, off) => sum + off, 0) / offs.length;
    expectWithin(mean, 0, { abs: 0.03 }, 'mean of the offs, px');
    expectWithin(Math.hypot(...offs) / Math.sqrt(offs.length), 0, { abs: 0.1 }, 'RMS of the offs, px');
  }, SLOW_MS);

  test.each([1, 4])('the dabs on nose bridge and cheekbone lie on their landmarks while the head moves (seed %i)', (seed) => {
    const scene = sceneOf({ ...clean, seed, skinContrast: 0.2 });
    for (const name of ['nose-bridge', 'cheekbone-right'] as const) {
      const offs = [0.5, 2, 3.5, 5].map((timeS) => {
        const landmark = truthAt(scene, timeS).px.landmarks[name];
        const found = darkMiddle(renderFrame(scene, timeS), landmark, 10);
        return { x: found.x - landmark.x, y: found.y - landmark.y };
      });
      const mean = { x: offs.reduce((sum, off) => sum + off.x, 0) / offs.length, y: offs.reduce((sum, off) => sum + off.y, 0) / offs.length };
      // A dab is a ball of 1.4 mm that the skin cuts, seen at a slant and unevenly lit: its middle may be off a little (0.1 mm), but stays there.
      expectWithin(Math.hypot(mean.x, mean.y), 0, { abs: 0.7 }, `${name}, mean, px`);
      for (const off of offs) expectWithin(Math.hypot(off.x - mean.x, off.y - mean.y), 0, { abs: 0.2 }, `${name}, about its mean, px`);
    }
  }, SLOW_MS);

  test.each(['right', 'above'] as const)("the far bead lies on the horn's axis (from %s)", (view) => {
    const scene = sceneOf({ ...clean, seed: 2, view });
    for (const timeS of [0.5, 3]) {
      const { to } = truthAt(scene, timeS).px.horn;
      const picture = renderFrame(scene, timeS);
      // Across the bead (upright in the picture, the horn lying along it): from the dark of one side to that of the other.
      const radius = Math.ceil((scene.horn.beadRadiusMm * scene.camera.focalPx) / truthAt(scene, timeS).headInCamera.shiftMm[2]) + 4;
      const [top, bottom] = [strongestStep(picture, to, -radius), strongestStep(picture, to, radius)];
      expectWithin((top + bottom) / 2, to.y, { abs: 1 }, 'middle of the bead, px');
    }
  }, SLOW_MS);

  test('the same scene and time give the same picture, another time other noise', () => {
    const scene = sceneOf({ seed: 6, durationS: 2 });
    const first = renderFrame(scene, 1).luma;
    renderFrame(scene, 1.5);
    // Deviations, for a comparison of a million numbers one by one takes the test runner minutes.
    expect(deviation(renderFrame(scene, 1).luma, first)).toBe(0);
    expect(deviation(renderFrame(sceneOf({ seed: 6, durationS: 2 }), 1).luma, first)).toBe(0);
    expect(deviation(renderFrame(scene, 1 + 1 / 30).luma, first)).toBeGreaterThan(1);
  }, SLOW_MS);

  test('noise has the deviation asked, and an open shutter smears', () => {
    const options = { seed: 6, durationS: 4, headTurnSdDeg: 5 };
    const still = renderFrame(sceneOf({ ...options, noiseSd: 0 }), 1).luma;
    const noisy = renderFrame(sceneOf({ ...options, noiseSd: 3 }), 1).luma;
    // 920 000 pixels; what is cut at black and white is next to nothing.
    expectWithin(deviation(noisy, still), 3, { rel: 0.03 }, 'noise, grey levels');
    const smeared = renderFrame(sceneOf({ ...options, noiseSd: 0, exposureS: 1 / 30 }), 1).luma;
    expect(deviation(smeared, still)).toBeGreaterThan(1);
  }, SLOW_MS);

  test('out must be of the frame’s size', () => {
    expect(() => renderFrame(sceneOf({ seed: 1 }), 0, new Uint8Array(5))).toThrow(/out holds 5 bytes; allowed: 921600/);
  });
});

/** Along the normal of the edge at 72 places, from the metal outward: where the brightness falls through half of its step, px off the truth. */
function edgeOffsPx(scene: Scene, timeS: number): number[] {
  const picture = renderFrame(scene, timeS);
  const truth = truthAt(scene, timeS);
  const pieces = hornPieces(scene);
  const place = hornPlaceOf(truth);
  const { centre, semiMajorPx, semiMinorPx, angleRad } = truth.px.rimEllipse;
  const offs: number[] = [];
  for (let step = 0; step < 72; step++) {
    const point = seenAt(scene, truth, rimEdgePoint(scene, truth.rim, (2 * Math.PI * step) / 72));
    const hidden = [-6, 0, 6].some((dx) => [-6, 0, 6].some((dy) => hornHit(pieces, place, (point.x + dx - 639.5) / scene.camera.focalPx, (point.y + dy - 359.5) / scene.camera.focalPx)));
    if (hidden) continue;
    const [x, y] = [point.x - centre.x, point.y - centre.y];
    const along = (x * Math.cos(angleRad) + y * Math.sin(angleRad)) / semiMajorPx ** 2;
    const across = (y * Math.cos(angleRad) - x * Math.sin(angleRad)) / semiMinorPx ** 2;
    const size = Math.hypot(along, across);
    const normal = { x: (along * Math.cos(angleRad) - across * Math.sin(angleRad)) / size, y: (along * Math.sin(angleRad) + across * Math.cos(angleRad)) / size };
    const at = (off: number): number => smooth(picture, { x: point.x + off * normal.x, y: point.y + off * normal.y });
    const half = (at(-1.5) + at(1.5)) / 2;
    let off = -1.5;
    while (off < 1.5 && at(off) > half) off += 0.01;
    offs.push(off);
  }
  return offs;
}

/** Between the four pixels round a point. */
function smooth({ width, luma }: GreyPicture, { x, y }: Point): number {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  const [a, b] = [x - column, y - row];
  const at = row * width + column;
  return (1 - b) * ((1 - a) * luma[at]! + a * luma[at + 1]!) + b * ((1 - a) * luma[at + width]! + a * luma[at + width + 1]!);
}

/** Middle of what is clearly darker than the surroundings. */
function darkMiddle(picture: GreyPicture, { x, y }: Point, reach: number): Point {
  const places: { x: number; y: number; luma: number }[] = [];
  for (let row = Math.round(y) - reach; row <= Math.round(y) + reach; row++) {
    for (let column = Math.round(x) - reach; column <= Math.round(x) + reach; column++) places.push({ x: column, y: row, luma: picture.luma[row * picture.width + column]! });
  }
  const light = places.map((place) => place.luma).sort((a, b) => a - b)[Math.floor(0.6 * places.length)]!;
  const dark = places.map((place) => ({ ...place, weight: Math.max(0, light - 20 - place.luma) }));
  const total = dark.reduce((sum, place) => sum + place.weight, 0);
  return { x: dark.reduce((sum, place) => sum + place.x * place.weight, 0) / total, y: dark.reduce((sum, place) => sum + place.y * place.weight, 0) / total };
}

/** Row of the strongest step between the middle and `reach` rows from it. */
function strongestStep(picture: GreyPicture, { x, y }: Point, reach: number): number {
  const sign = Math.sign(reach);
  let best = { row: y, step: 0 };
  for (let off = 0.6 * Math.abs(reach); off <= Math.abs(reach); off += 0.05) {
    const row = y + sign * off;
    const step = Math.abs(smooth(picture, { x, y: row + 0.5 }) - smooth(picture, { x, y: row - 0.5 }));
    if (step > best.step) best = { row, step };
  }
  return best.row;
}

function deviation(a: Uint8Array, b: Uint8Array): number {
  return Math.sqrt(a.reduce((sum, value, at) => sum + (value - b[at]!) ** 2, 0) / a.length);
}
