/** What the page says when the browser keeps nothing: a teacher must hear it before the reload, not after. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import { keepSaved, loadStart } from '../../../src/app/persistence';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { createAppStore } from '../../../src/app/store';
import { demoPlayers } from '../../../src/records/library';

const page = {
  addEventListener: () => undefined,
  removeEventListener: () => undefined,
  setTimeout: ((work: () => void) => {
    work();
    return 1;
  }) as unknown as Window['setTimeout'],
  clearTimeout: () => undefined,
};

function storageThat(setItem: () => void): Pick<Storage, 'getItem' | 'setItem' | 'removeItem'> {
  return { getItem: () => null, setItem, removeItem: () => undefined };
}

function changedStore() {
  const store = createAppStore({ analyse, createLive }, demoPlayers[0]!.record, DEFAULT_SETTINGS);
  const stop = keepSaved(store, page);
  store.getState().change({ ...store.getState().record, player: { ...store.getState().record.player, label: 'M. K.' } });
  stop();
  return store;
}

afterEach(() => vi.unstubAllGlobals());

describe('a browser that keeps nothing', () => {
  it('is spoken of on arrival', () => {
    vi.stubGlobal('localStorage', {
      getItem: () => {
        throw new Error('blocked');
      },
    });
    const loaded = loadStart();
    expect(loaded.message).toMatch(/gone after a reload/);
    expect(loaded.firstVisit).toBe(true);
  });

  it('is spoken of when its storage is full, and not when a change was kept', () => {
    const full = Object.assign(new Error('full'), { name: 'QuotaExceededError' });
    vi.stubGlobal('localStorage', storageThat(() => {
      throw full;
    }));
    expect(changedStore().getState().notice).toMatch(/storage for this page is full/);
    vi.stubGlobal('localStorage', storageThat(() => undefined));
    expect(changedStore().getState().notice).toBeNull();
  });
});

describe('a browser that keeps nothing for a while', () => {
  it('is given both record and page again with the next change', () => {
    const kept = new Set<string>();
    let full = true;
    vi.stubGlobal('localStorage', {
      getItem: () => null,
      setItem: (key: string) => {
        if (full) throw new Error('full');
        kept.add(key);
      },
    });
    const store = createAppStore({ analyse, createLive }, demoPlayers[0]!.record, DEFAULT_SETTINGS);
    const stop = keepSaved(store, page);
    store.getState().select(1);
    full = false;
    store.getState().moveRim({ upMm: 1, rightMm: 0.5 }, null);
    stop();
    expect([...kept].sort()).toEqual(['rimpath.page.1', 'rimpath.record.1']);
  });
});

describe('while a hand drags the rim', () => {
  it('saving waits, but not for ever, and not once the hand has let go', () => {
    const kept: string[] = [];
    vi.stubGlobal('localStorage', storageThat(() => void kept.push('saved')));
    vi.useFakeTimers();
    const store = createAppStore({ analyse, createLive }, demoPlayers[0]!.record, DEFAULT_SETTINGS);
    const stop = keepSaved(store, {
      addEventListener: () => undefined,
      removeEventListener: () => undefined,
      setTimeout: (work: () => void, afterMs: number) => Number(setTimeout(work, afterMs)),
      clearTimeout,
    });
    const last = store.getState().record.readings.length - 1;
    store.getState().select(last);
    vi.advanceTimersByTime(1000);
    kept.length = 0;
    store.getState().drag(true);
    for (let step = 1; step <= 10; step++) {
      expect(store.getState().tryTravel({ upMm: 1 + step / 10, rightMm: 0 }, 'drag')).toBe(true);
      vi.advanceTimersByTime(150);
    }
    expect(kept).toEqual([]);
    vi.advanceTimersByTime(600);
    expect(kept.length).toBeGreaterThan(0);
    kept.length = 0;
    store.getState().tryTravel({ upMm: 3, rightMm: 0 }, 'drag');
    store.getState().drag(false);
    store.getState().set({ hasDragged: true });
    vi.advanceTimersByTime(500);
    expect(kept.length).toBeGreaterThan(0);
    stop();
    vi.useRealTimers();
  });
});
