import { describe, expect, it } from 'vitest';
import { SHARED_HORN_ERRORS } from '../../../src/measure/hornFromFront';
import { headSpots, hornErrorAt, hornErrors, markOf, markedTimes } from '../../../src/measure/markedAgain';
import { LANDMARK_NAMES } from '../../../src/measure/marks';
import type { FilmTrace, TracedFrame, TracedPoint } from '../../../src/measure/traces';

const ring = Array.from({ length: 12 }, (_, i) => ({ x: 100 + 40 * Math.cos(i / 2), y: 100 + 40 * Math.sin(i / 2) }));
const spot = { x: 1, y: 2 };
const line = { from: { x: 1, y: 2 }, to: { x: 3, y: 4 } };

describe('when each thing was marked', () => {
  it('goes by the anchors in order of time, and a rim of too few points is not marked anew', () => {
    const marked = markedTimes([
      { timeS: 2, marks: { landmarks: { 'nose-bridge': spot }, rim: ring.slice(0, 3) } },
      { timeS: 0.5, marks: { landmarks: { 'nose-bridge': spot, 'ear-left': spot }, rim: ring, horn: line } },
    ]);
    expect(marked).toEqual({ 'nose-bridge': [0.5, 2], 'ear-left': [0.5], rim: [0.5], 'horn-near': [0.5], 'horn-far': [0.5] });
  });

  it('the frame itself belongs to its mark, what comes before the first to the first', () => {
    const trace: FilmTrace = { view: 'front', frames: [], marked: { 'nose-bridge': [0.5, 2] } };
    // Kept times are rounded to a ten-thousandth of a second.
    expect([0, 0.5, 1.9, 1.99995, 2, 3].map((timeS) => markOf(trace, 'nose-bridge', timeS))).toEqual([0, 0, 0, 1, 1, 1]);
    expect(markOf(trace, 'ear-left', 3)).toBe(0);
    expect(markOf({ view: 'front', frames: [] }, 'nose-bridge', 3)).toBe(0);
  });
});

describe('spots of the head', () => {
  const point: TracedPoint = { x: 1, y: 2, sdPx: 0.1 };
  const rim = { centre: spot, semiMajorPx: 40, semiMinorPx: 40, angleRad: 0, centreSdPx: 0.1, axesSdPx: 0.1 };
  const frames = Array.from({ length: 100 }, (_, i): TracedFrame => ({ timeS: i / 10, rim, points: Object.fromEntries(LANDMARK_NAMES.map((name) => [name, point])) }));

  it('are one for each mark of a landmark that shows in a frame', () => {
    const { spots, spotAt } = headSpots({ view: 'front', frames, marked: { 'nose-bridge': [0, 5], 'ear-left': [0, 99] } }, ['nose-bridge', 'ear-left']);
    expect(spots).toEqual([{ name: 'nose-bridge', again: true }, { name: 'nose-bridge', again: true }, { name: 'ear-left', again: false }]);
    expect(spotAt('nose-bridge', 4.9)).toEqual({ spot: 0, isOwn: true });
    expect(spotAt('nose-bridge', 5)).toEqual({ spot: 1, isOwn: true });
    expect(spotAt('ear-left', 9)).toEqual({ spot: 2, isOwn: true });
  });

  it('are no more than a fit can bear: marks of the fewest frames are told by their landmark’s others', () => {
    const times = Array.from({ length: 10 }, (_, i) => (i * i) / 10);
    const { spots, spotAt } = headSpots({ view: 'front', frames, marked: Object.fromEntries(LANDMARK_NAMES.map((name) => [name, times])) }, LANDMARK_NAMES);
    expect(spots).toHaveLength(45);
    const last = spotAt('ear-left', 9);
    expect(last.isOwn).toBe(true);
    expect(spotAt('ear-left', 0)).toEqual({ spot: last.spot, isOwn: false });
  });
});

it('errors of the horn stand by themselves for each mark of rim and line', () => {
  const trace: FilmTrace = { view: 'front', frames: [], marked: { rim: [0, 1], 'horn-far': [0, 1, 2], 'horn-near': [0, 1, 2] } };
  expect(hornErrors({ view: 'front', frames: [] })).toBe(SHARED_HORN_ERRORS);
  expect(hornErrors(trace)).toBe(SHARED_HORN_ERRORS + 3 + 6);
  const all = [0, 1, 2].map((timeS) => Array.from({ length: SHARED_HORN_ERRORS }, (_, error) => hornErrorAt(trace, error, timeS)));
  expect(all).toEqual([
    [0, 1, 2, 3, 4, 5, 6, 7, 8],
    [9, 10, 11, 12, 13, 14, 6, 7, 8],
    [9, 10, 11, 15, 16, 17, 6, 7, 8],
  ]);
});
