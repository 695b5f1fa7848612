import { afterEach, describe, expect, it, vi } from 'vitest';
import { SAVED_RECORD_KEY, browserStorage, forgetRecord } from '../../../src/records/saved';
import { createNotesStorage } from '../../support/notesStorage';

afterEach(() => vi.unstubAllGlobals());

describe('the record that earlier versions kept', () => {
  it('is forgotten when asked, and nothing else is', () => {
    const storage = createNotesStorage({ [SAVED_RECORD_KEY]: '{}', other: 'stays' });
    forgetRecord(storage);
    expect(storage.getItem(SAVED_RECORD_KEY)).toBeNull();
    expect(storage.getItem('other')).toBe('stays');
  });

  it('needs no storage, and none that can be reached', () => {
    const blocked = { getItem: () => null, removeItem: () => { throw new Error('SecurityError'); } };
    expect(() => forgetRecord(blocked)).not.toThrow();
    expect(() => forgetRecord(null)).not.toThrow();
  });
});

describe('the browser’s storage', () => {
  it('is null where there is none and where asking for it throws', () => {
    vi.stubGlobal('localStorage', undefined);
    expect(browserStorage()).toBeNull();
    const storage = createNotesStorage();
    vi.stubGlobal('localStorage', storage);
    expect(browserStorage()).toBe(storage);
    vi.unstubAllGlobals();
    const before = Object.getOwnPropertyDescriptor(globalThis, 'localStorage');
    Object.defineProperty(globalThis, 'localStorage', { configurable: true, get: () => { throw new Error('SecurityError'); } });
    expect(browserStorage()).toBeNull();
    if (before === undefined) Reflect.deleteProperty(globalThis, 'localStorage');
    else Object.defineProperty(globalThis, 'localStorage', before);
  });
});
