/** What the readings say is asked for at rest, shown while no hand is on the rim, and never of a record that is gone. */
import { describe, expect, it } from 'vitest';
import { createFindingsKeeper } from '../../../src/app/findingsKeeper';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { createAppStore } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import type { Finding, OwnShape } from '../../../src/core/findings/findings';
import type { Said } from '../../../src/core/findings/said';
import { createLive } from '../../../src/core/live';
import type { PlayerRecord } from '../../../src/core/specs';
import { demoPlayers, openedOf } from '../../support/demos';

const CANNOT: Finding<OwnShape> = { kind: 'cannot-tell', reason: 'too-few-notes', needs: [] };
const missing = { kind: 'cannot-tell' as const, reason: 'too-few-notes' as const, needs: [] };

/** Stands for findings: only whose they are matters here. */
const saidOf = (record: PlayerRecord): Said => ({
  findings: { travel: [], airstream: missing, follow: { elevation: missing, lateral: missing } },
  ways: record.readings.map(() => ({ notes: [], along: null })),
  local: missing,
});

/** A keeper whose delays come, and whose work is done, when the test says so. */
function keep() {
  const record = { ...demoPlayers[0]!.record, readings: demoPlayers[0]!.record.readings.slice(2, 5) };
  const store = createAppStore({ analyse, createLive }, openedOf(record), DEFAULT_SETTINGS);
  const due: (() => void)[] = [];
  const asked: { readonly record: PlayerRecord; answer(): void; fail(error: Error): void }[] = [];
  const counts = { cancelled: 0, disposed: 0, told: 0 };
  const shapes: { finish(own: Finding<OwnShape>): void; fail(error: unknown): void; onPart(part: number): void }[] = [];
  const keeper = createFindingsKeeper(
    store,
    (run) => {
      due.push(run);
      return () => void due.splice(due.indexOf(run), 1);
    },
    {
      say: (one) =>
        new Promise((done, failed) => {
          asked.push({ record: one, answer: () => done(saidOf(one)), fail: failed });
        }),
      ownShape: (_one, onPart) => {
        let settle: Pick<(typeof shapes)[number], 'finish' | 'fail'>;
        const answer = new Promise<Finding<OwnShape>>((finish, fail) => (settle = { finish, fail }));
        shapes.push({ ...settle!, onPart });
        return { answer, cancel: () => void counts.cancelled++ };
      },
      dispose: () => void counts.disposed++,
    },
  );
  keeper.subscribe(() => void counts.told++);
  const settled = (): Promise<void> => new Promise((done) => setTimeout(done, 0));
  return {
    store,
    keeper,
    due,
    asked,
    counts,
    shapes,
    settled,
    runDue: () => due.splice(0).forEach((run) => run()),
    answerAll: async () => {
      for (let turn = 0; turn < 10; turn++) {
        asked.splice(0).forEach((one) => one.answer());
        await settled();
      }
    },
    move: (upMm: number) => store.getState().moveRim({ upMm, rightMm: 0.2 }, null),
  };
}

describe('what the readings say', () => {
  it('is asked for when the record has been at rest, and comes with the lessons', async () => {
    const { store, keeper, asked, runDue, answerAll } = keep();
    expect([asked.length, keeper.current().said]).toEqual([0, null]);
    runDue();
    expect(asked.map(({ record }) => record)).toEqual([store.getState().record]);
    await answerAll();
    expect(keeper.current().record).toBe(store.getState().record);
    expect(keeper.current().said?.ways.length).toBe(3);
    expect(keeper.current().progress?.length).toBe(1);
  });

  it('of many changes only the last is asked about', async () => {
    const { store, keeper, asked, move, runDue, answerAll } = keep();
    for (const upMm of [0.5, 0.6, 0.7]) move(upMm);
    runDue();
    expect(asked.length).toBe(1);
    await answerAll();
    expect(keeper.current().record).toBe(store.getState().record);
  });

  it('an answer about a record that is gone is not shown', async () => {
    const { keeper, move, runDue, answerAll } = keep();
    runDue();
    move(0.6);
    await answerAll();
    expect(keeper.current().said).toBeNull();
    runDue();
    await answerAll();
    expect(keeper.current().said).not.toBeNull();
  });

  it('nothing is asked or shown while a hand is on the rim', async () => {
    const { store, keeper, asked, due, counts, runDue, answerAll } = keep();
    runDue();
    store.getState().drag(true);
    await answerAll();
    expect([keeper.current().said, counts.told]).toEqual([null, 0]);
    for (let step = 1; step <= 3; step++) store.getState().tryTravel({ upMm: 0.5 + step / 10, rightMm: 0.2 }, 'drag');
    expect([asked.length, due.length]).toEqual([0, 0]);
    store.getState().drag(false);
    store.getState().settle();
    expect(keeper.current().said).not.toBeNull();
    expect(keeper.current().record).not.toBe(store.getState().record);
    runDue();
    await answerAll();
    expect(keeper.current().record).toBe(store.getState().record);
  });

  it('a choice of another note or setting asks nothing', async () => {
    const { store, due, runDue, answerAll } = keep();
    runDue();
    await answerAll();
    store.getState().select(2);
    store.getState().set({ unit: 'rim widths' });
    expect(due.length).toBe(0);
  });

  it('another lesson is asked about, one that has not changed is not asked about again', async () => {
    const { store, keeper, asked, runDue, answerAll } = keep();
    runDue();
    await answerAll();
    store.getState().changePlayer((player) => ({ ...player, lessons: [{ ...player.lessons[0]!, id: 'lesson-0', readings: [] }, ...player.lessons] }));
    runDue();
    await new Promise((done) => setTimeout(done, 0));
    expect(asked.map(({ record }) => record.readings.length)).toEqual([0]);
    await answerAll();
    expect(keeper.current().progress?.map(({ id }) => id)).toEqual(['lesson-0', 'lesson-1']);
  });

  it('a lesson of which nothing can be worked out leaves a gap', async () => {
    const { store, keeper, asked, runDue, answerAll, settled } = keep();
    store.getState().changePlayer((player) => ({ ...player, lessons: [{ ...player.lessons[0]!, id: 'lesson-0', readings: [] }, ...player.lessons] }));
    runDue();
    asked.splice(0).forEach((one) => one.answer());
    await settled();
    asked.splice(0).forEach((one) => one.fail(new Error('no home')));
    await answerAll();
    expect(keeper.current().said).not.toBeNull();
    expect(keeper.current().progress?.length).toBe(2);
  });

  it('says why where the present record fails', async () => {
    const { keeper, asked, runDue, settled } = keep();
    runDue();
    asked.splice(0).forEach((one) => one.fail(new Error('no seat')));
    await settled();
    expect(keeper.current().failure).toBe('This could not be worked out: no seat.');
    expect(keeper.current().said).toBeNull();
  });

  it('nothing is asked or shown after it was disposed of', async () => {
    const { keeper, asked, counts, move, runDue, answerAll } = keep();
    runDue();
    keeper.dispose();
    move(0.9);
    runDue();
    await answerAll();
    expect([asked.length, counts.told, counts.disposed, keeper.current().said]).toEqual([0, 0, 1, null]);
  });
});

describe('the own shape', () => {
  it('is worked out when asked for, with its progress, and is behind when the record changes', async () => {
    const { keeper, shapes, move, runDue } = keep();
    expect(keeper.current().own).toEqual({ kind: 'not-asked' });
    keeper.askOwnShape();
    keeper.askOwnShape();
    expect(shapes.length).toBe(1);
    shapes[0]!.onPart(0.4);
    expect(keeper.current().own).toEqual({ kind: 'working', part: 0.4 });
    shapes[0]!.finish(CANNOT);
    await Promise.resolve();
    expect(keeper.current().own).toEqual({ kind: 'done', own: CANNOT, behind: false });
    move(0.8);
    runDue();
    expect(keeper.current().own).toEqual({ kind: 'done', own: CANNOT, behind: true });
  });

  it('a record that changes meanwhile leaves the answer behind', async () => {
    const { keeper, shapes, move } = keep();
    keeper.askOwnShape();
    move(0.8);
    shapes[0]!.finish(CANNOT);
    await Promise.resolve();
    expect(keeper.current().own).toEqual({ kind: 'done', own: CANNOT, behind: true });
  });

  it('can be called off, and what comes after that is not heard', async () => {
    const { keeper, shapes, counts } = keep();
    keeper.askOwnShape();
    keeper.cancelOwnShape();
    expect(counts.cancelled).toBe(1);
    shapes[0]!.onPart(0.9);
    shapes[0]!.finish(CANNOT);
    await Promise.resolve();
    expect(keeper.current().own).toEqual({ kind: 'not-asked' });
  });

  it('says why it failed', async () => {
    const { keeper, shapes } = keep();
    keeper.askOwnShape();
    shapes[0]!.fail(new Error('no worker'));
    await Promise.resolve();
    await Promise.resolve();
    expect(keeper.current().own).toEqual({ kind: 'failed', words: 'This could not be worked out: no worker.' });
  });

  it('goes with the player it was of', async () => {
    const { store, keeper, shapes, counts } = keep();
    keeper.askOwnShape();
    shapes[0]!.finish(CANNOT);
    await Promise.resolve();
    const { player, lessonId } = openedOf(demoPlayers[1]!.record);
    store.getState().open({ player: { ...player, id: 'player-2' }, lessonId });
    expect(keeper.current().own).toEqual({ kind: 'not-asked' });
    expect(counts.cancelled).toBe(1);
  });
});
