/** The figures on paper: nothing outside, no words on words, readable type, the arc as large as it says. */
import { describe, expect, test } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import type { PlayerRecord } from '../../../src/core/specs';
import { aboveFigure } from '../../../src/print/aboveFigure';
import { type Figure, TEXT_MM, boxOf, fitInto, spreadDown } from '../../../src/print/figure';
import { FIGURE_WIDTHS_MM, PAPERS } from '../../../src/print/paper';
import { type FigureWords, sideFigure } from '../../../src/print/sideFigure';
import { demoPlayers } from '../../../src/records/library';
import { inventedPlayer } from '../../support/handOutPlayers';
import { expectWithin } from '../../support/expectWithin';

const held: FigureWords = { posture: 'held', noteLabel: (note) => note.replace('b', '♭') };
const lap: FigureWords = { ...held, posture: 'lap' };
const heights = [...new Set(Object.values(PAPERS).flatMap(({ figureHeightMm }) => [figureHeightMm.one, figureHeightMm.two]))];

/** Strokes and marks reach a little beyond the points they are drawn at, mm. */
const PEN_MM = 1.5;
const POINT_MM = 25.4 / 72;

describe.each(['up', 'down', 'tuba', 'broad', 'one', 'none', 'many'])('player %s', (name) => {
  const analysis = analyse(inventedPlayer(name));
  const words = name === 'tuba' ? lap : held;
  const figures: readonly (readonly [string, Figure])[] = heights.flatMap((heightMm) => [
    [`side ${heightMm}`, sideFigure(analysis, words, { widthMm: FIGURE_WIDTHS_MM.side, heightMm })] as const,
    [`above ${heightMm}`, aboveFigure(analysis, words, { widthMm: FIGURE_WIDTHS_MM.above, heightMm })] as const,
  ]);

  test.each(figures)('%s: everything stands on the paper', (_name, { widthMm, heightMm, lines, marks, texts }) => {
    for (const [x, y] of [...lines.flatMap(({ points }) => points), ...marks.map(({ at }) => at)]) {
      expect(x).toBeGreaterThan(-PEN_MM);
      expect(x).toBeLessThan(widthMm + PEN_MM);
      expect(y).toBeGreaterThan(-PEN_MM);
      expect(y).toBeLessThan(heightMm + PEN_MM);
    }
    for (const text of texts) {
      const box = boxOf(text);
      expect([text.text, box.left >= 0, box.top >= -0.1, box.right <= widthMm, box.bottom <= heightMm]).toEqual([text.text, true, true, true, true]);
    }
  });

  test.each(figures)('%s: no words stand on others', (_name, { texts }) => {
    const boxes = texts.map((text) => ({ ...boxOf(text), text: text.text }));
    const overlaps = boxes.flatMap((one, index) =>
      boxes.slice(index + 1)
        .filter((other) => one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom)
        .map((other) => `${one.text} / ${other.text}`));
    expect(overlaps).toEqual([]);
  });
});

test('type is 9 pt or more', () => {
  expect(TEXT_MM / POINT_MM).toBeGreaterThanOrEqual(9);
});

test('the drawn arc spans the change from home', () => {
  const [up] = demoPlayers.map(({ record }) => record) as [PlayerRecord];
  const analysis = analyse(up);
  const { lines } = sideFigure(analysis, held, { widthMm: 100, heightMm: 80 });
  const arc = lines.find(({ kind }) => kind === 'arc')!.points;
  const centre = lines.find(({ kind }) => kind === 'held')!.points[0]!;
  const degrees = ([x, y]: readonly [number, number]): number => (Math.atan2(centre[1] - y, x - centre[0]) * 180) / Math.PI;
  const highest = analysis.readings.at(-1)!;
  expect(highest.changeFromHome.elevationDeg).toBeGreaterThan(1);
  expectWithin(degrees(arc.at(-1)!) - degrees(arc[0]!), highest.changeFromHome.elevationDeg, { abs: 1e-9 }, 'arc');
});

test('the bar of 10 mm is as long as 10 mm of the mouth', () => {
  const analysis = analyse(inventedPlayer('up'));
  const { lines } = sideFigure(analysis, held, { widthMm: 100, heightMm: 80 });
  const [from, to] = lines.find(({ kind }) => kind === 'scale')!.points as [readonly [number, number], readonly [number, number]];
  // The drawn axis of home is as long as the shape says.
  const [start, tip] = lines.find(({ kind }) => kind === 'home-axis')!.points as [readonly [number, number], readonly [number, number]];
  const mmPerMm = Math.hypot(tip[0] - start[0], tip[1] - start[1]) / (25 + 0.75 * analysis.record.rim.innerDiameterMm);
  expectWithin((to[0] - from[0]) / 10, mmPerMm, { abs: 1e-9 }, 'scale');
});

test('words by instrument', () => {
  const tuba = sideFigure(analyse(inventedPlayer('tuba')), lap, { widthMm: 100, heightMm: 80 });
  expect(tuba.description).toMatch(/highest, B♭3: head tips \d\.\d° forward/);
  expect(tuba.description).toContain('head held as at home');
  expect(tuba.description).not.toContain('bell');
  const trumpet = aboveFigure(analyse(inventedPlayer('up')), held, { widthMm: 76, heightMm: 80 });
  expect(trumpet.description).toMatch(/B♭5: bell \d\.\d° to the right/);
});

test('fitInto fills the room one way and keeps proportions', () => {
  const fit = fitInto({ left: 10, top: 20, right: 50, bottom: 40 }, [[0, 0], [40, 30]]);
  expectWithin(fit.mmPerMm, 20 / 30, { abs: 1e-12 }, 'scale');
  expectWithin(fit.place([0, 0])[1], 40, { abs: 1e-12 }, 'bottom');
  expectWithin(fit.place([20, 30])[0], 30, { abs: 1e-12 }, 'middle');
});

test('spreadDown moves apart what stands too close, and nothing else', () => {
  const text = (y: number) => ({ kind: 'plain' as const, at: [0, y] as const, anchor: 'start' as const, text: String(y) });
  expect(spreadDown([text(12), text(10)], 4).map(({ at }) => at[1])).toEqual([9, 13]);
  expect(spreadDown([text(1), text(10)], 4).map(({ at }) => at[1])).toEqual([1, 10]);
});
