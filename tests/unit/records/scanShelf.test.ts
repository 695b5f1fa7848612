import 'fake-indexeddb/auto';
import { IDBFactory } from 'fake-indexeddb';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { createScanShelf } from '../../../src/records/scanShelf';
import { speak } from '../../../src/words/language';

let factory = new IDBFactory();
beforeEach(() => {
  factory = new IDBFactory();
});
const bytes = (...values: number[]): Uint8Array<ArrayBuffer> => Uint8Array.from(values);

describe('scans that are kept', () => {
  it('come back as they were put, in this page and the next, jaw by jaw', async () => {
    const shelf = createScanShelf(factory);
    await shelf.put({ id: 'a', jaw: 'upper' }, bytes(1, 2, 3));
    await shelf.put({ id: 'a', jaw: 'lower' }, bytes(4));
    await shelf.put({ id: 'a', jaw: 'upper' }, bytes(9, 9));
    for (const one of [shelf, createScanShelf(factory)]) {
      expect(await one.get('a', 'upper')).toEqual({ kind: 'scan', id: 'a', jaw: 'upper', bytes: 2, packed: bytes(9, 9) });
      expect(await one.get('a', 'lower')).toMatchObject({ packed: bytes(4) });
    }
    expect(await shelf.get('b', 'upper')).toEqual({ kind: 'none' });
    expect(await shelf.list()).toEqual({ kind: 'scans', scans: [{ id: 'a', jaw: 'lower', bytes: 1 }, { id: 'a', jaw: 'upper', bytes: 2 }] });
  });

  it('are forgotten, one mouth’s or all', async () => {
    const shelf = createScanShelf(factory);
    for (const id of ['a', 'b']) for (const jaw of ['upper', 'lower'] as const) await shelf.put({ id, jaw }, bytes(1));
    expect(await shelf.forget('a')).toEqual({ kind: 'forgotten', count: 2 });
    expect(await shelf.get('a', 'upper')).toEqual({ kind: 'none' });
    expect(await shelf.get('b', 'upper')).toMatchObject({ kind: 'scan' });
    expect(await shelf.forget()).toEqual({ kind: 'forgotten', count: 2 });
    expect(await shelf.list()).toEqual({ kind: 'scans', scans: [] });
  });

  it('without a store, with a full one and with one that fails it is told in words, in the language set', async () => {
    const none = createScanShelf({ open: () => { throw new Error('refused'); } } as unknown as IDBFactory);
    expect(await none.put({ id: 'a', jaw: 'upper' }, bytes(1))).toEqual({
      kind: 'failed', message: 'This browser does not let the page keep a scan (a private window, or a setting). The fitted arch is in the record all the same.',
    });
    await speak('de');
    expect(await none.list()).toMatchObject({ kind: 'failed', message: expect.stringMatching(/^Dieser Browser lässt die Seite keinen Scan aufbewahren/) as string });
    await speak('en');
    const full = createScanShelf(factory);
    await full.list();
    vi.spyOn(IDBObjectStore.prototype, 'put').mockImplementationOnce(() => {
      throw new DOMException('full', 'QuotaExceededError');
    });
    expect(await full.put({ id: 'a', jaw: 'upper' }, bytes(1))).toMatchObject({ kind: 'failed', message: expect.stringContaining('not enough room') as string });
    vi.restoreAllMocks();
  });
});
