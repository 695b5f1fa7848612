import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { FILMS_DATABASE_NAME, type FilmShelf, createFilmShelf } from '../../../src/records/filmShelf';
import { createClock } from '../../support/tabs';

let factory = new IDBFactory();
const shelves: FilmShelf[] = [];
const open = (given: { factory?: IDBFactory | undefined } = { factory }): FilmShelf => {
  const shelf = createFilmShelf({ factory: given.factory, timers: globalThis });
  shelves.push(shelf);
  return shelf;
};
const film = (words: string): Blob => new Blob([words], { type: 'video/mp4' });

beforeEach(() => {
  factory = new IDBFactory();
});
afterEach(() => {
  for (const shelf of shelves.splice(0)) shelf.close();
  vi.restoreAllMocks();
});

async function withTwoMeasurings(): Promise<FilmShelf> {
  const shelf = open();
  await shelf.put({ measuring: 'b', source: 0, name: 'b front.mp4' }, film('bbb'));
  await shelf.put({ measuring: 'a', source: 1, name: 'a side.mp4' }, film('aa'));
  await shelf.put({ measuring: 'a', source: 0, name: 'a front.mp4' }, film('a'));
  return shelf;
}

describe('films that are kept', () => {
  it('come back whole, in this page and the next', async () => {
    const shelf = await withTwoMeasurings();
    for (const one of [shelf, open()]) {
      const got = await one.get('a', 1);
      if (got.kind !== 'film') throw new Error(got.kind);
      expect({ ...got, blob: await got.blob.text() }).toEqual({ kind: 'film', measuring: 'a', source: 1, name: 'a side.mp4', bytes: 2, blob: 'aa' });
      expect(got.blob.type).toBe('video/mp4');
    }
    expect(await shelf.get('a', 2)).toEqual({ kind: 'none' });
    expect(await shelf.get('c', 0)).toEqual({ kind: 'none' });
  });

  it('are listed without themselves, with the room they take', async () => {
    const shelf = open();
    expect(await shelf.list()).toEqual({ kind: 'films', films: [], bytes: 0 });
    expect(await (await withTwoMeasurings()).list()).toEqual({
      kind: 'films',
      films: [
        { measuring: 'a', source: 0, name: 'a front.mp4', bytes: 1 },
        { measuring: 'a', source: 1, name: 'a side.mp4', bytes: 2 },
        { measuring: 'b', source: 0, name: 'b front.mp4', bytes: 3 },
      ],
      bytes: 6,
    });
  });

  it('take the place of the same measuring’s film', async () => {
    const shelf = await withTwoMeasurings();
    expect(await shelf.put({ measuring: 'b', source: 0, name: 'new.mp4' }, film('1234567'))).toEqual({ kind: 'kept' });
    expect(await shelf.list()).toMatchObject({ bytes: 10, films: [{}, {}, { name: 'new.mp4', bytes: 7 }] });
  });

  it('are forgotten one by one, by measuring, and all at once', async () => {
    const shelf = await withTwoMeasurings();
    expect(await shelf.remove('a', 0)).toEqual({ kind: 'forgotten', films: 1, bytes: 1 });
    expect(await shelf.remove('a', 0)).toEqual({ kind: 'forgotten', films: 0, bytes: 0 });
    expect(await shelf.remove('a')).toEqual({ kind: 'forgotten', films: 1, bytes: 2 });
    expect(await shelf.list()).toMatchObject({ films: [{ measuring: 'b' }] });
    await withTwoMeasurings();
    expect(await shelf.removeAll()).toEqual({ kind: 'forgotten', films: 3, bytes: 6 });
    expect(await open().list()).toEqual({ kind: 'films', films: [], bytes: 0 });
  });

  it('are forgotten where no measuring needs them any more', async () => {
    const shelf = await withTwoMeasurings();
    expect(await shelf.forgetUnreferenced(new Set(['a', 'somebody else’s']))).toEqual({ kind: 'forgotten', films: 1, bytes: 3 });
    expect(await shelf.list()).toMatchObject({ films: [{ measuring: 'a' }, { measuring: 'a' }] });
    expect(await shelf.forgetUnreferenced(new Set())).toMatchObject({ films: 2 });
  });

  it('need no database until one is asked for', () => {
    const begun = vi.spyOn(factory, 'open');
    open();
    expect(begun).not.toHaveBeenCalled();
  });

  it('let go of the database for a newer page, and find it again when the browser closed it', async () => {
    const shelf = await withTwoMeasurings();
    await new Promise<void>((resolve, reject) => {
      const request = factory.deleteDatabase(FILMS_DATABASE_NAME);
      request.onsuccess = () => resolve();
      request.onblocked = () => reject(new Error('blocked'));
    });
    expect(await shelf.list()).toEqual({ kind: 'films', films: [], bytes: 0 });
  });

  it('what another program put among them is no film, and goes with all the others', async () => {
    const shelf = await withTwoMeasurings();
    const raw = await rawDatabase();
    const put = raw.transaction('films', 'readwrite').objectStore('films').put({ measuring: 'a', blob: 'no blob' }, ['a', 0]);
    await new Promise((resolve) => (put.onsuccess = resolve));
    raw.close();
    expect(await shelf.get('a', 0)).toEqual({ kind: 'none' });
    expect(await shelf.list()).toMatchObject({ bytes: 5, films: [{}, {}] });
    // Where another film is forgotten it is left alone.
    expect(await shelf.remove('b')).toMatchObject({ films: 1 });
    expect(await keysNow()).toEqual([['a', 0], ['a', 1]]);
    expect(await shelf.remove('a', 0)).toMatchObject({ films: 0 });
    expect(await keysNow()).toEqual([['a', 1]]);
    expect(await shelf.removeAll()).toMatchObject({ films: 1 });
  });
});

async function keysNow(): Promise<IDBValidKey[]> {
  const raw = await rawDatabase();
  const asked = raw.transaction('films').objectStore('films').getAllKeys();
  await new Promise((resolve) => (asked.onsuccess = resolve));
  raw.close();
  return asked.result;
}

describe('where films cannot be kept, a sentence says so', () => {
  const everything = async (shelf: FilmShelf): Promise<readonly object[]> =>
    Promise.all([
      shelf.put({ measuring: 'a', source: 0, name: 'x' }, film('x')),
      shelf.get('a', 0),
      shelf.list(),
      shelf.remove('a'),
      shelf.removeAll(),
      shelf.forgetUnreferenced(new Set()),
    ]);

  it.each<[string, () => IDBFactory | undefined, RegExp]>([
    ['there is no store', () => undefined, /^This browser has no place where a page can keep films\. Marks and readings are kept all the same;/],
    ['it throws', () => throwing(), /^This browser does not let the page keep films \(a private window, or a setting\)\./],
    ['it refuses', () => refusing('InvalidStateError'), /^This browser does not let the page keep films/],
    ['it is full', () => refusing('QuotaExceededError'), /^There is not enough room in the browser’s store for this film/],
    ['it is newer', () => refusing('VersionError'), /^A newer version of this program keeps films/],
  ])('%s', async (_, make, words) => {
    const shelf = open({ factory: make() });
    for (const answer of await everything(shelf)) expect(answer).toEqual({ kind: 'failed', message: expect.stringMatching(words) as unknown });
  });

  it('it never answers', async () => {
    const clock = createClock();
    const silent = { open: () => ({}) } as unknown as IDBFactory;
    const answer = createFilmShelf({ factory: silent, timers: clock }).list();
    await clock.advance(4000);
    expect(await answer).toMatchObject({ kind: 'failed', message: expect.stringMatching(/^The browser’s store of films does not answer\./) as unknown });
  });

  it.each<[string, string, RegExp]>([
    ['full while putting', 'QuotaExceededError', /^There is not enough room/],
    ['the file is gone', 'NotReadableError', /^The film could not be read, so it is not kept\. Choose the file again\./],
    ['a failure of its own', 'DataError', /^The browser’s store of films has failed \(DataError\)\./],
  ])('%s: nothing of it is kept, and what is there stays', async (_, name, words) => {
    const shelf = await withTwoMeasurings();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementation(() => {
      throw new DOMException('made to fail', name);
    });
    expect(await shelf.put({ measuring: 'a', source: 0, name: 'x' }, film('xxxx'))).toEqual({ kind: 'failed', message: expect.stringMatching(words) as unknown });
    vi.restoreAllMocks();
    expect(await shelf.list()).toMatchObject({ bytes: 6 });
  });

  it('is asked again the next time', async () => {
    const begun = vi.spyOn(factory, 'open').mockImplementationOnce(() => {
      throw new Error('not now');
    });
    const shelf = open();
    expect((await shelf.list()).kind).toBe('failed');
    expect((await shelf.list()).kind).toBe('films');
    expect(begun).toHaveBeenCalledTimes(2);
  });
});

function rawDatabase(): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = factory.open(FILMS_DATABASE_NAME, 1);
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(new Error(request.error?.name));
  });
}

const throwing = (): IDBFactory =>
  ({
    open: () => {
      throw new DOMException('private', 'SecurityError');
    },
  }) as unknown as IDBFactory;

/** Answers every opening with this fault. */
function refusing(name: string): IDBFactory {
  return {
    open: () => {
      const request = { error: new DOMException('made to fail', name), onerror: () => undefined };
      queueMicrotask(() => request.onerror());
      return request;
    },
  } as unknown as IDBFactory;
}
