import { expect, it } from 'vitest';
import { createPyramid, fillPyramid, insideLevel, sampleCubic, sampleLinear, toLevel } from '../../../src/measure/pyramid';
import { expectWithin } from '../../support/expectWithin';
import { pictureOf } from '../../support/texture';

/** A plane of brightness is the same plane at every level and between all pixels; 0.5 grey levels are the picture's own rounding. */
it('keeps a plane of brightness at every level, in a region that begins anywhere', () => {
  const plane = (x: number, y: number): number => 20 + 1.5 * x + 0.75 * y;
  const pyramid = createPyramid(3);
  fillPyramid(pyramid, pictureOf(90, 70, plane), { left: 13, top: 9, right: 71.5, bottom: 63 });
  for (const level of pyramid.levels) {
    const x = toLevel(level, 40.3);
    const y = toLevel(level, 31.8);
    expect(insideLevel(level, x, y)).toBe(true);
    expectWithin(sampleCubic(level, x, y), plane(40.3, 31.8), { abs: 0.6 }, `cubic at ${level.scale}`);
    expectWithin(sampleLinear(level, x, y), plane(40.3, 31.8), { abs: 0.5 }, `linear at ${level.scale}`);
    expect(insideLevel(level, toLevel(level, 5), y)).toBe(false);
  }
});

it('goes through the pixels themselves', () => {
  const picture = pictureOf(20, 20, (x, y) => (x * 37 + y * 91) % 256);
  const pyramid = createPyramid(1);
  fillPyramid(pyramid, picture, { left: 0, top: 0, right: 20, bottom: 20 });
  expect(sampleCubic(pyramid.levels[0]!, 7, 11)).toBe(picture.luma[11 * 20 + 7]);
  expect(sampleLinear(pyramid.levels[0]!, 7, 11)).toBe(picture.luma[11 * 20 + 7]);
});

it('is empty of a region outside the picture, and refuses what cannot be', () => {
  const pyramid = createPyramid(2);
  fillPyramid(pyramid, pictureOf(16, 16, () => 9), { left: 40, top: 0, right: 60, bottom: 16 });
  expect(pyramid.levels.map(({ width }) => width)).toEqual([0, 0]);
  expect(() => createPyramid(0)).toThrow(/levelCount 0; allowed/);
  expect(() => fillPyramid(pyramid, { width: 9, height: 9, luma: new Uint8Array(3) }, { left: 0, top: 0, right: 9, bottom: 9 })).toThrow(/luma of 3/);
});
