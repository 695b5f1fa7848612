import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { describe, expect, it } from 'vitest';
import { createLeftNotes } from '../../../src/records/leftNotes';
import { openShelf } from '../../../src/records/shelf';
import { fullPlayer } from '../../support/records';
import { createNotesStorage } from '../../support/notesStorage';

const player = (label: string) => ({ ...fullPlayer(), id: 'a', label });
/** A browser in which no transaction of a page that is being left arrives. */
function browser() {
  const factory = new IDBFactory();
  const notes = createNotesStorage();
  let clock = 1000;
  const open = () => openShelf({ factory, notes, now: () => clock++ });
  const leaveWithoutStore = async (label: string, revision: number): Promise<void> => {
    const shelf = await open();
    shelf.close();
    shelf.leave(player(label), revision);
  };
  return { notes, open, leaveWithoutStore };
}
const labels = async (shelf: Awaited<ReturnType<typeof openShelf>>): Promise<string[]> => (await shelf.list()).players.map(({ label }) => label).sort();

describe('what a page put down as it was left', () => {
  it('is kept when the shelf is next opened, though no transaction arrived, and then it is gone from there', async () => {
    const { notes, open, leaveWithoutStore } = browser();
    await leaveWithoutStore('left', 0);
    expect(await labels(await open())).toEqual(['left']);
    expect(notes.length).toBe(0);
  });

  it('is nothing any more once a save came through', async () => {
    const { notes, open } = browser();
    const shelf = await open();
    shelf.leave(player('left'), 0);
    expect(await shelf.save(player('later'), 0)).toEqual({ kind: 'saved', revision: 1 });
    expect(notes.length).toBe(0);
    expect(await labels(await open())).toEqual(['later']);
  });

  it('does not take the place of what the same page saved later, should the page have ended before it was forgotten', async () => {
    const { notes, open } = browser();
    const shelf = await open();
    shelf.leave(player('left'), 0);
    const text = notes.getItem('rimpath.left.a') ?? '';
    await shelf.save(player('later'), 0);
    notes.setItem('rimpath.left.a', text);
    expect(await labels(await open())).toEqual(['later']);
    expect(notes.length).toBe(0);
  });

  it('is newer than a save that was on its way', async () => {
    const { open } = browser();
    const shelf = await open();
    const saving = shelf.save(player('on its way'), 0);
    shelf.leave(player('left'), 0);
    await saving;
    expect(await labels(await open())).toEqual(['left']);
  });

  it('is kept beside what another tab saved meanwhile', async () => {
    const { open, leaveWithoutStore } = browser();
    await (await open()).save(player('before'), 0);
    await leaveWithoutStore('left', 1);
    const other = await open();
    expect(await labels(other)).toEqual(['left']);
    await leaveWithoutStore('left again', 1);
    expect(await labels(await open())).toEqual(['left', 'left again (copy from this tab)']);
  });

  it('does not bring back who was deleted here', async () => {
    const { notes, open } = browser();
    const shelf = await open();
    await shelf.save(player('before'), 0);
    shelf.leave(player('left'), 1);
    await shelf.remove('a');
    expect(notes.length).toBe(0);
    expect(await labels(await open())).toEqual([]);
  });

  it('stays where it is when it cannot be read, and does no harm when the storage is full or blocked', async () => {
    const { notes, open } = browser();
    notes.setItem('rimpath.left.a', '{"changedAt":1,"revision":0}');
    notes.setItem('rimpath.left.b', 'no JSON');
    expect(await labels(await open())).toEqual([]);
    expect(notes.length).toBe(2);
    const refuse = (): never => {
      throw new Error('QuotaExceededError');
    };
    const full = createLeftNotes({ length: 1, key: refuse, getItem: refuse, setItem: refuse, removeItem: refuse });
    expect(() => full.put('a', { changedAt: 1 })).not.toThrow();
    expect(() => full.forget('a', 1)).not.toThrow();
    expect(full.all()).toEqual([]);
  });
});
