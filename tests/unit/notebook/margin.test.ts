import { describe, expect, test } from 'vitest';
import type { BandPart, ReadingBand } from '../../../src/core/bands';
import { marginWords } from '../../../src/notebook/margin';
import { marginOf } from '../../../src/print/margin';
import { expectWithin } from '../../support/expectWithin';

function bandOf(...parts: readonly (readonly [name: BandPart['name'], elevationSdDeg: number])[]): ReadingBand {
  const listed: BandPart[] = parts.map(([name, elevationSdDeg]) => ({ name, elevationSdDeg, lateralSdDeg: 0 }));
  return {
    change: { elevationSdDeg: Math.hypot(...parts.map(([, sd]) => sd)), lateralSdDeg: 0 },
    predicted: null,
    parts: listed.sort((a, b) => b.elevationSdDeg - a.elevationSdDeg),
    complete: true,
  };
}

describe('how sure an angle is', () => {
  test('is said as half of a 95 % band', () => {
    const margin = marginOf({ elevationSdDeg: 1, lateralSdDeg: 0.5 });
    // The 97.5th percentile of the normal distribution, to four digits in every table.
    expectWithin(margin.elevationDeg, 1.96, { abs: 5e-5 });
    expectWithin(margin.lateralDeg, 0.98, { abs: 5e-5 });
  });

  test('names the jaw when it was not seen and makes most of the band', () => {
    const words = marginWords(bandOf(['jaw\'s opening', 0.8], ['jaw forward or back', 0.7], ['travel up', 1]), false);
    expect(words).toContain('Most of it is the jaw');
    expect(words).toContain('say where the jaw stands at this note');
  });

  test('names the largest part otherwise', () => {
    expect(marginWords(bandOf(['jaw\'s opening', 0.5], ['travel up', 1]), false)).toMatch(/Its largest part is the travel up\.$/);
    expect(marginWords(bandOf(['upper lip\'s thickness', 1], ['travel up', 0.5]), true)).toMatch(/the upper lip’s thickness\.$/);
  });

  test('says so while it is not known, and where there is nothing to know', () => {
    expect(marginWords(null, false)).toContain('being worked out');
    expect(marginWords(bandOf(['travel up', 0]), false)).toContain('no change');
  });
});
