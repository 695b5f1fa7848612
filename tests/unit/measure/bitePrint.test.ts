import { describe, expect, it } from 'vitest';
import { HAND_SD_PX } from '../../../src/measure/ellipseFit';
import { type PrintScale, printInMm } from '../../../src/measure/bitePrint';
import { type Corners, mapOfCorners, mapped } from '../../../src/measure/homography';
import { expectWithin } from '../../support/expectWithin';

const SQUARE: Corners = [{ x: 100, y: 100 }, { x: 1100, y: 100 }, { x: 1100, y: 900 }, { x: 100, y: 900 }];
const card = (corners: Corners): PrintScale => ({ by: 'card', corners, widthMm: 100, heightMm: 80 });
const TEETH = [{ x: 300, y: 500 }, { x: 600, y: 300 }, { x: 900, y: 500 }];

describe('a print in a picture', () => {
  it('seen square on is the picture made smaller, and errs by the hand', () => {
    const got = printInMm(card(SQUARE), TEETH);
    if (got.kind !== 'converted') throw new Error(got.reason);
    expectWithin(got.points[1]!.xMm, 50, { abs: 1e-9 });
    expectWithin(got.points[1]!.yMm, 20, { abs: 1e-9 });
    expectWithin(got.mmPerPx, 0.1, { rel: 1e-9 });
    for (const { sdMm } of got.points) {
      expect(sdMm).toBeGreaterThanOrEqual(0.1 * HAND_SD_PX);
      expect(sdMm).toBeLessThan(0.2 * HAND_SD_PX);
    }
    // Four corners told to half a pixel each, a thousand apart.
    expect(got.scalePart).toBeGreaterThan(2e-4);
    expect(got.scalePart).toBeLessThan(1e-3);
  });

  it('a ruler and a coin: millimetres a pixel', () => {
    const ruler = printInMm({ by: 'ruler', from: { x: 0, y: 0 }, to: { x: 300, y: 400 }, lengthMm: 50 }, TEETH);
    if (ruler.kind !== 'converted') throw new Error(ruler.reason);
    expectWithin(ruler.points[2]!.xMm - ruler.points[0]!.xMm, 60, { abs: 1e-9 });
    // Two marks, half a pixel each, 500 px apart.
    expectWithin(ruler.scalePart, (Math.SQRT2 * HAND_SD_PX) / 500, { rel: 1e-2 });
    const coin = printInMm({ by: 'circle', points: Array.from({ length: 8 }, (_, at) => ({ x: 500 + 100 * Math.cos(at), y: 500 + 80 * Math.sin(at) })), diameterMm: 20 }, TEETH);
    if (coin.kind !== 'converted') throw new Error(coin.reason);
    // Seen foreshortened in y: a pixel there is more of the card.
    expectWithin(Math.abs(coin.points[2]!.xMm - coin.points[0]!.xMm), 60, { abs: 1e-6 });
    expectWithin(Math.abs(coin.points[1]!.yMm - coin.points[0]!.yMm), 25, { abs: 1e-6 });
  });

  it.each([
    ['three corners on a line', card([SQUARE[0], { x: 600, y: 500 }, SQUARE[2], SQUARE[3]]), 'corners-line'],
    ['two corners in one place', card([SQUARE[0], SQUARE[0], SQUARE[2], SQUARE[3]]), 'corners-line'],
    ['corners that cross', card([SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3]]), 'corners-crossing'],
    ['a corner inside the others', card([SQUARE[0], SQUARE[1], { x: 300, y: 300 }, SQUARE[3]]), 'corners-crossing'],
    ['four points of a coin', { by: 'circle', points: SQUARE, diameterMm: 20 }, 'circle-few'],
    ['a coin of 0 px', { by: 'circle', points: Array.from({ length: 9 }, () => ({ x: 50, y: 50 })), diameterMm: 20 }, 'circle-few'],
    ['a coin that is a line', { by: 'circle', points: Array.from({ length: 9 }, (_, x) => ({ x, y: 2 * x })), diameterMm: 20 }, 'circle-none'],
    ['a ruler so short that a hand errs by a twentieth of it', { by: 'ruler', from: { x: 5, y: 5 }, to: { x: 11, y: 14 }, lengthMm: 50 }, 'unsure'],
    ['a card a few px large', card(SQUARE.map(({ x, y }) => ({ x: x / 200, y: y / 200 })) as unknown as Corners), 'unsure'],
    ['a ruler without length', { by: 'ruler', from: { x: 5, y: 5 }, to: { x: 6, y: 5 }, lengthMm: 50 }, 'ruler-short'],
  ] as const)('%s: refused', (_, scale, reason) => {
    expect(printInMm(scale, TEETH)).toEqual({ kind: 'refused', reason });
  });

  it('places count from the ruler, wherever it lies in the picture', () => {
    const far = (by: number): PrintScale => ({ by: 'ruler', from: { x: by, y: by }, to: { x: by + 300, y: by + 400 }, lengthMm: 50 });
    const [near, away] = [0, 20_000].map((by) => printInMm(far(by), TEETH.map(({ x, y }) => ({ x: x + by, y: y + by }))));
    if (near!.kind !== 'converted' || away!.kind !== 'converted') throw new Error('refused');
    expectWithin(away!.points[0]!.xMm, near!.points[0]!.xMm, { abs: 1e-9 });
    expectWithin(away!.points[0]!.sdMm, near!.points[0]!.sdMm, { rel: 1e-6 });
  });

  it('a card whose sides were typed the other way round is told, also seen from aside; one that may be either is not', () => {
    const turned = (corners: Corners, widthMm: number, heightMm: number): boolean => {
      const got = printInMm({ by: 'card', corners, widthMm, heightMm }, TEETH);
      if (got.kind !== 'converted') throw new Error(got.reason);
      return got.isTurned;
    };
    expect(turned(SQUARE, 100, 80)).toBe(false);
    expect(turned(SQUARE, 80, 100)).toBe(true);
    const aside: Corners = [{ x: 150, y: 180 }, { x: 1050, y: 180 }, { x: 1150, y: 830 }, { x: 50, y: 830 }];
    expect(turned(aside, 105, 74)).toBe(false);
    expect(turned(aside, 74, 105)).toBe(true);
    expect(turned(SQUARE, 90, 92)).toBe(false);
  });

  it('a tooth beyond the card\'s horizon: refused', () => {
    const corners: Corners = [{ x: 400, y: 400 }, { x: 600, y: 400 }, { x: 1000, y: 900 }, { x: 0, y: 900 }];
    expect(printInMm(card(corners), [{ x: 500, y: -2000 }])).toEqual({ kind: 'refused', reason: 'behind' });
    expect(printInMm(card(corners), []).kind).toBe('converted');
  });

  it('no lengths, no numbers', () => {
    expect(() => mapOfCorners(SQUARE, 0, 80)).toThrow('widthMm 0');
    expect(() => mapOfCorners([{ x: NaN, y: 0 }, ...SQUARE.slice(1)] as unknown as Corners, 100, 80)).toThrow('corners[0]');
    expect(() => printInMm({ by: 'ruler', from: SQUARE[0], to: SQUARE[1], lengthMm: -1 }, TEETH)).toThrow('lengthMm -1');
    expect(() => mapped([1, 0, 0, 0, 1, 0, 1, 0, 0], { x: 0, y: 4 })).toThrow('horizon');
  });
});
