import { describe, expect, it, vi } from 'vitest';
import type { PlayerSpec } from '../../../src/core/specs';
import { createKeeper } from '../../../src/records/keeper';
import type { Keeper, KeeperStart, KeeperSurroundings } from '../../../src/records/keeperTypes';
import { createMemoryShelf, openShelf } from '../../../src/records/shelf';
import type { Shelf } from '../../../src/records/shelfTypes';
import { type TestSource, createSource } from '../../support/keptSource';
import { fullPlayer } from '../../support/records';
import { type Tab, type TabbedBrowser, createTabbedBrowser, settle } from '../../support/tabs';

const player: PlayerSpec = { ...fullPlayer(), id: 'a', label: 'start' };

interface Page {
  readonly tab: Tab;
  readonly shelf: Shelf;
  readonly source: TestSource;
  readonly keeper: Keeper;
}

async function openPage(browser: TabbedBrowser, changes: Partial<KeeperSurroundings> = {}, start: Partial<KeeperStart> = {}): Promise<Page> {
  const tab = browser.openTab();
  const shelf = await openShelf(tab);
  const got = await shelf.get('a');
  const source = createSource(got.kind === 'player' ? got.player : player);
  const keeper = createKeeper(shelf, source, { revision: got.kind === 'player' ? got.revision : 0, own: true, ...start }, { storage: undefined, ...tab, ...changes });
  await settle();
  return { tab, shelf, source, keeper };
}

async function labels(browser: TabbedBrowser): Promise<string[]> {
  const { players } = await (await openShelf(browser.openTab())).list();
  return players.map(({ label }) => label).sort();
}

describe('saving', () => {
  it('comes within half a second of the first change, once for many, and not without a change', async () => {
    const browser = createTabbedBrowser();
    const { tab, source, keeper } = await openPage(browser);
    await tab.timers.advance(10_000);
    expect(await labels(browser)).toEqual([]);
    const before = tab.transactions();
    source.label('one');
    await tab.timers.advance(300);
    source.label('two');
    await tab.timers.advance(99);
    expect(await labels(browser)).toEqual([]);
    await tab.timers.advance(1);
    expect(await labels(browser)).toEqual(['two']);
    expect(keeper.state()).toEqual({ kind: 'saved', message: null });
    expect(tab.transactions() - before).toBe(1);
    await tab.timers.advance(10_000);
    expect(tab.transactions() - before).toBe(1);
  });

  it('says that it is saving, and that it has saved', async () => {
    const { tab, source, keeper } = await openPage(createTabbedBrowser());
    const states: string[] = [];
    const stop = keeper.subscribe(() => states.push(keeper.state().kind));
    source.label('one');
    await tab.timers.advance(400);
    expect(states).toEqual(['saving', 'saved']);
    stop();
    source.label('two');
    await tab.timers.advance(400);
    expect(states).toHaveLength(2);
  });

  it('waits for a hand that drags, but not long once it has let go', async () => {
    const browser = createTabbedBrowser();
    const { tab, source } = await openPage(browser);
    source.drag(true);
    for (let step = 0; step < 15; step++) {
      source.label(`step ${step}`);
      await tab.timers.advance(100);
    }
    expect(await labels(browser)).toEqual([]);
    source.drag(false);
    await tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['step 14']);
    source.drag(true);
    source.label('held');
    await tab.timers.advance(1999);
    expect(await labels(browser)).toEqual(['step 14']);
    await tab.timers.advance(1);
    expect(await labels(browser)).toEqual(['held']);
  });

  it('is done one after the other: a change while saving is saved after it', async () => {
    const browser = createTabbedBrowser();
    const { tab, shelf, source, keeper } = await openPage(browser);
    let most = 0;
    let now = 0;
    const save = shelf.save.bind(shelf);
    vi.spyOn(shelf, 'save').mockImplementation(async (...given) => {
      most = Math.max(most, ++now);
      const answer = await save(...given);
      now--;
      return answer;
    });
    source.label('one');
    const first = keeper.flush();
    source.label('two');
    const second = keeper.flush();
    source.label('three');
    await Promise.all([first, second, keeper.flush()]);
    expect(most).toBe(1);
    expect(await labels(browser)).toEqual(['three']);
    source.label('four');
    await tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['four']);
  });

  it('follows an undo that comes while the undone step is being saved', async () => {
    const browser = createTabbedBrowser();
    const { tab, source, keeper } = await openPage(browser);
    source.label('one');
    await keeper.flush();
    const before = source.current();
    source.label('two');
    const saving = keeper.flush();
    source.change(() => before);
    await saving;
    await tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['one']);
  });

  it('comes at once when the page is hidden, and outlives a page that ends with it', async () => {
    const browser = createTabbedBrowser();
    const { tab, source } = await openPage(browser);
    source.label('one');
    tab.hide();
    await settle();
    expect(await labels(browser)).toEqual(['one']);
    source.label('two');
    tab.hide();
    tab.kill();
    await settle();
    expect(await labels(browser)).toEqual(['two']);
  });

  it('a page that ends while a save is on its way still keeps what changed after it', async () => {
    const browser = createTabbedBrowser();
    const { tab, source, keeper } = await openPage(browser);
    source.label('one');
    await keeper.flush();
    for (const turns of [0, 1, 2, 3, 4, 6, 8]) {
      const page = turns === 0 ? { tab, source, keeper } : await openPage(browser);
      page.source.label(`sent ${turns}`);
      void page.keeper.flush();
      for (let turn = 0; turn < turns; turn++) await new Promise((resolve) => setImmediate(resolve));
      page.source.label(`last ${turns}`);
      page.tab.hide();
      page.tab.kill();
      await settle();
      expect(await labels(browser), `${turns}`).toEqual([`last ${turns}`]);
    }
  });

  it('ends with what was changed last, and not after', async () => {
    const browser = createTabbedBrowser();
    const { tab, source, keeper } = await openPage(browser);
    source.label('one');
    await keeper.close();
    expect(await labels(browser)).toEqual(['one']);
    source.label('two');
    tab.hide();
    await tab.timers.advance(10_000);
    expect(await labels(browser)).toEqual(['one']);
    await keeper.close();
  });
});

describe('what cannot be kept', () => {
  const full = { kind: 'not-saved', message: 'full' } as const;

  it('is said, tried again, and kept as soon as it can be', async () => {
    const browser = createTabbedBrowser();
    const { tab, shelf, source, keeper } = await openPage(browser);
    const save = vi.spyOn(shelf, 'save').mockResolvedValue(full);
    source.label('one');
    await tab.timers.advance(400);
    expect(keeper.state()).toEqual({ kind: 'not-kept', message: 'full' });
    // A change is not left to the next try.
    source.label('two');
    await tab.timers.advance(400);
    expect(save).toHaveBeenCalledTimes(2);
    await tab.timers.advance(5000);
    expect(save).toHaveBeenCalledTimes(3);
    save.mockRestore();
    await tab.timers.advance(5000);
    expect(keeper.state()).toEqual({ kind: 'saved', message: null });
    expect(await labels(browser)).toEqual(['two']);
  });

  it('is forgotten when it is undone to what is kept', async () => {
    const { tab, shelf, source, keeper } = await openPage(createTabbedBrowser());
    const before = source.current();
    vi.spyOn(shelf, 'save').mockResolvedValue(full);
    source.label('one');
    await tab.timers.advance(400);
    source.change(() => before);
    await tab.timers.advance(5000);
    expect(keeper.state()).toEqual({ kind: 'saved', message: null });
  });

  it('on a shelf that does not last is said from the beginning, and goes on', async () => {
    const shelf = createMemoryShelf('nothing is kept');
    const source = createSource(player);
    const tab = createTabbedBrowser().openTab();
    const keeper = createKeeper(shelf, source, { revision: 0, own: true }, { storage: undefined, ...tab });
    expect(keeper.state()).toEqual({ kind: 'not-kept', message: 'nothing is kept' });
    source.label('one');
    await tab.timers.advance(400);
    expect(keeper.state()).toEqual({ kind: 'not-kept', message: 'nothing is kept' });
    expect(await shelf.get('a')).toMatchObject({ player: { label: 'one' } });
  });
});

describe('two tabs with one player', () => {
  it('the second only shows it until it takes over, and then has the newest', async () => {
    const browser = createTabbedBrowser();
    const first = await openPage(browser);
    first.source.label('one');
    await first.tab.timers.advance(400);
    const second = await openPage(browser);
    expect(second.keeper.state()).toEqual({ kind: 'elsewhere', message: 'This player is open in another tab, so it is only shown here.' });
    first.source.label('two');
    await second.keeper.takeOver();
    expect(second.source.current().label).toBe('two');
    expect(second.keeper.state()).toEqual({ kind: 'saved', message: null });
    expect(first.keeper.state().kind).toBe('elsewhere');
    second.source.label('three');
    await second.tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['three']);
    // And back again.
    await first.keeper.takeOver();
    expect(first.source.current().label).toBe('three');
    expect(second.keeper.state().kind).toBe('elsewhere');
    first.source.label('four');
    await first.tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['four']);
  });

  it('a tab that ended holds nothing back', async () => {
    const browser = createTabbedBrowser();
    const first = await openPage(browser);
    const second = await openPage(browser);
    first.tab.kill();
    await second.keeper.takeOver();
    expect(second.keeper.state().kind).toBe('saved');
    await second.keeper.close();
    expect((await openPage(browser)).keeper.state().kind).toBe('saved');
  });

  it('a tab that does not answer, or has what it could not keep, does not let go', async () => {
    const browser = createTabbedBrowser();
    const first = await openPage(browser);
    vi.spyOn(first.shelf, 'save').mockResolvedValue({ kind: 'not-saved', message: 'full' });
    first.source.label('one');
    const second = await openPage(browser);
    const taking = second.keeper.takeOver();
    await settle();
    await second.tab.timers.advance(3000);
    await taking;
    expect(second.keeper.state()).toEqual({ kind: 'elsewhere', message: 'The other tab does not let this player go. Close that tab, then try again.' });
    expect(first.keeper.state()).toEqual({ kind: 'not-kept', message: 'full' });
  });

  it('what was changed where it was only to be looked at is kept beside the other', async () => {
    const browser = createTabbedBrowser();
    const first = await openPage(browser);
    first.source.label('one');
    await first.tab.timers.advance(400);
    const second = await openPage(browser);
    second.source.label('mine');
    first.source.label('two');
    await first.tab.timers.advance(400);
    await second.keeper.takeOver();
    expect(await labels(browser)).toEqual(['mine (copy from this tab)', 'two']);
  });

  it('what was saved between reading and holding is shown', async () => {
    const browser = createTabbedBrowser();
    const other = await openShelf(browser.openTab());
    await other.save(player, 0);
    const tab = browser.openTab();
    const shelf = await openShelf(tab);
    const source = createSource(player);
    await other.save({ ...player, label: 'newer' }, 1);
    const keeper = createKeeper(shelf, source, { revision: 1, own: true }, { storage: undefined, ...tab });
    await settle();
    expect(source.current().label).toBe('newer');
    source.label('mine');
    await keeper.flush();
    expect(await labels(browser)).toEqual(['mine']);
  });

  const withoutLocks = { locks: undefined, channel: undefined };

  it('without locks nobody saves over the other: both are kept, and each goes on with its own', async () => {
    const browser = createTabbedBrowser();
    const first = await openPage(browser, withoutLocks);
    first.source.label('one');
    await first.tab.timers.advance(400);
    const second = await openPage(browser, withoutLocks);
    first.source.label('theirs');
    await first.tab.timers.advance(400);
    second.source.label('mine');
    await second.tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['mine (copy from this tab)', 'theirs']);
    expect(second.keeper.state()).toEqual({ kind: 'saved', message: 'Another tab changed this player too, so both are kept; this one is now the copy from this tab.' });
    expect(second.source.current()).toMatchObject({ label: 'mine (copy from this tab)' });
    expect(second.source.current().id).not.toBe('a');
    second.source.change((now) => ({ ...now, label: 'mine, renamed' }));
    first.source.label('theirs, too');
    await second.tab.timers.advance(400);
    await first.tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['mine, renamed', 'theirs, too']);
  });

  it('without locks a hand that goes on while a copy is made loses nothing', async () => {
    const browser = createTabbedBrowser();
    const first = await openPage(browser, withoutLocks);
    const second = await openPage(browser, withoutLocks);
    first.source.label('theirs');
    await first.keeper.flush();
    second.source.label('mine');
    const saving = second.keeper.flush();
    second.source.change((now) => ({ ...now, instrument: 'tuba' }));
    await saving;
    await second.tab.timers.advance(400);
    expect((await (await openShelf(browser.openTab())).list()).players.map(({ label, instrument }) => `${label}: ${instrument}`).sort()).toEqual([
      'mine (copy from this tab): tuba',
      'theirs: tenor-trombone',
    ]);
  });

  it('the same change in both tabs is no conflict', async () => {
    const browser = createTabbedBrowser();
    const [first, second] = [await openPage(browser, withoutLocks), await openPage(browser, withoutLocks)];
    for (const page of [first, second]) {
      page.source.label('same');
      await page.keeper.flush();
    }
    expect(await labels(browser)).toEqual(['same']);
  });

  it('a player who was removed elsewhere while being changed here is kept again', async () => {
    const browser = createTabbedBrowser();
    const first = await openPage(browser);
    first.source.label('one');
    await first.keeper.flush();
    await (await openShelf(browser.openTab())).remove('a');
    first.source.label('two');
    await first.tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['two']);
    expect(first.keeper.state()).toMatchObject({ kind: 'saved', message: expect.stringMatching(/removed in another tab. It is kept again/) as string });
  });

  it('lives with locks and messages that throw', async () => {
    const browser = createTabbedBrowser();
    const page = await openPage(browser, {
      locks: { request: () => Promise.reject(new DOMException('no', 'SecurityError')) },
      channel: () => {
        throw new DOMException('no', 'SecurityError');
      },
    });
    page.source.label('one');
    await page.tab.timers.advance(400);
    expect(await labels(browser)).toEqual(['one']);
  });
});

describe('asking the browser to keep the store', () => {
  const storage = (persisted = false) => ({ persist: vi.fn(() => Promise.resolve(true)), persisted: vi.fn(() => Promise.resolve(persisted)) });

  it('comes once, with the first change of an own player', async () => {
    const browser = createTabbedBrowser();
    const asked = storage();
    const page = await openPage(browser, { storage: asked });
    await page.tab.timers.advance(1000);
    expect(asked.persist).not.toHaveBeenCalled();
    for (const label of ['one', 'two']) {
      page.source.label(label);
      await page.tab.timers.advance(400);
    }
    expect(asked.persist).toHaveBeenCalledTimes(1);
    await page.keeper.close();
    const later = await openPage(browser, { storage: asked });
    later.source.label('three');
    await later.tab.timers.advance(400);
    expect(asked.persist).toHaveBeenCalledTimes(1);
  });

  it('does not come for invented players, nor where it is promised already, and may fail', async () => {
    const pages = [
      [storage(), { own: false }],
      [storage(true), {}],
    ] as const;
    for (const [asked, start] of pages) {
      const page = await openPage(createTabbedBrowser(), { storage: asked }, start);
      page.source.label('one');
      await page.tab.timers.advance(400);
      expect(asked.persist).not.toHaveBeenCalled();
    }
    const failing = { persist: () => Promise.reject(new Error('no')), persisted: () => Promise.resolve(false) };
    const page = await openPage(createTabbedBrowser(), { storage: failing });
    page.source.label('one');
    await page.tab.timers.advance(400);
    expect(page.keeper.state().kind).toBe('saved');
  });
});
