/** Which scans are at hand while one player after the other comes onto the page. */
import { expect, test } from 'vitest';
import { madeStandIn } from '../../../src/app/scans/madeStandIn';
import { standInAlong } from '../../../src/app/scans/standInAlong';
import { createStandIns } from '../../../src/app/scans/standIns';
import type { AppStore } from '../../../src/app/store';

test('one that was fetched is let go when the next is; one that was taken in on this page stays', async () => {
  const arch = (id: string) => ({ record: { arch: { upper: {}, lower: {}, jaw: {}, scanned: { id } } }, reanalyse: () => {} });
  let state = arch('a');
  let heard = (_now: unknown, _before: unknown): void => {};
  const store = { getState: () => state, subscribe: (listener: typeof heard) => ((heard = listener), () => {}) } as unknown as AppStore;
  const standIns = createStandIns();
  standIns.getState().put('taken', madeStandIn({}));
  standInAlong(store, standIns, (work) => (work(), () => {}), () => Promise.resolve(madeStandIn({})));
  const show = (id: string): void => {
    const before = state;
    state = arch(id);
    heard(state, before);
  };
  const atHand = (): string[] => [...standIns.getState().known.keys()];
  await expect.poll(atHand).toEqual(['taken', 'a']);
  show('b');
  await expect.poll(atHand).toEqual(['taken', 'b']);
  show('taken');
  show('a');
  await expect.poll(atHand).toEqual(['taken', 'a']);
});
