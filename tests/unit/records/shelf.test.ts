import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { readFileSync } from 'node:fs';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import type { PlayerSpec } from '../../../src/core/specs';
import { DATABASE_NAME, DATABASE_VERSION } from '../../../src/records/database';
import { createMemoryShelf, openShelf } from '../../../src/records/shelf';
import { playersFile } from '../../../src/records/schema';
import type { Shelf } from '../../../src/records/shelfTypes';
import { fullPlayer } from '../../support/records';
import { createClock, createTabbedBrowser, settle } from '../../support/tabs';

const player = (id: string, label = id): PlayerSpec => ({ ...fullPlayer(), id, label });

let factory = new IDBFactory();
beforeEach(() => {
  factory = new IDBFactory();
});

/** The raw store, as another program would see it. */
function raw(version = DATABASE_VERSION): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = factory.open(DATABASE_NAME, version);
    request.onupgradeneeded = () => {
      for (const name of ['players', 'unfinished', 'page']) {
        if (!request.result.objectStoreNames.contains(name)) request.result.createObjectStore(name);
      }
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(new Error(request.error?.name));
  });
}

async function putRaw(store: string, key: string, value: unknown): Promise<void> {
  const database = await raw();
  await new Promise((resolve) => {
    database.transaction(store, 'readwrite').objectStore(store).put(value, key).onsuccess = resolve;
  });
  database.close();
}

async function rawRow(key: string): Promise<unknown> {
  const database = await raw();
  const value: unknown = await new Promise((resolve) => {
    const request = database.transaction('players').objectStore('players').get(key);
    request.onsuccess = () => resolve(request.result);
  });
  database.close();
  return value;
}

const makers: [string, () => Promise<Shelf>][] = [
  ['in the browser’s store', () => openShelf({ factory, now: () => 1000 })],
  ['in memory', () => Promise.resolve(createMemoryShelf(null, { now: () => 1000 }))],
];

describe.each(makers)('a shelf %s', (_, open) => {
  it('keeps players and counts their revisions', async () => {
    const shelf = await open();
    expect(await shelf.list()).toEqual({ players: [], damaged: [], message: null });
    expect(await shelf.get('a')).toEqual({ kind: 'none' });
    expect(await shelf.save(player('a'), 0)).toEqual({ kind: 'saved', revision: 1 });
    expect(await shelf.save(player('b', 'M. K.'), 0)).toEqual({ kind: 'saved', revision: 1 });
    expect(await shelf.save(player('b', 'M. B.'), 1)).toEqual({ kind: 'saved', revision: 2 });
    expect(await shelf.get('b')).toEqual({ kind: 'player', player: player('b', 'M. B.'), revision: 2, changedAt: 1000 });
    const { players } = await shelf.list();
    expect(players).toEqual([
      { id: 'a', label: 'a', instrument: 'tenor-trombone', lessons: 2, lastDate: '2026-03-01', revision: 1, changedAt: 1000 },
      { id: 'b', label: 'M. B.', instrument: 'tenor-trombone', lessons: 2, lastDate: '2026-03-01', revision: 2, changedAt: 1000 },
    ]);
    expect((await shelf.all()).players.map((kept) => kept.player)).toEqual([player('a'), player('b', 'M. B.')]);
  });

  it('does not save over what somebody else has saved, made or removed', async () => {
    const shelf = await open();
    await shelf.save(player('a', 'first'), 0);
    const current = { player: player('a', 'first'), revision: 1, changedAt: 1000 };
    expect(await shelf.save(player('a', 'other'), 0)).toEqual({ kind: 'conflict', id: 'a', current });
    expect(await shelf.save(player('a', 'other'), 2)).toEqual({ kind: 'conflict', id: 'a', current });
    expect(await shelf.save(player('b'), 3)).toEqual({ kind: 'conflict', id: 'b', current: null });
    expect((await shelf.list()).players.map(({ label }) => label)).toEqual(['first']);
  });

  it('a tab that still shows a removed player does not save over the one that came into its place', async () => {
    const shelf = await open();
    const shown = await shelf.save(player('a', 'shown in another tab'), 0);
    if (shown.kind !== 'saved') throw new Error(shown.kind);
    await shelf.remove('a');
    expect(await shelf.importPlayers([{ player: player('a', 'from a file'), revision: 0 }])).toMatchObject({ kind: 'imported', players: [{ revision: 2 }] });
    expect(await shelf.save(player('a', 'typed there'), shown.revision)).toMatchObject({ kind: 'conflict', current: { revision: 2 } });
    expect(await shelf.save(player('a', 'goes on'), 2)).toEqual({ kind: 'saved', revision: 3 });
    expect((await shelf.list()).players.map(({ label }) => label)).toEqual(['goes on']);
  });

  it('keeps nothing that could not be read again, and leaves what is kept', async () => {
    const shelf = await open();
    await shelf.save(player('a', 'first'), 0);
    const [lesson] = player('a').lessons;
    const lessons = Array.from({ length: 201 }, (_, index) => ({ ...lesson!, id: `lesson-${index}`, tryOuts: [], measurings: [] }));
    const answer = await shelf.save({ ...player('a'), lessons }, 1);
    expect(answer).toMatchObject({ kind: 'not-saved' });
    expect(answer.kind === 'not-saved' && answer.message).toContain('(lessons: a list of 201; allowed: a list of 1 to 200)');
    expect(await shelf.importPlayers([{ player: { ...player('b'), lessons }, revision: 0 }])).toMatchObject({ kind: 'not-saved' });
    expect(await shelf.list()).toMatchObject({ players: [{ id: 'a', label: 'first', revision: 1 }], damaged: [] });
    expect(await shelf.save({ ...player('a'), lessons: lessons.slice(1) }, 1)).toEqual({ kind: 'saved', revision: 2 });
  });

  it('removes, and restores what was removed, beside another that has come into its place', async () => {
    const shelf = await open();
    await shelf.save(player('a'), 0);
    await shelf.save(player('a', 'second'), 1);
    const answer = await shelf.remove('a');
    expect(await shelf.remove('a')).toEqual({ kind: 'none' });
    expect(await shelf.get('a')).toEqual({ kind: 'none' });
    if (answer.kind !== 'removed') throw new Error(answer.kind);
    expect(await shelf.restore(answer.removed)).toEqual({ kind: 'saved', revision: 2 });
    expect(await shelf.get('a')).toMatchObject({ kind: 'player', player: player('a', 'second'), revision: 2 });
    await shelf.save(player('a', 'third'), 2);
    expect(await shelf.restore(answer.removed)).toEqual({ kind: 'saved', revision: 1 });
    expect((await shelf.list()).players.map(({ label }) => label).sort()).toEqual(['second', 'third']);
    expect(await shelf.restore(answer.removed)).toEqual({ kind: 'saved', revision: 1 });
    expect((await shelf.list()).players.map(({ label }) => label).sort()).toEqual(['second', 'second (2)', 'third']);
  });

  it('takes many players over at once, or none', async () => {
    const shelf = await open();
    await shelf.save(player('b', 'before'), 0);
    expect(await shelf.importPlayers([{ player: player('a'), revision: 0 }, { player: player('b', 'from a file'), revision: 0 }])).toMatchObject({
      kind: 'conflict',
      id: 'b',
      current: { revision: 1 },
    });
    expect((await shelf.list()).players.map(({ label }) => label)).toEqual(['before']);
    expect(await shelf.importPlayers([{ player: player('a'), revision: 0 }, { player: player('b', 'from a file'), revision: 1 }])).toMatchObject({
      kind: 'imported',
      players: [{ revision: 1 }, { revision: 2 }],
    });
    expect((await shelf.list()).players.map(({ label }) => label)).toEqual(['a', 'from a file']);
    expect(await shelf.importPlayers([])).toEqual({ kind: 'imported', players: [] });
  });

  it('keeps small values of the page', async () => {
    const shelf = await open();
    expect(await shelf.getPage('open')).toBeUndefined();
    expect(await shelf.setPage('open', { id: 'a' })).toBe(true);
    expect(await shelf.getPage('open')).toEqual({ id: 'a' });
  });
});

describe('the browser’s store', () => {
  it('is found again by the next page, one transaction a change', async () => {
    const browser = createTabbedBrowser();
    const tab = browser.openTab();
    const shelf = await openShelf(tab);
    const before = tab.transactions();
    await shelf.save(player('a'), 0);
    await shelf.importPlayers([{ player: player('b'), revision: 0 }, { player: player('c'), revision: 0 }]);
    await shelf.remove('c');
    expect(tab.transactions() - before).toBe(3);
    shelf.close();
    const next = await openShelf(browser.openTab());
    expect((await next.list()).players.map(({ id }) => id)).toEqual(['a', 'b']);
    expect(next).toMatchObject({ lasting: true, message: null });
  });

  it('that another tab has changed is not taken for what this one read before', async () => {
    const [one, other] = [await openShelf({ factory, now: () => 1000 }), await openShelf({ factory, now: () => 1000 })];
    await one.save(player('a', 'mine'), 0);
    expect(await one.get('a')).toMatchObject({ player: { label: 'mine' } });
    await other.remove('a');
    await other.save(player('a', 'theirs'), 0);
    expect(await one.get('a')).toMatchObject({ player: { label: 'theirs' }, revision: 2 });
  });

  it('names what cannot be read, leaves it where it is and opens the others', async () => {
    const spoilt = { file: playersFile([{ ...player('bad'), lips: null as never }]), revision: 3, changedAt: 5, writer: 'w' };
    await putRaw('players', 'bad', spoilt);
    await putRaw('players', 'newer', { file: { format: 'rimpath-record', version: 6 }, revision: 1, changedAt: 5 });
    await putRaw('players', 'nothing', null);
    await putRaw('players', 'strange', 'text');
    await putRaw('players', 'other-id', { file: playersFile([player('x')]), revision: 1, changedAt: 5 });
    const shelf = await openShelf({ factory });
    await shelf.save(player('good'), 0);
    const { players, damaged } = await shelf.list();
    expect(players.map(({ id }) => id)).toEqual(['good']);
    expect(damaged.map(({ id, message }) => [id, message.replace(/^.*?: /, '')])).toEqual([
      ['bad', 'players[0].lips: null; allowed: an object with upper, lower, law'],
      ['newer', 'version: 6 is newer than this program reads; allowed: 1 to 5'],
      ['nothing', 'revision: unreadable; allowed: a whole number'],
      ['other-id', 'players: another than other-id; allowed: the one player'],
      ['strange', 'revision: unreadable; allowed: a whole number'],
    ]);
    expect(JSON.parse(damaged[0]!.text)).toEqual(spoilt);
    expect(await shelf.get('bad')).toMatchObject({ kind: 'damaged', id: 'bad' });
    // Nobody saves over it by accident, not even with its revision.
    expect(await shelf.save(player('bad'), 0)).toEqual({ kind: 'conflict', id: 'bad', current: null });
    expect(await shelf.save(player('strange'), 0)).toEqual({ kind: 'conflict', id: 'strange', current: null });
    expect(await rawRow('bad')).toEqual(spoilt);
    // Removing it is the reader's own decision, and can be undone.
    const removed = await shelf.remove('bad');
    expect(removed.kind === 'removed' && (await shelf.restore(removed.removed)).kind).toBe('saved');
    expect(await rawRow('bad')).toEqual(spoilt);
  });

  it('reads rows of an older file version, and writes them back as the present one', async () => {
    const old: unknown = JSON.parse(readFileSync(new URL('./goldens/full-1.json', import.meta.url), 'utf8'));
    await putRaw('players', 'old', { file: old, revision: 4, changedAt: 5 });
    const shelf = await openShelf({ factory });
    const got = await shelf.get('old');
    if (got.kind !== 'player') throw new Error(got.kind);
    expect(got).toMatchObject({ revision: 4, player: { id: 'old', label: 'Invented', lessons: [{ id: 'old' }] } });
    expect(await rawRow('old')).toMatchObject({ file: old });
    expect(await shelf.save(got.player, 4)).toEqual({ kind: 'saved', revision: 5 });
    expect(await rawRow('old')).toMatchObject({ file: { version: 2 }, revision: 5 });
  });

  it('of a newer program is refused in words and left as it is', async () => {
    await putRaw('players', 'a', 'newer layout');
    (await raw(DATABASE_VERSION + 1)).close();
    const shelf = await openShelf({ factory });
    expect(shelf.lasting).toBe(false);
    expect(shelf.message).toMatch(/newer version of this program keeps players.*left as they are.*save a file before you close/);
    expect(await shelf.save(player('b'), 0)).toEqual({ kind: 'saved', revision: 1 });
    const database = await raw(DATABASE_VERSION + 1);
    expect(database.version).toBe(DATABASE_VERSION + 1);
    const keys = await new Promise((resolve) => {
      const request = database.transaction('players').objectStore('players').getAllKeys();
      request.onsuccess = () => resolve(request.result);
    });
    expect(keys).toEqual(['a']);
    database.close();
  });

  it('makes way for a newer page in another tab, and says so', async () => {
    const shelf = await openShelf({ factory });
    await shelf.save(player('a'), 0);
    (await raw(DATABASE_VERSION + 1)).close();
    expect(await shelf.save(player('a'), 1)).toMatchObject({ kind: 'not-saved', message: expect.stringMatching(/newer version of this page was opened in another tab/) as string });
    expect(await shelf.list()).toMatchObject({ players: [], message: expect.stringMatching(/newer version/) as string });
    expect(await shelf.get('a')).toMatchObject({ kind: 'not-read' });
    expect(await shelf.setPage('x', 1)).toBe(false);
  });

  it('that the browser closed by itself is opened again', async () => {
    const databases: IDBDatabase[] = [];
    const watching = {
      open: (name: string, version?: number) => {
        const request = factory.open(name, version);
        request.addEventListener('success', () => databases.push(request.result));
        return request;
      },
    } as IDBFactory;
    const shelf = await openShelf({ factory: watching });
    await shelf.save(player('a'), 0);
    // Closed without a word: the next transaction fails.
    databases[0]!.close();
    expect(await shelf.save(player('a'), 1)).toEqual({ kind: 'saved', revision: 2 });
    expect(databases).toHaveLength(2);
  });
});

describe('what a page put down as it was left', () => {
  const leave = async (browser: ReturnType<typeof createTabbedBrowser>, label: string, revision: number): Promise<void> => {
    const tab = browser.openTab();
    const shelf = await openShelf(tab);
    shelf.leave(player('a', label), revision);
    tab.kill();
    await settle();
  };
  const labels = async (browser: ReturnType<typeof createTabbedBrowser>): Promise<string[]> => {
    const shelf = await openShelf(browser.openTab());
    return (await shelf.list()).players.map(({ label }) => label).sort();
  };
  const kept = async (label: string): Promise<ReturnType<typeof createTabbedBrowser>> => {
    const browser = createTabbedBrowser();
    const shelf = await openShelf(browser.openTab());
    await shelf.save(player('a', label), 0);
    return browser;
  };

  it('is saved when the shelf is opened next, once', async () => {
    const browser = await kept('before');
    await leave(browser, 'after', 1);
    expect(await labels(browser)).toEqual(['after']);
    const shelf = await openShelf(browser.openTab());
    expect(await shelf.get('a')).toMatchObject({ revision: 2, player: { label: 'after' } });
  });

  it('stands beside what somebody else has saved since', async () => {
    const browser = await kept('before');
    const other = await openShelf(browser.openTab());
    await other.save(player('a', 'theirs'), 1);
    await leave(browser, 'mine', 1);
    expect(await labels(browser)).toEqual(['mine (copy from this tab)', 'theirs']);
    expect(await labels(browser)).toHaveLength(2);
  });

  it('is dropped where the same was saved after all, or by a later save of the same player', async () => {
    const browser = await kept('before');
    const shelf = await openShelf(browser.openTab());
    shelf.leave(player('a', 'after'), 1);
    expect(await shelf.save(player('a', 'after'), 1)).toEqual({ kind: 'saved', revision: 2 });
    expect(await labels(browser)).toEqual(['after']);
    expect(await (await openShelf(browser.openTab())).get('a')).toMatchObject({ revision: 2 });
    // By another tab, from the same text.
    await leave(browser, 'after', 1);
    expect(await labels(browser)).toEqual(['after']);
  });

  it('is newer than the last save of the page that left it, even if it did not hear of that save', async () => {
    const browser = await kept('before');
    const tab = browser.openTab();
    const shelf = await openShelf(tab);
    await shelf.save(player('a', 'sent'), 1);
    shelf.leave(player('a', 'last'), 1);
    tab.kill();
    await settle();
    expect(await labels(browser)).toEqual(['last']);
  });

  it('brings back a player who was removed meanwhile, and leaves alone what cannot be read', async () => {
    const browser = createTabbedBrowser();
    await leave(browser, 'mine', 3);
    expect(await labels(browser)).toEqual(['mine']);
    await putRaw('unfinished', 'strange', 'text');
    const shelf = await openShelf({ factory });
    expect(await shelf.list()).toMatchObject({ players: [], damaged: [] });
  });
});

describe('where nothing can be kept', () => {
  const refusing = (open: () => unknown): IDBFactory => ({ open }) as unknown as IDBFactory;
  const failing = (name: string): IDBFactory =>
    refusing(() => {
      const request = { error: new DOMException('no', name) } as unknown as IDBOpenDBRequest;
      setImmediate(() => (request as unknown as { onerror: () => void }).onerror());
      return request;
    });

  it.each<[string, () => IDBFactory | undefined, RegExp]>([
    ['no store at all', () => undefined, /^This browser has no place where a page can keep things, so nothing is kept: save a file before you close\.$/],
    ['a store that throws', () => refusing(() => { throw new DOMException('no', 'SecurityError'); }), /does not let the page keep anything \(a private window, or a setting\), so nothing is kept: save a file/],
    ['a private window', () => failing('InvalidStateError'), /a private window, or a setting/],
    ['a full disk', () => failing('QuotaExceededError'), /store is full.*save a file, then make room/],
  ])('%s: the page goes on in memory and says what to do', async (_, make, words) => {
    const shelf = await openShelf({ factory: make() });
    expect(shelf.lasting).toBe(false);
    expect(shelf.message).toMatch(words);
    expect(await shelf.save(player('a'), 0)).toEqual({ kind: 'saved', revision: 1 });
    expect((await shelf.list()).players).toHaveLength(1);
    shelf.leave(player('a'), 1);
    shelf.close();
  });

  it('a browser that throws when it is asked for its store has none', async () => {
    vi.stubGlobal('indexedDB', undefined);
    expect((await openShelf()).lasting).toBe(false);
    vi.unstubAllGlobals();
  });

  it('a store that never answers is waited for, but not for ever, and what it says later changes nothing', async () => {
    const clock = createClock();
    let request: Partial<IDBOpenDBRequest> = {};
    const opening = openShelf({ factory: refusing(() => (request = {})), timers: clock });
    await clock.advance(3900);
    let opened = false;
    void opening.then(() => (opened = true));
    await settle();
    expect(opened).toBe(false);
    await clock.advance(200);
    const shelf = await opening;
    expect(shelf.message).toMatch(/does not answer\. Close other tabs of this page and reload it/);
    const close = vi.fn();
    const late = { close, objectStoreNames: { contains: () => true } };
    Object.assign(request, { result: late });
    (request as { onsuccess: () => void }).onsuccess();
    expect(close).toHaveBeenCalled();
  });

  it('a tab with an older layout that does not make way is named', async () => {
    const clock = createClock();
    const opening = openShelf({
      factory: refusing(() => {
        const request: Partial<IDBOpenDBRequest> = {};
        setImmediate(() => (request as { onblocked: () => void }).onblocked());
        return request;
      }),
      timers: clock,
    });
    await settle();
    await clock.advance(4100);
    expect((await opening).message).toMatch(/An older version of this page is open in another tab\. Close that tab and reload/);
  });

  it('a store that is full in the middle keeps what it had, all of an import or nothing of it', async () => {
    const shelf = await openShelf({ factory });
    await shelf.save(player('a', 'before'), 0);
    let puts = 0;
    const original = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (this: IDBObjectStore, ...given: Parameters<typeof original>) {
      if (++puts > 1) throw new DOMException('full', 'QuotaExceededError');
      return original.apply(this, given);
    };
    try {
      expect(await shelf.importPlayers([{ player: player('b'), revision: 0 }, { player: player('a', 'from a file'), revision: 1 }])).toEqual({
        kind: 'not-saved',
        message: 'The browser’s store is full, so the last changes are not kept: save a file, then make room in the browser’s settings.',
      });
      expect(await shelf.save(player('a', 'after'), 1)).toMatchObject({ kind: 'not-saved' });
    } finally {
      IDBObjectStore.prototype.put = original;
    }
    expect((await shelf.list()).players.map(({ label }) => label)).toEqual(['before']);
    expect(await shelf.save(player('a', 'after'), 1)).toEqual({ kind: 'saved', revision: 2 });
  });
});
