/** What the page finds again after a reload, and what it says when it finds nothing. */
import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { keepPage, loadStart } from '../../../src/app/persistence';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { createAppStore } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import { createMemoryShelf, openShelf } from '../../../src/records/shelf';
import { speak } from '../../../src/words/language';
import { demoPlayers, openedOf } from '../../support/demos';

const page = {
  addEventListener: () => undefined,
  removeEventListener: () => undefined,
  setTimeout: ((work: () => void) => {
    work();
    return 1;
  }) as unknown as Window['setTimeout'],
  clearTimeout: () => undefined,
};

const { player } = openedOf(demoPlayers[0]!.record);
const twoLessons = { ...player, lessons: [{ ...player.lessons[0]!, id: 'earlier' }, player.lessons[0]!] };

/** A localStorage of the test's own; what is written stands in the map. */
function stubStorage(kept: Map<string, string>, setItem = (key: string, value: string): void => void kept.set(key, value)): void {
  vi.stubGlobal('localStorage', { getItem: (key: string) => kept.get(key) ?? null, setItem, removeItem: () => undefined });
}

afterEach(() => vi.unstubAllGlobals());

describe('arriving', () => {
  it('where nothing is kept shows a copy of an invented player, which is not kept and not under its own name', async () => {
    stubStorage(new Map());
    const shelf = await openShelf({ factory: new IDBFactory() });
    const { start, revision, own, firstVisit, message } = await loadStart(shelf, () => 'fresh');
    expect(start.player).toEqual({ ...start.player, id: 'fresh', label: demoPlayers[0]!.record.player.label });
    expect([revision, own, firstVisit, message]).toEqual([0, false, true, null]);
    expect((await shelf.list()).players).toEqual([]);
  });

  it('finds the player, the lesson and the note that were on the page', async () => {
    stubStorage(new Map([['rimpath.page.1', JSON.stringify({ settings: { theme: 'projector' }, selected: 2, playerId: 'player-1', lessonId: 'earlier' })]]));
    const shelf = await openShelf({ factory: new IDBFactory() });
    await shelf.save(twoLessons, 0);
    await shelf.save({ ...twoLessons, id: 'another' }, 0);
    const { start, revision, own, firstVisit } = await loadStart(shelf);
    expect(start).toMatchObject({ player: { id: 'player-1' }, lessonId: 'earlier', selected: 2, settings: { theme: 'projector' } });
    expect([revision, own, firstVisit]).toEqual([1, true, false]);
  });

  it('finds whoever was kept last where the one on the page is gone', async () => {
    stubStorage(new Map([['rimpath.page.1', JSON.stringify({ selected: 5, playerId: 'gone', lessonId: 'gone' })]]));
    let now = 0;
    const shelf = await openShelf({ factory: new IDBFactory(), now: () => (now += 1) });
    await shelf.save({ ...twoLessons, id: 'older' }, 0);
    await shelf.save({ ...twoLessons, id: 'newer' }, 0);
    const { start } = await loadStart(shelf);
    expect(start).toMatchObject({ player: { id: 'newer' }, lessonId: twoLessons.lessons[1]!.id, selected: 0 });
  });

  it('says where nothing can be kept, and works all the same', async () => {
    vi.stubGlobal('localStorage', {
      getItem: () => {
        throw new Error('blocked');
      },
    });
    const loaded = await loadStart(await openShelf({ factory: undefined }));
    expect(loaded.message).toMatch(/save a file before you close/);
    expect(loaded.firstVisit).toBe(true);
    expect(loaded.start.player.lessons.length).toBeGreaterThan(0);
  });
});

describe('the page', () => {
  it('is kept again with the next change after a browser would not', () => {
    const kept = new Map<string, string>();
    let full = true;
    stubStorage(kept, (key, value) => {
      if (full) throw new Error('full');
      kept.set(key, value);
    });
    const store = createAppStore({ analyse, createLive }, openedOf(demoPlayers[0]!.record), DEFAULT_SETTINGS);
    const stop = keepPage(store, page);
    store.getState().select(1);
    expect(kept.size).toBe(0);
    full = false;
    store.getState().select(2);
    stop();
    expect(JSON.parse(kept.get('rimpath.page.1') ?? '')).toMatchObject({ selected: 2, playerId: 'player-1', lessonId: 'lesson-1' });
  });

  it('is not written while something shared is on it: it comes back as its owner left it', () => {
    const writes: string[] = [];
    stubStorage(new Map(), (_, value) => void writes.push(value));
    const store = createAppStore({ analyse, createLive }, openedOf(demoPlayers[0]!.record), DEFAULT_SETTINGS);
    let guest = true;
    const stop = keepPage(store, page, () => guest);
    store.getState().select(1);
    stop();
    expect(writes).toEqual([]);
    guest = false;
    const goesOn = keepPage(store, page, () => guest);
    store.getState().select(2);
    goesOn();
    expect(writes).toHaveLength(1);
  });

  it('keeps how notes are named only where it is not as the language names them', async () => {
    const kept = new Map<string, string>();
    stubStorage(kept);
    const shelf = createMemoryShelf('');
    const store = createAppStore({ analyse, createLive }, openedOf(demoPlayers[0]!.record), DEFAULT_SETTINGS);
    const stop = keepPage(store, page);
    store.getState().set({ theme: 'projector' });
    await speak('de');
    expect((await loadStart(shelf)).start.settings).toMatchObject({ theme: 'projector', naming: 'german' });
    await speak('en');
    store.getState().set({ naming: 'solfège' });
    stop();
    await speak('de');
    expect((await loadStart(shelf)).start.settings.naming).toBe('solfège');
    await speak('en');
  });

  it('is not written while only the record changes, as in a drag', () => {
    const writes: string[] = [];
    stubStorage(new Map(), (key) => void writes.push(key));
    const store = createAppStore({ analyse, createLive }, openedOf(demoPlayers[0]!.record), DEFAULT_SETTINGS);
    const stop = keepPage(store, page);
    store.getState().tryTravel({ upMm: 1, rightMm: 0 }, 'drag');
    expect(writes).toEqual([]);
    stop();
  });
});

describe('a shelf that lasts only as long as the page', () => {
  it('is found empty, and the message says what to do', async () => {
    stubStorage(new Map());
    const shelf = createMemoryShelf('Nothing lasts: save a file before you close.');
    expect((await loadStart(shelf)).message).toBe('Nothing lasts: save a file before you close.');
  });
});
