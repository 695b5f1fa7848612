import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createSession } from '../../../src/app/session';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import { demoPlayers, openedOf } from '../../support/demos';

const record = demoPlayers[0]!.record;

let frames: (() => void)[] = [];

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

function begin() {
  const clock = { request: () => 0, cancel: () => undefined };
  const session = createSession({ analyse, createLive }, clock, () => undefined, () => () => undefined, { ...openedOf(record), settings: DEFAULT_SETTINGS, selected: 0 }, () => '');
  return { ...session, state: () => session.store.getState() };
}

function pass(ms: number): void {
  vi.advanceTimersByTime(ms);
  for (let frame = 0; frame < 2; frame++) {
    const due = frames;
    frames = [];
    for (const run of due) run();
  }
}

test('a hand that stands still at the note it came to has it told soon', () => {
  const { scrub, told, state } = begin();
  const heard = vi.fn();
  scrub(state().analysis!.readings[1]!.midi, null, 1);
  told.subscribe(heard);
  expect(told.current()).toBe(0);
  pass(100);
  expect(told.current()).toBe(1);
  expect(heard).toHaveBeenCalledTimes(1);
});

test('nothing is told of a record that is gone, and without a hand at once', () => {
  const { scrub, told, state } = begin();
  scrub(state().analysis!.readings[2]!.midi, null, 2);
  expect(told.current()).toBe(0);
  state().change((now) => ({ ...now, readings: now.readings.slice(1) }));
  expect(told.current()).toBe(state().selected);
  state().pass(false);
  state().select(3);
  expect(told.current()).toBe(3);
});
