/** A measuring that comes, changes or goes is a step to be undone, and no reason to analyse anything again. */
import { expect, it, vi } from 'vitest';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { createAppStore } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import { withMeasuring, withoutMeasuring } from '../../../src/core/lessons';
import { createLive } from '../../../src/core/live';
import { demoPlayers, openedOf } from '../../support/demos';
import { bareMeasuring } from '../../support/measurings';

it('a measuring is put in, replaced, deleted, undone and done again without a new analysis', () => {
  const record = { ...demoPlayers[0]!.record, readings: demoPlayers[0]!.record.readings.slice(2, 4) };
  const counted = vi.fn(analyse);
  const store = createAppStore({ analyse: counted, createLive }, openedOf(record), DEFAULT_SETTINGS);
  const before = store.getState();
  const begun = counted.mock.calls.length;
  const kept = (): readonly (string | undefined)[] => (store.getState().lesson.measurings ?? []).map(({ id }) => id);
  const { changePlayer, undo, redo } = before;
  const { id } = before.lesson;
  changePlayer((player) => withMeasuring(player, id, bareMeasuring('m')));
  expect(kept()).toEqual(['m']);
  changePlayer((player) => withMeasuring(player, id, { ...bareMeasuring('m'), date: '2026-04-01' } as never));
  changePlayer((player) => withoutMeasuring(player, id, 'm'));
  expect(kept()).toEqual([]);
  undo();
  expect(store.getState().lesson.measurings).toEqual([{ ...bareMeasuring('m'), date: '2026-04-01' }]);
  undo();
  expect(store.getState().lesson.measurings).toEqual([bareMeasuring('m')]);
  undo();
  expect(kept()).toEqual([]);
  redo();
  expect(kept()).toEqual(['m']);
  const after = store.getState();
  expect(after.record).toBe(before.record);
  expect(after.analysis).toBe(before.analysis);
  expect(counted.mock.calls.length).toBe(begun);
  // Else the count would say nothing: a change of the record is analysed.
  store.getState().change((one) => ({ ...one, force: { newtons: one.force.newtons + 1 } }));
  expect(counted.mock.calls.length).toBe(begun + 1);
  expect(kept()).toEqual(['m']);
});
