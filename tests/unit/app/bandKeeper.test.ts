/** The bands are worked out in spare time; where a hand leaves none for long, those who wait for it must not add up. */
import { expect, it } from 'vitest';
import { createBandKeeper } from '../../../src/app/bandKeeper';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { createAppStore } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import { demoPlayers, openedOf } from '../../support/demos';

/** A keeper whose spare time, delays and pauses of the hand come when the test says so. */
function keep() {
  const record = { ...demoPlayers[0]!.record, readings: demoPlayers[0]!.record.readings.slice(2, 5) };
  const store = createAppStore({ analyse, createLive }, openedOf(record), DEFAULT_SETTINGS);
  const asked: ((spareMs: () => number) => void)[] = [];
  const due: (() => void)[] = [];
  const pauses: (() => void)[] = [];
  const keeper = createBandKeeper(
    store,
    (work) => void asked.push(work),
    (run) => {
      due.push(run);
      return () => void due.splice(due.indexOf(run), 1);
    },
    { subscribe: (onPause) => {
      pauses.push(onPause);
      return () => undefined;
    } },
  );
  return {
    store,
    keeper,
    asked,
    due,
    pause: () => pauses.forEach((run) => run()),
    runDue: () => due.splice(0).forEach((run) => run()),
    spendAll: () => {
      for (let turn = 0; asked.length > 0 && turn < 1000; turn++) asked.pop()!(() => 0);
    },
  };
}

it('spare time is asked for once, whatever became of the record meanwhile, and spent on the last one', () => {
  const { store, keeper, asked, runDue, spendAll } = keep();
  for (let step = 1; step <= 5; step++) {
    // The hand pauses, so that the bands are begun; but the browser has no time for them.
    runDue();
    expect(asked.length).toBe(1);
    store.getState().moveRim({ upMm: 0.5 + step / 10, rightMm: 0.2 }, 'drag');
  }
  runDue();
  expect(asked.length).toBe(1);
  let told = 0;
  keeper.subscribe(() => void told++);
  spendAll();
  expect(told).toBe(1);
  expect(keeper.current()?.analysis).toBe(store.getState().analysis);
  expect(keeper.current()?.bands.length).toBe(3);
});

it('a hand that drags starts nothing before it pauses or lets go', () => {
  const { store, keeper, asked, due, pause, runDue, spendAll } = keep();
  runDue();
  spendAll();
  const before = keeper.current();
  expect(before?.analysis).toBe(store.getState().analysis);
  store.getState().drag(true);
  for (let step = 1; step <= 3; step++) store.getState().tryTravel({ upMm: 0.5 + step / 10, rightMm: 0.2 }, 'drag');
  expect([asked.length, due.length]).toEqual([0, 0]);
  pause();
  expect(due.length).toBe(1);
  runDue();
  spendAll();
  expect(keeper.current()?.analysis).toBe(store.getState().analysis);
  store.getState().tryTravel({ upMm: 0.9, rightMm: 0.2 }, 'drag');
  expect(due.length).toBe(0);
  store.getState().drag(false);
  runDue();
  spendAll();
  expect(keeper.current()?.analysis).toBe(store.getState().analysis);
});
