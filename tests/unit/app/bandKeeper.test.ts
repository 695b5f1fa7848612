/** The bands are worked out in spare time; where a hand leaves none for long, those who wait for it must not add up. */
import { expect, it } from 'vitest';
import { createBandKeeper } from '../../../src/app/bandKeeper';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { createAppStore } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import { demoPlayers } from '../../../src/records/library';

it('spare time is asked for once, whatever became of the record meanwhile, and spent on the last one', () => {
  const record = { ...demoPlayers[0]!.record, readings: demoPlayers[0]!.record.readings.slice(2, 5) };
  const store = createAppStore({ analyse, createLive }, record, DEFAULT_SETTINGS);
  const asked: ((spareMs: () => number) => void)[] = [];
  const due: (() => void)[] = [];
  const keeper = createBandKeeper(store, (work) => void asked.push(work), (run) => {
    due.push(run);
    return () => void due.splice(due.indexOf(run), 1);
  });
  for (let step = 1; step <= 5; step++) {
    // The hand pauses, so that the bands are begun; but the browser has no time for them.
    for (const run of due.splice(0)) run();
    expect(asked.length).toBe(1);
    store.getState().moveRim({ upMm: 0.5 + step / 10, rightMm: 0.2 }, 'drag');
  }
  for (const run of due.splice(0)) run();
  expect(asked.length).toBe(1);
  let told = 0;
  keeper.subscribe(() => void told++);
  for (let turn = 0; asked.length > 0 && turn < 1000; turn++) asked.pop()!(() => 0);
  expect(told).toBe(1);
  expect(keeper.current()?.analysis).toBe(store.getState().analysis);
  expect(keeper.current()?.bands.length).toBe(3);
});
