import { describe, expect, test } from 'vitest';
import { type Viewport, fitted, panned, showing, toFrame, toPicture, zoomed } from '../../../../src/notebook/measure/viewport';
import { expectWithin } from '../../../support/expectWithin';

const PICTURE = { width: 4000, height: 3000 };
const FRAME = { width: 800, height: 700 };
/** CSS px and picture px: rounding of doubles at sizes of a few thousand. */
const ROUNDING = { abs: 1e-9, rel: 0 };

describe('a picture in its frame', () => {
  test('is fitted whole and in the middle', () => {
    expect(fitted(PICTURE, FRAME)).toEqual({ scale: 0.2, leftPx: 0, topPx: 50 });
  });

  test('the centre of the first pixel is (0, 0)', () => {
    const view: Viewport = { scale: 4, leftPx: 10, topPx: 20 };
    expect(toFrame(view, { x: 0, y: 0 })).toEqual({ x: 12, y: 22 });
    expect(toPicture(view, { x: 12, y: 22 })).toEqual({ x: 0, y: 0 });
  });

  test('made larger about a place, that place stays', () => {
    const about = { x: 300, y: 400 };
    const before = toPicture(fitted(PICTURE, FRAME), about);
    const after = toPicture(zoomed(fitted(PICTURE, FRAME), 7, about, PICTURE, FRAME), about);
    expectWithin(after.x, before.x, ROUNDING);
    expectWithin(after.y, before.y, ROUNDING);
  });

  test('is never smaller than whole, and never larger than single pixels need', () => {
    const whole = fitted(PICTURE, FRAME);
    expect(zoomed({ ...whole, scale: 0.3 }, 0.1, { x: 0, y: 0 }, PICTURE, FRAME)).toEqual(whole);
    expect(zoomed(whole, 1e6, { x: 0, y: 0 }, PICTURE, FRAME).scale).toBe(32);
  });

  test('cannot be moved out of its frame', () => {
    const large = zoomed(fitted(PICTURE, FRAME), 4, { x: 400, y: 350 }, PICTURE, FRAME);
    const away = panned(large, { x: 1e5, y: -1e5 }, PICTURE, FRAME);
    expect(away.leftPx).toBeLessThan(FRAME.width);
    expect(away.topPx + PICTURE.height * away.scale).toBeGreaterThan(0);
  });

  test('moves no further than needed to show a point, and not at all where it is seen', () => {
    const large = zoomed(fitted(PICTURE, FRAME), 4, { x: 0, y: 0 }, PICTURE, FRAME);
    const point = { x: 3990, y: 2990 };
    const shown = showing(large, point, PICTURE, FRAME);
    const at = toFrame(shown, point);
    expect(at.x).toBeLessThanOrEqual(FRAME.width);
    expect(at.y).toBeLessThanOrEqual(FRAME.height);
    expect(showing(shown, point, PICTURE, FRAME)).toBe(shown);
  });
});
