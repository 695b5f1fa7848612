/** The kept players are looked at when it is asked for, one after the other, never while a hand is on the rim, and none of them twice. */
import { describe, expect, it } from 'vitest';
import { createCrossKeeper } from '../../../src/app/crossKeeper';
import type { Later } from '../../../src/app/idle';
import type { AppState } from '../../../src/app/store';
import type { Said } from '../../../src/core/findings/said';
import type { PlayerRecord, PlayerSpec } from '../../../src/core/specs';
import type { CrossState } from '../../../src/notebook/says/props';
import { createMemoryShelf } from '../../../src/records/shelf';
import { demoPlayers, openedOf } from '../../support/demos';

const missing = { kind: 'cannot-tell' as const, reason: 'too-few-notes' as const, needs: [] };

/** Stands for findings: here it only matters that they reach the table. */
const SAID: Said = {
  findings: {
    travel: [],
    airstream: {
      kind: 'told',
      evidence: { notes: 1, readings: 1 },
      seen: [{ note: 'C4', midi: 60, direction: null, down: 1, up: 0, unsure: 0 }],
      changes: [],
      both: [],
      nearHalf: [],
      usualNearHalf: null,
    },
    follow: { elevation: missing, lateral: missing },
  },
  ways: [],
  local: missing,
};

const playerOf = (id: string): PlayerSpec => ({ ...openedOf(demoPlayers[0]!.record).player, id, label: id.toUpperCase() });

/** A keeper over players kept in memory, whose answers come when the test says so. */
async function keep(ids: readonly string[]) {
  const shelf = createMemoryShelf();
  for (const id of ids) await shelf.save(playerOf(id), 0);
  let dragging = false;
  const onHand = new Set<(state: AppState) => void>();
  const onKept = new Set<() => void>();
  const state = (): AppState => ({ dragging }) as AppState;
  const asked: { readonly label: string; answer(): void; fail(error: Error): void }[] = [];
  const due: (() => void)[] = [];
  const counts = { settled: 0, read: 0 };
  const later: Later = (run) => {
    due.push(run);
    return () => void due.splice(due.indexOf(run), 1);
  };
  const keeper = createCrossKeeper(
    {
      getState: state,
      subscribe: (listener) => {
        const hear = (): void => listener(state(), state());
        onHand.add(hear);
        return () => onHand.delete(hear);
      },
    },
    {
      settle: () => {
        counts.settled++;
        return Promise.resolve();
      },
      all: () => {
        counts.read++;
        return shelf.all();
      },
      subscribe: (listener) => {
        onKept.add(listener);
        return () => onKept.delete(listener);
      },
    },
    (record: PlayerRecord) =>
      new Promise((done, fail) => asked.push({ label: record.player.label, answer: () => done(SAID), fail })),
    later,
  );
  const shown: CrossState[] = [];
  keeper.subscribe(() => void shown.push(keeper.current()));
  const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 0));
  return {
    shelf,
    keeper,
    asked,
    due,
    counts,
    shown,
    settled,
    drag: (on: boolean) => {
      dragging = on;
      for (const hear of [...onHand]) hear(state());
    },
    keptChanged: async () => {
      for (const listener of onKept) listener();
      due.splice(0).forEach((run) => run());
      await settled();
    },
    /** Answers until nothing more is asked; whose they were. */
    answerAll: async (): Promise<string[]> => {
      const labels: string[] = [];
      await settled();
      while (asked.length > 0) {
        const one = asked.shift()!;
        labels.push(one.label);
        one.answer();
        await settled();
      }
      return labels;
    },
  };
}

const done = (state: CrossState): Extract<CrossState, { kind: 'done' }> => {
  if (state.kind !== 'done') throw new Error(`not done: ${JSON.stringify(state)}`);
  return state;
};

describe('the kept players side by side', () => {
  it('are not even read before it is asked for', async () => {
    const { keeper, counts, asked, settled } = await keep(['a', 'b']);
    await settled();
    expect([keeper.current(), counts.read, counts.settled, asked.length]).toEqual([{ kind: 'not-asked' }, 0, 0, 0]);
  });

  it('are looked at one after the other, with how many are done', async () => {
    const { keeper, asked, counts, shown, settled, answerAll } = await keep(['a', 'b', 'c']);
    keeper.look();
    keeper.look();
    await settled();
    expect([asked.map(({ label }) => label), counts.settled]).toEqual([['A'], 1]);
    expect(await answerAll()).toEqual(['A', 'B', 'C']);
    expect(shown.map((one) => (one.kind === 'working' ? [one.done, one.of] : one.kind))).toEqual([[0, null], [0, 3], [1, 3], [2, 3], 'done']);
    expect(done(keeper.current())).toMatchObject({ kept: 3, leftOut: [], unreadable: 0, behind: false });
    expect(done(keeper.current()).players.map(({ id, air, way }) => [id, air, way])).toEqual([['a', 'down', null], ['b', 'down', null], ['c', 'down', null]]);
  });

  it('one that cannot be worked out is named and does not stop the others', async () => {
    const { keeper, asked, settled, answerAll } = await keep(['a', 'b', 'c']);
    keeper.look();
    await settled();
    asked.shift()!.answer();
    await settled();
    asked.shift()!.fail(new Error('home has no seat'));
    await answerAll();
    const { players, leftOut } = done(keeper.current());
    expect(players.map(({ id }) => id)).toEqual(['a', 'c']);
    expect(leftOut).toEqual([{ id: 'b', label: 'B', words: 'home has no seat' }]);
  });

  it('one that has not changed is not looked at again; one that failed is', async () => {
    const { shelf, keeper, asked, settled, answerAll } = await keep(['a', 'b', 'c']);
    keeper.look();
    await settled();
    asked.shift()!.fail(new Error('no worker'));
    await answerAll();
    await shelf.save({ ...playerOf('b'), label: 'B2' }, 1);
    keeper.look();
    expect(await answerAll()).toEqual(['A', 'B2']);
    expect(done(keeper.current()).players.map(({ label }) => label)).toEqual(['A', 'B2', 'C']);
  });

  it('fewer than two are not looked at', async () => {
    const { keeper, answerAll } = await keep(['a']);
    keeper.look();
    expect(await answerAll()).toEqual([]);
    expect(done(keeper.current())).toMatchObject({ kept: 1, players: [] });
  });

  it('what was seen before it was called off is remembered, and what comes after is not shown', async () => {
    const { keeper, asked, settled, answerAll } = await keep(['a', 'b']);
    keeper.look();
    await settled();
    asked.shift()!.answer();
    await settled();
    keeper.cancel();
    expect(keeper.current()).toEqual({ kind: 'not-asked' });
    await answerAll();
    expect(keeper.current()).toEqual({ kind: 'not-asked' });
    keeper.look();
    expect(await answerAll()).toEqual([]);
    expect(done(keeper.current()).players.length).toBe(2);
  });

  it('wait while a hand is on the rim', async () => {
    const { keeper, asked, shown, settled, drag, answerAll } = await keep(['a', 'b']);
    keeper.look();
    await settled();
    drag(true);
    const before = shown.length;
    asked.shift()!.answer();
    await settled();
    expect([asked.length, shown.length]).toEqual([0, before]);
    drag(false);
    expect(await answerAll()).toEqual(['B']);
    expect(done(keeper.current()).players.length).toBe(2);
  });

  it('are behind once another is kept, changed or deleted, and not because of anything else', async () => {
    const { shelf, keeper, keptChanged, answerAll } = await keep(['a', 'b']);
    keeper.look();
    await answerAll();
    await keptChanged();
    expect(done(keeper.current()).behind).toBe(false);
    await shelf.remove('b');
    await keptChanged();
    expect(done(keeper.current()).behind).toBe(true);
    keeper.look();
    await answerAll();
    expect(done(keeper.current()).behind).toBe(false);
    await shelf.save({ ...playerOf('a'), label: 'other' }, 1);
    await keptChanged();
    expect(done(keeper.current()).behind).toBe(true);
  });

  it('a change during a drag is noticed once the hand has let go', async () => {
    const { shelf, keeper, due, drag, keptChanged, settled, answerAll } = await keep(['a', 'b']);
    keeper.look();
    await answerAll();
    drag(true);
    await shelf.save(playerOf('c'), 0);
    await keptChanged();
    expect([due.length, done(keeper.current()).behind]).toEqual([0, false]);
    drag(false);
    due.splice(0).forEach((run) => run());
    await settled();
    expect(done(keeper.current()).behind).toBe(true);
  });

  it('say why where the shelf cannot be read', async () => {
    const { shelf, keeper, settled } = await keep(['a', 'b']);
    shelf.all = () => Promise.resolve({ players: [], damaged: [], message: 'the store is locked' });
    keeper.look();
    await settled();
    expect(keeper.current()).toEqual({ kind: 'failed', words: 'The kept players could not be looked at: the store is locked' });
  });

  it('nothing is asked or shown after it was disposed of', async () => {
    const { keeper, asked, shown, settled } = await keep(['a', 'b']);
    keeper.look();
    await settled();
    const before = shown.length;
    keeper.dispose();
    asked.shift()!.answer();
    await settled();
    expect([asked.length, shown.length]).toEqual([0, before]);
  });
});
