/** A tab that ends without a word at any moment of a lesson: at most the last half second is lost, and the next page opens. */
import { expect, it } from 'vitest';
import type { PlayerSpec } from '../../src/core/specs';
import { createKeeper } from '../../src/records/keeper';
import { openShelf } from '../../src/records/shelf';
import { createSource } from '../support/keptSource';
import { fullPlayer } from '../support/records';
import { longer, propertySeed, seedWords } from '../support/seed';
import { createTabbedBrowser, settle } from '../support/tabs';

const KILLS = longer(200);
/** What may be lost, in ms before the end. */
const LOST_MS = 500;
/** How long the store may take over a save; ms. */
const STORE_MS = 100;

/** A small generator for the moments; its quality does not matter, that it can be repeated does. */
function createChance(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

const withCount = (player: PlayerSpec, count: number): PlayerSpec => ({
  ...player,
  lessons: player.lessons.map((lesson, index) => (index === 0 ? { ...lesson, remark: `change ${count}` } : lesson)),
});
const countOf = (player: PlayerSpec): number => Number(/^change (\d+)$/.exec(player.lessons[0]?.remark ?? '')?.[1] ?? 0);

it(`${KILLS} tabs killed while a player is changed ${seedWords}`, { timeout: 1000 * KILLS }, async () => {
  const chance = createChance(propertySeed);
  const browser = createTabbedBrowser();
  await (await openShelf(browser.openTab())).save({ ...fullPlayer(), id: 'a' }, 0);
  let count = 0;
  let midway = 0;
  let losses = 0;
  for (let kill = 0; kill < KILLS; kill++) {
    const tab = browser.openTab();
    const shelf = await openShelf(tab);
    const got = await shelf.get('a');
    if (got.kind !== 'player') throw new Error(`kill ${kill}: ${got.kind}`);
    const source = createSource(got.player);
    createKeeper(shelf, source, { revision: got.revision, own: false }, { storage: undefined, ...tab });
    await settle();
    const start = countOf(got.player);

    /** The changes of this session, and when each was let go. */
    const changes: { readonly count: number; letGo: number }[] = [];
    const steps = 1 + chance(12);
    for (let step = 0; step < steps; step++) {
      const isLast = step === steps - 1;
      if (chance(4) === 0) {
        const drags = !source.isDragging();
        source.drag(drags);
        if (!drags) for (const change of changes) change.letGo = Math.min(change.letGo, tab.now());
      }
      if (chance(3) > 0) {
        count++;
        source.change((player) => withCount(player, count));
        changes.push({ count, letGo: source.isDragging() ? Number.POSITIVE_INFINITY : tab.now() });
      }
      // Hidden now and then, and often in the midst of a save: some saves fall due at 400 ms.
      if (chance(15) === 0) tab.hide();
      const ms = chance(2) === 0 ? 400 : chance(700);
      const lastMs = isLast ? Math.min(ms, chance(STORE_MS)) : 0;
      await tab.timers.advance(ms - lastMs);
      // The store is in the midst of what was begun in these last milliseconds.
      if (isLast) await tab.timers.advance(lastMs, chance(8));
    }
    const end = tab.now();
    midway += tab.kill() > 0 ? 1 : 0;
    await settle();

    const next = await openShelf(browser.openTab());
    expect(next.lasting).toBe(true);
    const { players, damaged } = await next.all();
    expect(damaged).toEqual([]);
    expect(players).toHaveLength(1);
    const keptCount = countOf(players[0]!.player);
    const due = changes.filter(({ letGo }) => letGo <= end - LOST_MS).map((change) => change.count);
    expect(keptCount, `kill ${kill} at ${end} ms`).toBeGreaterThanOrEqual(Math.max(start, ...due));
    expect([start, ...changes.map((change) => change.count)], `kill ${kill}`).toContain(keptCount);
    if (keptCount < count && changes.length > 0) losses++;
    next.close();
  }
  // Otherwise the moments were too kind to say anything.
  expect(midway).toBeGreaterThan(KILLS / 50);
  expect(losses).toBeGreaterThan(KILLS / 10);
});
