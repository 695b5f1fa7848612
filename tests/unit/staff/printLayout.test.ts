import { describe, expect, test } from 'vitest';
import { FULL_SYSTEM_NOTES, LEAD_MM, STAFF_HEIGHT_LIMITS_MM, layoutPrintedStaff, printedSystems } from '../../../src/staff/printLayout';

const WIDTH_MM = 180;
const steps = (count: number): number[] => Array.from({ length: count }, (_, index) => index % 9);

describe.each([0, 1, 5, 13, 14, 24, 25, 36, 37, 60])('%i notes', (count) => {
  const layout = layoutPrintedStaff(WIDTH_MM, steps(count), 'treble');

  test('every note that is shown stands once, in order, on the paper', () => {
    const shown = layout.systems.flatMap(({ from, to }) => Array.from({ length: to - from }, (_, index) => from + index));
    expect(shown).toEqual(Array.from({ length: Math.min(count, 2 * FULL_SYSTEM_NOTES) }, (_, index) => index));
    expect(layout.leftOut).toBe(Math.max(0, count - 2 * FULL_SYSTEM_NOTES));
    for (const { noteXsMm } of layout.systems) {
      noteXsMm.forEach((x, index) => {
        expect(x).toBeGreaterThan(index === 0 ? LEAD_MM : noteXsMm[index - 1]! + MIN_COLUMN_MM);
        expect(x).toBeLessThanOrEqual(WIDTH_MM - MIN_COLUMN_MM / 2);
      });
    }
  });

  test('up to 13 in one system, more in two alike', () => {
    expect(layout.systems.length).toBe(count <= 13 ? 1 : 2);
    expect(printedSystems(count)).toBe(layout.systems.length);
    const sizes = layout.systems.map(({ from, to }) => to - from);
    expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
  });
});

/** "+12.3" at 9 pt, and a gap. */
const MIN_COLUMN_MM = 8.5;

test('far ledger lines make the staff smaller, not higher than its room', () => {
  const far = [-20, 30];
  expect(layoutPrintedStaff(WIDTH_MM, far, 'bass').heightMm).toBeLessThanOrEqual(STAFF_HEIGHT_LIMITS_MM[1] + 1e-9);
  const two = layoutPrintedStaff(WIDTH_MM, [...far, ...steps(22)], 'bass');
  expect(two.heightMm).toBeLessThanOrEqual(STAFF_HEIGHT_LIMITS_MM[2] + 1e-9);
  expect(two.spaceMm).toBeGreaterThan(0.5);
  expect(two.systems[1]!.topMm).toBeGreaterThan(two.rowsMm[1]);
});
