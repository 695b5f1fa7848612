import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { browserIdle } from '../../../src/app/idle';
import { createPause } from '../../../src/stage/pause';

/** A browser whose frames and idle times come when the test says so. */
let frames: (() => void)[] = [];
let idles: { readonly run: (deadline: { readonly didTimeout: boolean }) => void; readonly timeoutMs: number }[] = [];

function nextFrame(): void {
  const due = frames;
  frames = [];
  for (const run of due) run();
}

beforeEach(() => {
  vi.useFakeTimers();
  frames = [];
  idles = [];
  vi.stubGlobal('requestAnimationFrame', (run: () => void) => frames.push(run));
  vi.stubGlobal('cancelAnimationFrame', () => void (frames = []));
  vi.stubGlobal('requestIdleCallback', (run: (deadline: { readonly didTimeout: boolean }) => void, { timeout }: { timeout: number }) =>
    idles.push({ run, timeoutMs: timeout }));
});

afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

describe('the pause of a hand', () => {
  test('comes once, some time and two frames after the last move', () => {
    const onPause = vi.fn();
    const pause = createPause(onPause, 250);
    for (let move = 0; move < 5; move++) {
      pause.wait();
      vi.advanceTimersByTime(100);
      nextFrame();
    }
    expect(onPause).not.toHaveBeenCalled();
    vi.advanceTimersByTime(1000);
    nextFrame();
    expect(onPause).not.toHaveBeenCalled();
    nextFrame();
    expect(onPause).toHaveBeenCalledTimes(1);
    vi.advanceTimersByTime(1000);
    nextFrame();
    nextFrame();
    expect(onPause).toHaveBeenCalledTimes(1);
  });

  test('does not come between two moves whose frames are slow', () => {
    const onPause = vi.fn();
    const pause = createPause(onPause, 250);
    for (let move = 0; move < 5; move++) {
      pause.wait();
      // The frame that takes the next move in comes only now.
      vi.advanceTimersByTime(900);
      nextFrame();
    }
    expect(onPause).not.toHaveBeenCalled();
  });

  test('does not come when it is called off', () => {
    const onPause = vi.fn();
    const pause = createPause(onPause, 250);
    pause.wait();
    vi.advanceTimersByTime(1000);
    nextFrame();
    pause.callOff();
    nextFrame();
    expect(onPause).not.toHaveBeenCalled();
  });
});

describe('spare time', () => {
  test('is taken from a busy page now and then, but not from a hand that drags', () => {
    let dragging = true;
    const work = vi.fn();
    browserIdle(work, () => dragging);
    idles.shift()!.run({ didTimeout: true });
    expect(work).not.toHaveBeenCalled();
    dragging = false;
    idles.shift()!.run({ didTimeout: true });
    expect(work).toHaveBeenCalledTimes(1);
    expect(idles).toEqual([]);
  });

  test('that is really spare is used even then', () => {
    const work = vi.fn();
    browserIdle(work, () => true);
    idles.shift()!.run({ didTimeout: false });
    expect(work).toHaveBeenCalledTimes(1);
  });
});
