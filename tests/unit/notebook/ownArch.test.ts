import { describe, expect, it } from 'vitest';
import type { NoteBudget } from '../../../src/core/ownArch/budget';
import { FAMILIES } from '../../../src/core/ownArch/families';
import { MEASURES } from '../../../src/core/ownArch/measures';
import { drawnTeeth } from '../../../src/notebook/ownArch/archDrawing';
import { measuredOf, withMeasure } from '../../../src/notebook/ownArch/measureEdits';
import { LETTERS, LOWER, SIDE, UPPER, bestWords, familyOptions, othersWords, ranked } from '../../../src/notebook/ownArch/words';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';

const { record } = demoPlayers[0]!;

describe('typing a measure', () => {
  it('puts it into the record with the tool’s deviation, changes it in its place, and takes it out', () => {
    const typed = withMeasure(record, 'upper-canine-width', { mm: 34 }, 'ruler');
    if (typed.kind !== 'record') throw new Error(typed.reason);
    expect(measuredOf(typed.record).measures).toEqual([{ name: 'upper-canine-width', mm: 34, sdMm: 1, by: 'ruler' }]);
    const surer = withMeasure(typed.record, 'upper-canine-width', { sdMm: 0.2 }, 'caliper');
    if (surer.kind !== 'record') throw new Error(surer.reason);
    expect(measuredOf(surer.record).measures).toEqual([{ name: 'upper-canine-width', mm: 34, sdMm: 0.2, by: 'ruler' }]);
    const out = withMeasure(surer.record, 'upper-canine-width', null, 'caliper');
    expect(out.kind === 'record' && measuredOf(out.record).measures).toEqual([]);
  });

  it('every family of forms can be chosen', () => {
    expect(familyOptions().map(({ value }) => value)).toEqual(FAMILIES.map(({ id }) => id));
  });

  it('every measure has a letter of its own and a field', () => {
    expect([...UPPER, ...LOWER, ...SIDE].sort()).toEqual(MEASURES.map(({ name }) => name).sort());
    expect(new Set(Object.values(LETTERS)).size).toBe(MEASURES.length);
  });
});

describe('the drawn teeth', () => {
  it('stand on the form, player’s right at the left, numbered by quadrant', () => {
    const teeth = drawnTeeth({ kind: 'circle', radiusMm: 30 }, 'upper');
    expect(teeth.map(({ fdi }) => fdi)).toEqual([21, 22, 23, 24, 25, 26, 11, 12, 13, 14, 15, 16]);
    for (const { fdi, outside, middle, depthMm } of teeth) {
      expect(Math.sign(outside[0])).toBe(fdi > 20 ? 1 : -1);
      // The circle's centre lies 30 mm behind its front.
      expectWithin(Math.hypot(outside[0], outside[1] - 30), 30, { abs: 1e-6 });
      expectWithin(Math.hypot(middle[0], middle[1] - 30), 30 - depthMm / 2, { abs: 1e-6 });
    }
  });
});

describe('what would narrow the band, in words', () => {
  const budget = (after: number): NoteBudget => ({
    note: 'F3', midi: 53, direction: null,
    now: { elevationSdDeg: 1, lateralSdDeg: 0.5 }, usual: { elevationSdDeg: 1, lateralSdDeg: 0.5 },
    largest: { elevationSdDeg: 'jaw forward or back', lateralSdDeg: 'travel to the side' },
    entries: [
      { what: 'jaw', sdMm: 0.3, after: { elevationSdDeg: after, lateralSdDeg: 0.5 } },
      { what: 'upper-canine-width', sdMm: 0.5, after: { elevationSdDeg: 0.88, lateralSdDeg: 0.4999 } },
    ],
  });

  it('names the best, and the best of the teeth', () => {
    expect(bestWords(budget(0.5), 'elevationSdDeg')).toBe(
      'Knowing where the jaw stands at this note would about halve the band up and down, from ±\u00a02.0° to ±\u00a01.0°. Of the teeth, the upper canine width would do most: to ±\u00a01.7°.',
    );
    expect(bestWords(budget(0.95), 'elevationSdDeg')).toBe('Measuring the upper canine width would take 12\u00a0% off the band up and down, from ±\u00a02.0° to ±\u00a01.7°.');
  });

  it('says so where nothing would', () => {
    expect(bestWords(budget(0.5), 'lateralSdDeg')).toBe('No measure in this list would narrow the band to the side by as much as a fiftieth. Most of it is the travel to the side.');
    const { worth, others } = ranked(budget(0.5), 'lateralSdDeg');
    expect(worth).toEqual([]);
    expect(othersWords(others)).toBe('Hardly anything here: the upper canine width, where the jaw stands at this note.');
  });
});
