import { describe, expect, test } from 'vitest';
import {
  LEAD_PX,
  STAFF_SPACE_PX,
  layoutStaff,
  layoutWithoutNotation,
  noteAt,
  pitchAt,
  placeOf,
  scrollToShow,
  signedDegrees,
  wayRuns,
} from '../../../src/staff/layout';
import { expectWithin } from '../../support/expectWithin';

const POSITION_TOLERANCE_PX = { abs: 1e-9, rel: 0 };

test('the ways of the path are named over their own notes, and not where they are not told apart', () => {
  const notes = (['up', 'up', 'up', 'down', 'down'] as const).map((direction) => ({ direction }));
  expect(wayRuns(notes, 40)).toEqual([
    { direction: 'up', leftPx: LEAD_PX, widthPx: 120 },
    { direction: 'down', leftPx: LEAD_PX + 120, widthPx: 80 },
  ]);
  expect(wayRuns([{ direction: null }, {}], 40)).toEqual([]);
});

describe('layout', () => {
  test('notes stand at equal distances, clear of the clef and within the frame', () => {
    const { noteXs, spacingPx, widthPx } = layoutStaff(860, [0, 2, 4, 6, 8], false, 'bass');
    expect(widthPx).toBe(860);
    noteXs.slice(1).forEach((x, index) => expectWithin(x - (noteXs[index] as number), spacingPx, POSITION_TOLERANCE_PX));
    expect(noteXs[0]).toBeGreaterThan(LEAD_PX);
    expect(noteXs.at(-1)).toBeLessThan(860 - spacingPx / 2);
  });

  test('on a narrow frame the notes keep a readable distance and the staff scrolls', () => {
    const layout = layoutStaff(360, new Array<number>(12).fill(0), true, 'bass');
    expect(layout.spacingPx).toBe(44);
    expect(layout.widthPx).toBe(LEAD_PX + 12 * 44 + 8);
    expect(layoutStaff(360, new Array<number>(6).fill(0), true, 'bass').widthPx).toBe(360);
  });

  test('every note and its ledger lines lie between the top edge and the names', () => {
    for (const position of [-12, -6, 0, 8, 14, 20]) {
      const layout = layoutStaff(800, [position, 4], true, 'bass');
      const y = layout.staveTopPx + 4 * STAFF_SPACE_PX - (position * STAFF_SPACE_PX) / 2;
      expect(y - STAFF_SPACE_PX / 2, `top of the note at ${position}`).toBeGreaterThanOrEqual(0);
      expect(y + STAFF_SPACE_PX / 2, `foot of the note at ${position}`).toBeLessThanOrEqual(layout.namesTopPx);
    }
  });

  test('two rows of numbers need their height', () => {
    expect(layoutStaff(800, [4], true, 'bass').heightPx - layoutStaff(800, [4], false, 'bass').heightPx).toBe(34);
  });

  test('without notation the strip is lower and the notes stand where they stood', () => {
    const drawn = layoutStaff(800, [4, 5, 6], true, 'bass');
    const plain = layoutWithoutNotation(800, 3, true);
    expect(plain.noteXs).toEqual(drawn.noteXs);
    expect(plain.heightPx).toBeLessThan(drawn.heightPx);
  });

  test('no notes: an empty staff of the frame’s width', () => {
    const layout = layoutStaff(500, [], true, 'bass');
    expect(layout.noteXs).toEqual([]);
    expect(layout.widthPx).toBe(500);
    expect(noteAt(100, layout)).toBeNull();
  });

  test('a column belongs to its note, the margins to the outer ones', () => {
    const layout = layoutStaff(800, [0, 1, 2], false, 'bass');
    layout.noteXs.forEach((x, index) => {
      expect(noteAt(x - 0.49 * layout.spacingPx, layout)).toBe(index);
      expect(noteAt(x + 0.49 * layout.spacingPx, layout)).toBe(index);
    });
    expect(noteAt(0, layout)).toBe(0);
    expect(noteAt(5000, layout)).toBe(2);
  });
});

describe('time line', () => {
  const midis = [53, 58, 65];
  const xs = [100, 200, 300];

  test('pitch is linear between notes and held at the ends', () => {
    expectWithin(pitchAt(150, midis, xs) as number, 55.5, POSITION_TOLERANCE_PX);
    expect(pitchAt(20, midis, xs)).toBe(53);
    expect(pitchAt(900, midis, xs)).toBe(65);
    expect(pitchAt(50, [60], [100])).toBe(60);
    expect(pitchAt(50, [], [])).toBeNull();
  });

  test('a place and its pitch are each other’s inverse', () => {
    for (let x = 100; x <= 300; x += 7) {
      expectWithin(placeOf(pitchAt(x, midis, xs) as number, midis, xs, 0) as number, x, POSITION_TOLERANCE_PX);
    }
  });

  test('where two branches pass through a pitch, the nearer place is kept', () => {
    const upAndDown = [60, 65, 60];
    expectWithin(placeOf(62, upAndDown, xs, 120) as number, 140, POSITION_TOLERANCE_PX);
    expectWithin(placeOf(62, upAndDown, xs, 280) as number, 260, POSITION_TOLERANCE_PX);
  });

  test('a repeated note has a place and no division by zero', () => {
    expect(placeOf(60, [60, 60], [100, 200], 190)).toBe(200);
    expect(pitchAt(150, [60, 60], [100, 200])).toBe(60);
  });

  test('beyond the notes the playhead goes on, but not further than half a note', () => {
    expectWithin(placeOf(66, midis, xs, 0) as number, 300 + 100 / 12, POSITION_TOLERANCE_PX);
    expect(placeOf(90, midis, xs, 0)).toBe(350);
    expect(placeOf(10, midis, xs, 0)).toBe(50);
  });

  test('scrolling only when the place is out of sight, and never past the ends', () => {
    expect(scrollToShow(200, 0, 360, 800)).toBe(0);
    expect(scrollToShow(350, 0, 360, 800)).toBe(38);
    expect(scrollToShow(790, 0, 360, 800)).toBe(440);
    expect(scrollToShow(10, 300, 360, 800)).toBe(0);
  });
});

test('degrees carry a sign unless they round to nothing', () => {
  expect([3.04, -2.26, 0.04, -0.04].map(signedDegrees)).toEqual(['+3.0', '−2.3', '0.0', '0.0']);
});
