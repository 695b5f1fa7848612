import { readFileSync } from 'node:fs';
import { describe, expect, it, vi } from 'vitest';
import { type RecordStorage, SAVED_RECORD_KEY } from '../../../src/records/saved';
import { createMemoryShelf, openShelf } from '../../../src/records/shelf';
import { takeOverRecord } from '../../../src/records/takeOver';
import { createTabbedBrowser } from '../../support/tabs';

const golden = readFileSync(new URL('./goldens/full-1.json', import.meta.url), 'utf8');

function storageWith(text: string | null): RecordStorage & { text: string | null } {
  return {
    text,
    getItem(key) {
      return key === SAVED_RECORD_KEY ? this.text : null;
    },
    removeItem() {
      this.text = null;
    },
  };
}

describe('the record that earlier versions kept', () => {
  it('becomes a player once, and its old place is emptied then', async () => {
    const shelf = await openShelf(createTabbedBrowser().openTab());
    const storage = storageWith(golden);
    const taken = await takeOverRecord(shelf, storage);
    expect(taken).toMatchObject({ kind: 'taken', revision: 1, player: { label: 'Invented', lessons: [{ readings: [{ note: 'F3' }, { note: 'B♭3' }] }] } });
    expect(storage.text).toBeNull();
    expect(await takeOverRecord(shelf, storage)).toEqual({ kind: 'none' });
    expect((await shelf.list()).players).toHaveLength(1);
  });

  it('stays where it is until it is kept, and is not kept twice by a page that ended in between', async () => {
    const shelf = await openShelf(createTabbedBrowser().openTab());
    const storage = storageWith(golden);
    const save = vi.spyOn(shelf, 'save').mockResolvedValue({ kind: 'not-saved', message: 'full' });
    expect(await takeOverRecord(shelf, storage)).toEqual({ kind: 'left', message: 'full' });
    expect(storage.text).toBe(golden);
    save.mockRestore();
    await takeOverRecord(shelf, storage);
    storage.text = golden;
    expect(await takeOverRecord(shelf, storage)).toMatchObject({ kind: 'taken', revision: 1 });
    expect((await shelf.list()).players).toHaveLength(1);
    expect(storage.text).toBeNull();
    // An older page, still open, has kept another one.
    storage.text = golden.replace('"Invented"', '"M. K."');
    expect(await takeOverRecord(shelf, storage)).toMatchObject({ kind: 'taken', player: { label: 'M. K.' } });
    expect((await shelf.list()).players.map(({ label }) => label).sort()).toEqual(['Invented', 'M. K.']);
  });

  it('stays where it is when it cannot be read, or is kept only in memory', async () => {
    const shelf = createMemoryShelf();
    const spoilt = storageWith('{"format":"rimpath-record","version":9}');
    expect(await takeOverRecord(shelf, spoilt)).toEqual({
      kind: 'left',
      message: 'The record kept in this browser cannot be read: version: 9 is newer than this program reads; allowed: 1 to 5',
    });
    expect(spoilt.text).not.toBeNull();
    const storage = storageWith(golden);
    expect((await takeOverRecord(shelf, storage)).kind).toBe('taken');
    expect(storage.text).toBe(golden);
  });

  it('is none where there is none, or no storage', async () => {
    const shelf = createMemoryShelf();
    expect(await takeOverRecord(shelf, storageWith(null))).toEqual({ kind: 'none' });
    expect(await takeOverRecord(shelf, null)).toEqual({ kind: 'none' });
    const throwing = { ...storageWith(null), getItem: () => { throw new Error('blocked'); } };
    expect(await takeOverRecord(shelf, throwing)).toEqual({ kind: 'none' });
  });
});
