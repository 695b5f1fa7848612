import { describe, expect, test } from 'vitest';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import {
  faceScales,
  faceTicks,
  placeFaceLabels,
  placeOnFace,
  rightward,
  travelForMove,
} from '../../../src/notebook/chart/faceLayout';
import { layoutPanels, pairOfDomains } from '../../../src/notebook/chart/panels';
import { keySteps, movedTravel } from '../../../src/notebook/chart/travelEdit';
import { angleSentence, sided, signed, travelWords } from '../../../src/notebook/chart/words';
import { expectWithin } from '../../support/expectWithin';

const EXACT = { abs: 1e-9, rel: 1e-12 };
const notes = [53, 58, 65].map((midi) => ({ midi, label: 'B♭4' }));

describe('two panels', () => {
  test('one degree is as high in both, whatever each has to show', () => {
    const [upper, lower] = layoutPanels(440, pairOfDomains([0, 3], [-15, 2], 4), notes, null).panels;
    const perUnit = ({ topPx, bottomPx, scale }: typeof upper) => (bottomPx - topPx) / (scale.from[1] - scale.from[0]);
    expectWithin(perUnit(upper), perUnit(lower), EXACT);
  });

  test('a quiet panel is still two fifths of the other', () => {
    const [[low, high], [lowest, highest]] = pairOfDomains([0], [-15, 15], 4);
    expect(high - low).toBeGreaterThanOrEqual(0.4 * 30);
    expect(highest - lowest).toBeGreaterThanOrEqual(30);
  });

  test.each([300, 360, 440, 860, 1600])('at %d px numbers keep their distance and nothing overlaps', (width) => {
    for (const values of [[-1, 2], [-17, 6], [0, 40], [-0.1, 0.1]]) {
      const layout = layoutPanels(width, pairOfDomains(values, [0, 1], 4), notes, 1);
      const [upper, lower] = layout.panels;
      expect(upper.bottomPx).toBeLessThan(lower.topPx - 20);
      expect(layout.axisTopPx).toBeGreaterThan(lower.bottomPx);
      expect(layout.plotRightPx).toBeLessThan(width);
      for (const { ticks, topPx, bottomPx, scale } of layout.panels) {
        const stepPx = ((bottomPx - topPx) * layout.tickStep) / (scale.from[1] - scale.from[0]);
        expect(stepPx).toBeGreaterThanOrEqual(14);
        expect(ticks).toContain(0);
      }
    }
  });

  test('notes lie on the pitch axis within the plot', () => {
    const layout = layoutPanels(440, pairOfDomains([1], [1], 4), notes, null);
    const [a, b, c] = layout.noteXs as [number, number, number];
    expectWithin((b - a) / (c - a), 5 / 12, EXACT);
    expect(a).toBeGreaterThan(layout.plotLeftPx);
    expect(c).toBeLessThan(layout.plotRightPx);
  });
});

describe('the plane across the face', () => {
  const box = { leftPx: 36, rightPx: 396, topPx: 24, bottomPx: 236 };
  const places = [{ upMm: 3, rightMm: 2 }, { upMm: -1, rightMm: -1 }];

  test('face to face the player’s right is on the left; in a mirror on the right; up is up in both', () => {
    const facing = faceScales(places, box, false);
    const mirrored = faceScales(places, box, true);
    const home = { upMm: 0, rightMm: 0 };
    expect(placeOnFace(facing, { upMm: 0, rightMm: 1 })[0]).toBeLessThan(placeOnFace(facing, home)[0]);
    expect(placeOnFace(mirrored, { upMm: 0, rightMm: 1 })[0]).toBeGreaterThan(placeOnFace(mirrored, home)[0]);
    for (const scales of [facing, mirrored]) {
      expect(placeOnFace(scales, { upMm: 1, rightMm: 0 })[1]).toBeLessThan(placeOnFace(scales, home)[1]);
    }
    expect([rightward(facing), rightward(mirrored)]).toEqual([-1, 1]);
  });

  test('a move on the picture is the travel between two places', () => {
    for (const mirror of [false, true]) {
      const scales = faceScales(places, box, mirror);
      const from = placeOnFace(scales, { upMm: 0.5, rightMm: -0.5 });
      const to = placeOnFace(scales, { upMm: -1.2, rightMm: 2.1 });
      const travel = travelForMove(scales, to[0] - from[0], to[1] - from[1]);
      expectWithin(travel.upMm, -1.7, EXACT);
      expectWithin(travel.rightMm, 2.6, EXACT);
    }
  });

  test('a millimetre is as long across as up, and everything is inside', () => {
    const scales = faceScales([{ upMm: 9, rightMm: -2 }], box, false);
    const [x0, y0] = placeOnFace(scales, { upMm: 0, rightMm: 0 });
    const [x1, y1] = placeOnFace(scales, { upMm: 1, rightMm: -1 });
    expectWithin(x1 - x0, y0 - y1, EXACT);
    const [x, y] = placeOnFace(scales, { upMm: 9, rightMm: -2 });
    expect(x).toBeGreaterThan(box.leftPx);
    expect(x).toBeLessThan(box.rightPx);
    expect(y).toBeGreaterThan(box.topPx);
    expect(y).toBeLessThan(box.bottomPx);
    expect(faceTicks(scales).across).toContain(0);
  });

  test('names overlap neither marks nor one another, and the selected one is always there', () => {
    const marks = Array.from({ length: 14 }, (_, index) => ({
      at: [200 + index * 5, 120 - index * 6] as const,
      text: 'B♭4',
      priority: index === 7 ? 0 : 2,
    }));
    const labels = placeFaceLabels(marks, box);
    const boxes = labels.map(({ xPx, yPx, anchor }) => {
      const left = anchor === 'start' ? xPx : anchor === 'end' ? xPx - 24 : xPx - 12;
      return { left, right: left + 24, top: yPx - 7.5, bottom: yPx + 7.5 };
    });
    const apart = (a: (typeof boxes)[number], b: (typeof boxes)[number]) =>
      a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
    boxes.forEach((a, index) => boxes.slice(index + 1).forEach((b) => expect(apart(a, b)).toBe(true)));
    marks.forEach(({ at: [x, y] }) =>
      boxes.forEach((a) => expect(apart(a, { left: x - 5, right: x + 5, top: y - 5, bottom: y + 5 })).toBe(true)),
    );
    expect(labels.map(({ index }) => index)).toContain(7);
  });
});

describe('moving a travel', () => {
  test('tenths of a millimetre, within the limit, one direction at a time or both', () => {
    expect(movedTravel({ upMm: 1, rightMm: 2 }, { upMm: 0.234 }, 15)).toEqual({ upMm: 1.2, rightMm: 2 });
    expect(movedTravel({ upMm: 1, rightMm: 2 }, { upMm: 50, rightMm: -50 }, 15)).toEqual({ upMm: 15, rightMm: -15 });
    expect(movedTravel({ upMm: 0.1, rightMm: 0 }, { upMm: 0.1 + 0.1 }, 15).upMm).toBe(0.3);
  });

  test('a direction that is not moved keeps what was typed', () => {
    expect(movedTravel({ upMm: 1, rightMm: 2.345 }, { upMm: 1 }, 15).rightMm).toBe(2.345);
  });

  test('nothing is zero, never minus zero', () => {
    expect(Object.is(movedTravel({ upMm: 0.1, rightMm: 0 }, { upMm: -0.12 }, 15).upMm, 0)).toBe(true);
  });

  test('keys step by 0.1 mm, with Shift by 1 mm', () => {
    expect(keySteps('ArrowUp', false)).toEqual({ acrossMm: 0, upMm: 0.1 });
    expect(keySteps('ArrowDown', true)).toEqual({ acrossMm: 0, upMm: -1 });
    expect(keySteps('ArrowLeft', false)).toEqual({ acrossMm: -0.1, upMm: 0 });
    expect(keySteps('a', false)).toBeNull();
  });
});

describe('words', () => {
  test('signs and sides', () => {
    expect([signed(3), signed(-0.26), signed(-0.01)]).toEqual(['+3.0', '−0.3', '0.0']);
    expect([sided(3, '°', 'up'), sided(-1.24, '°', 'up'), sided(-0.04, '°', 'up')]).toEqual([
      '3.0° up',
      '1.2° down',
      '0.0°',
    ]);
    expect(travelWords({ upMm: 3.1, rightMm: -1.2 })).toBe('3.1\u00a0mm up, 1.2\u00a0mm left');
  });

  test('a pitch met on both ways is named once, by the selected note', () => {
    const notes = [60, 64, 67, 64, 60].map((midi) => ({ midi, label: 'C4' }));
    const named = (selected: number | null): number[] => layoutPanels(600, [[-2, 2], [-2, 2]], notes, selected).labels.map(({ index }) => index);
    expect(named(null)).toEqual([0, 1, 2]);
    expect(named(3)).toEqual([0, 2, 3]);
  });

  test('a note of the chart in one sentence', () => {
    const point = {
      readingIndex: 0,
      midi: 79,
      label: 'Bb5',
      predicted: { elevationDeg: 3, lateralDeg: -2.2 },
      band: { elevationSdDeg: 1.4, lateralSdDeg: 0.6 },
      measured: { elevationDeg: 2.5, lateralDeg: 0, sdDeg: 1.5, lateralSdDeg: 1.5 },
    };
    expect(angleSentence(point)).toBe(
      'B♭5: predicted 3.0° ± 2.7° up, 2.2° ± 1.2° left; measured 2.5° ± 2.9° up, 0.0° ± 2.9°.',
    );
    expect(angleSentence({ ...point, measured: { ...point.measured, lateralSdDeg: UNSEEN_HORN_SD_DEG } })).toMatch(/; measured 2\.5° ± 2\.9° up\.$/);
    expect(angleSentence({ ...point, measured: { ...point.measured, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: UNSEEN_HORN_SD_DEG } })).not.toContain('measured');
    expect(angleSentence({ ...point, band: null, measured: null })).toBe('B♭5: predicted 3.0° up, 2.2° left.');
  });
});
