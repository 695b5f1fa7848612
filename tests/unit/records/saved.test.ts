import { afterEach, describe, expect, it, vi } from 'vitest';
import { type RecordStorage, SAVED_RECORD_KEY, forgetRecord, loadRecord, saveRecord } from '../../../src/records/saved';
import { fullRecord } from '../../support/records';

function memoryStorage(kept: Record<string, string> = {}): RecordStorage {
  return {
    getItem: (key) => kept[key] ?? null,
    setItem: (key, value) => {
      kept[key] = value;
    },
    removeItem: (key) => {
      delete kept[key];
    },
  };
}

function throwingStorage(error: Error): RecordStorage {
  const fail = (): never => {
    throw error;
  };
  return { getItem: fail, setItem: fail, removeItem: fail };
}

const named = (name: string): Error => Object.assign(new Error('no'), { name });

afterEach(() => vi.unstubAllGlobals());

describe('the saved record', () => {
  it('is found again, and forgotten when asked', () => {
    const storage = memoryStorage();
    expect(loadRecord(storage)).toEqual({ kind: 'none' });
    expect(saveRecord(fullRecord(), storage)).toEqual({ kind: 'saved' });
    expect(loadRecord(storage)).toEqual({ kind: 'record', record: fullRecord() });
    forgetRecord(storage);
    expect(loadRecord(storage)).toEqual({ kind: 'none' });
  });

  it('is checked when it is loaded, and left as it is when it cannot be read', () => {
    const kept = { [SAVED_RECORD_KEY]: '{"format":"rimpath-record","version":9}' };
    expect(loadRecord(memoryStorage(kept))).toEqual({
      kind: 'refused',
      message:
        'The record kept in this browser cannot be read: version: 9 is newer than this program reads; allowed: 1',
    });
    expect(kept[SAVED_RECORD_KEY]).toContain('"version":9');
  });

  it('says in words when there is no room or no storage', () => {
    const messageOf = (storage: RecordStorage): string => {
      const saved = saveRecord(fullRecord(), storage);
      return saved.kind === 'not-saved' ? saved.message : 'saved';
    };
    expect(messageOf(throwingStorage(named('QuotaExceededError')))).toContain('is full');
    const blocked = throwingStorage(named('SecurityError'));
    expect(messageOf(blocked)).toContain('does not let');
    expect(loadRecord(blocked)).toMatchObject({ kind: 'unavailable' });
    expect(() => forgetRecord(blocked)).not.toThrow();
  });

  it('uses the browser’s storage, and lives without it', () => {
    vi.stubGlobal('localStorage', undefined);
    expect(loadRecord()).toMatchObject({ kind: 'unavailable' });
    expect(saveRecord(fullRecord())).toMatchObject({ kind: 'not-saved' });
    vi.stubGlobal('localStorage', memoryStorage());
    expect(saveRecord(fullRecord())).toEqual({ kind: 'saved' });
    expect(loadRecord()).toMatchObject({ kind: 'record' });
  });
});
