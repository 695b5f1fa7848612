/** Who stands beside the player on the page, as they are kept. */
import { expect, test } from 'vitest';
import { besideStore, chooseOther, renewOther } from '../../../src/app/beside/other';
import { firstDemo, inventedCopy } from '../../../src/app/records';
import type { PlayerSpec } from '../../../src/core/specs';
import { createMemoryShelf } from '../../../src/records/shelf';

test('whoever was changed by a file is renewed, and stands there as before until then', async () => {
  const shelf = createMemoryShelf();
  const kept: PlayerSpec = { ...inventedCopy(firstDemo(), () => 'kept'), label: 'M. K.' };
  const saved = await shelf.save(kept, 0);
  await chooseOther('kept', shelf);
  const before = besideStore.getState().other;
  expect(before?.name).toBe('M. K.');
  await shelf.save({ ...kept, label: 'M. K., second lesson' }, saved.kind === 'saved' ? saved.revision : 0);
  const seen: (string | undefined)[] = [];
  const stop = besideStore.subscribe(({ other }) => void seen.push(other?.name));
  await renewOther(shelf);
  stop();
  expect(seen).toEqual(['M. K., second lesson']);
  await shelf.remove('kept');
  await renewOther(shelf);
  expect(besideStore.getState()).toMatchObject({ other: null, choice: 'kept' });
  expect(besideStore.getState().message).not.toBeNull();
  await chooseOther('', shelf);
});
