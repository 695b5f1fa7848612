import { describe, expect, test } from 'vitest';
import { tapAt } from '../../../../src/notebook/measure/film/tapping';
import { curvePath, layoutTimeLine, valueAt, wavePath } from '../../../../src/notebook/measure/timeLine/layout';
import type { Curve } from '../../../../src/notebook/measure/timeLine/props';
import type { NoteHeard } from '../../../../src/measure/traces';
import { toPixels } from '../../../../src/notebook/chart/scale';

const span = { startS: 0, endS: 10 };
const curve: Curve = { id: 'up', label: 'up', points: [0, 1, null, 3, 4].map((value, index) => ({ timeS: index * 2, value })) };
const panel = { title: 'Travel', unit: 'mm', leastSpan: 3, curves: [curve] };

describe('a time line', () => {
  test('lies from the film’s beginning to its end, one panel under the other', () => {
    const layout = layoutTimeLine(600, span, [panel, panel]);
    expect(layout.x.from).toEqual([0, 10]);
    const [first, second] = layout.panels;
    expect(first!.topPx).toBeGreaterThan(layout.notesTopPx);
    expect(second!.topPx).toBeGreaterThan(first!.bottomPx);
    expect(layout.heightPx).toBeGreaterThan(second!.bottomPx);
  });

  test('holds every value, also thousands of them', () => {
    const long: Curve = { ...curve, points: Array.from({ length: 200_000 }, (_, index) => ({ timeS: index / 1000, value: index === 7 ? -9 : 1 })) };
    const [place] = layoutTimeLine(600, span, [{ ...panel, curves: [long] }]).panels;
    expect(place!.y.from[0]).toBeLessThanOrEqual(-9);
  });

  test('a curve is not drawn across what is not known', () => {
    const layout = layoutTimeLine(600, span, [panel]);
    const path = curvePath(curve, layout.x, layout.panels[0]!.y);
    expect(path.match(/M/g)).toHaveLength(2);
    expect(valueAt(curve, 2.5)).toBe(1);
    expect(valueAt(curve, 4)).toBeNull();
    expect(valueAt(curve, -1)).toBeNull();
  });

  test('loudness lies at its own time, and silence draws nothing', () => {
    const layout = layoutTimeLine(600, span, []);
    const low = new Float32Array(1000);
    const high = new Float32Array(1000);
    high[500] = 1;
    const path = wavePath({ fromS: 0, bucketS: 0.01, low, high }, layout);
    const at = toPixels(layout.x, 5.005);
    expect(path).toContain(`${Math.round(at).toFixed(2)} ${(layout.waveTopPx + 1).toFixed(2)}`);
    expect(wavePath({ fromS: 0, bucketS: 1, low: [], high: [] }, layout)).toBe('');
  });

  test('a film that lasts nothing, on no room, still has a layout', () => {
    const layout = layoutTimeLine(0, { startS: 3, endS: 3 }, [{ ...panel, curves: [] }]);
    expect(Number.isFinite(toPixels(layout.x, 3))).toBe(true);
    expect(layout.timeTicks.every(Number.isFinite)).toBe(true);
  });
});

describe('tapping', () => {
  const notes: readonly NoteHeard[] = [{ startS: 1, endS: 4, midi: 60, cents: null }];

  test('ends the note that lies there and begins one without a name', () => {
    expect(tapAt(notes, 2, 10)).toEqual([
      { startS: 1, endS: 2, midi: 60, cents: null },
      { startS: 2, endS: 10, midi: null, cents: null },
    ]);
  });

  test('before the first note it goes up to it', () => {
    expect(tapAt(notes, 0.2, 10)[0]).toEqual({ startS: 0.2, endS: 1, midi: null, cents: null });
  });

  test('a second tap in the same moment changes nothing', () => {
    const once = tapAt(notes, 2, 10);
    expect(tapAt(once, 2.03, 10)).toBe(once);
  });
});
