import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { type Movement, createMovement } from '../../../src/stage/movement';
import { fineDpr } from '../../../src/stage/useFineness';

/** A browser whose frames come when the test says so. */
let frames: (() => void)[] = [];
function nextFrame(): void {
  for (const run of frames.splice(0)) run();
}

beforeEach(() => {
  vi.useFakeTimers();
  frames = [];
  vi.stubGlobal('requestAnimationFrame', (run: () => void) => frames.push(run));
  vi.stubGlobal('cancelAnimationFrame', () => void (frames = []));
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** Long enough to stand, up to the last of the two frames that have to pass. */
function nearlyStand(): void {
  vi.advanceTimersByTime(5000);
  nextFrame();
}

/** Told of every change. */
function watched(): { readonly movement: Movement; readonly told: boolean[] } {
  const movement = createMovement();
  const told: boolean[] = [];
  movement.subscribe(() => told.push(movement.isMoving()));
  return { movement, told };
}

describe('a movement', () => {
  test('begins with its first step and ends once, some time and two frames after its last', () => {
    const { movement, told } = watched();
    for (let step = 0; step < 20; step++) {
      movement.step();
      vi.advanceTimersByTime(200);
      nextFrame();
    }
    expect(told).toEqual([true]);
    nearlyStand();
    expect(told).toEqual([true]);
    nextFrame();
    expect(told).toEqual([true, false]);
    nearlyStand();
    nextFrame();
    expect(told).toEqual([true, false]);
  });

  test('does not end between two steps whose pictures are slow', () => {
    const { movement, told } = watched();
    for (let step = 0; step < 5; step++) {
      movement.step();
      vi.advanceTimersByTime(2500);
      nextFrame();
    }
    expect(told).toEqual([true]);
    nearlyStand();
    nextFrame();
    expect(told).toEqual([true, false]);
  });

  test('can begin again', () => {
    const { movement, told } = watched();
    for (let turn = 0; turn < 2; turn++) {
      movement.step();
      nearlyStand();
      nextFrame();
    }
    expect(told).toEqual([true, false, true, false]);
  });
});

test.each([
  [390 * 844, 2],
  [1920 * 1080, 2],
  [2560 * 1440, 1.5],
  [3840 * 2160, 1],
  [7680 * 4320, 1],
])('a window of %d pixels is drawn with %d a side', (pixels, dpr) => {
  expect(fineDpr(pixels)).toBe(dpr);
});
