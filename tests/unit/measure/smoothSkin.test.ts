/** Points on smooth skin and in changing light, and how far what is told of them can be trusted. */
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { followPoint, seekPoint, settlePoint } from '../../../src/measure/followedPoint';
import { lineSamples } from '../../../src/measure/lineSamples';
import { createPyramid, fillPyramid } from '../../../src/measure/pyramid';
import { acrossSdPx, anyWaySdPx } from '../../../src/measure/slidingPoint';
import type { TracedPoint } from '../../../src/measure/traces';
import { expectWithin } from '../../support/expectWithin';
import { createTexture, pictureOf } from '../../support/texture';

const place = { x: 110.3, y: 100.7 };

describe('a point on smooth skin', () => {
  it('of 3 grey levels under noise as strong, in light that stays while the head moves, is held with an honest deviation', () => {
    const random = createRandom(31);
    const skin = createTexture(random, 9, 3);
    const frameAt = (shift: number) => {
      const pyramid = createPyramid(3);
      // The light falls off to the right, and does not go with the skin.
      const picture = pictureOf(220, 200, (x, y) => skin(x - shift, y + 0.5 * shift) - 0.15 * x, { random, sdGrey: 3 });
      fillPyramid(pyramid, picture, { left: 0, top: 0, right: 220, bottom: 200 });
      return pyramid;
    };
    const point = followPoint('cheekbone-right', place, frameAt(0), 8, { px: 0.1, unlike: 16 }, true)!;
    settlePoint(point, seekPoint(point, frameAt(0)) as never, point.pose);
    let squares = 0;
    for (let frame = 1; frame <= 12; frame++) {
      const answer = seekPoint(point, frameAt(0.7 * frame));
      if (!answer.found) throw new Error(`lost in frame ${frame}: ${answer.reason}, ${answer.correlation}`);
      settlePoint(point, answer, point.pose);
      const { xx, yy } = answer.covariance;
      squares += ((answer.pose.x - place.x - 0.7 * frame) ** 2 / xx + (answer.pose.y - place.y + 0.35 * frame) ** 2 / yy) / 24;
      expect(Math.hypot(answer.pose.x - place.x - 0.7 * frame, answer.pose.y - place.y + 0.35 * frame)).toBeLessThan(2);
    }
    // Root mean square of error over told.
    expect(Math.sqrt(squares)).toBeLessThan(1.3);
  });
});

describe('a point that slid along an edge', () => {
  const sliding: TracedPoint = { x: 0, y: 0, sdPx: 0.2, slides: { alongRad: Math.PI / 6, sdPx: 3 } };
  it('counts by the direction that matters', () => {
    expectWithin(acrossSdPx(sliding, Math.PI / 6), 0.2, { abs: 1e-12 }, 'its own line');
    expectWithin(acrossSdPx(sliding, Math.PI / 6 + Math.PI / 2), 3, { abs: 1e-12 }, 'across its line');
    expectWithin(anyWaySdPx(sliding), Math.sqrt((0.04 + 9) / 2), { abs: 1e-12 });
  });

  it('along the line it ends leaves the angle as sure as before, along another edge it does not', () => {
    const camera = { width: 1280, height: 720, focalPx: 1000, focalRelativeSd: 0.05 };
    const at = (x: number, y: number, slides?: TracedPoint['slides']): TracedPoint => ({ x, y, sdPx: 0.3, slides });
    const sdOf = (slides?: TracedPoint['slides']): number => {
      const points = { 'level-back': at(400, 300), 'level-front': at(500, 300), 'horn-near': at(600, 360), 'horn-far': at(700, 360, slides) };
      return lineSamples({ view: 'right', frames: [{ timeS: 0, rim: null, points }] }, camera)[0]!.seen!.marksSdDeg;
    };
    expectWithin(sdOf({ alongRad: 0, sdPx: 4 }), sdOf(), { rel: 1e-9 });
    expect(sdOf({ alongRad: Math.PI / 2, sdPx: 4 })).toBeGreaterThan(1.5 * sdOf());
  });
});
