/** Who is on the page and who is kept: opening, starting, deleting, putting back, and two tabs on one player. */
import { describe, expect, it } from 'vitest';
import { type Records, createRecords, firstDemo, inventedCopy } from '../../../src/app/records';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { type AppStore, createAppStore } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import type { PlayerSpec } from '../../../src/core/specs';
import { createMemoryShelf } from '../../../src/records/shelf';
import type { Shelf } from '../../../src/records/shelfTypes';

const TODAY = '2026-05-04';

interface Tab {
  readonly store: AppStore;
  readonly records: Records;
}

function tabOn(shelf: Shelf, player: PlayerSpec, revision = 0, locks?: LockManager): Tab {
  let next = 0;
  const lessonId = player.lessons.at(-1)!.id;
  const store = createAppStore({ analyse, createLive }, { player, lessonId }, DEFAULT_SETTINGS);
  const records = createRecords(store, shelf, { revision, own: true }, {
    idOf: () => `id-${(next += 1)}-${Math.random().toString(36).slice(2)}`,
    today: () => TODAY,
    keeper: { locks, channel: undefined, storage: undefined, onHide: () => () => undefined },
  });
  return { store, records };
}

const demo = (): PlayerSpec => inventedCopy(firstDemo(), () => 'copy');
const relabel = ({ store }: Tab, label: string): void =>
  store.getState().change((now) => ({ ...now, player: { ...now.player, label } }));
const labels = async (shelf: Shelf): Promise<string[]> => (await shelf.list()).players.map(({ label }) => label).sort();

describe('who is kept', () => {
  it('an invented player only once something of it is changed', async () => {
    const shelf = createMemoryShelf();
    const tab = tabOn(shelf, demo());
    await tab.records.settle();
    expect(await labels(shelf)).toEqual([]);
    relabel(tab, 'M. K.');
    await tab.records.settle();
    expect(await labels(shelf)).toEqual(['M. K.']);
    expect(tab.records.current().players).toMatchObject([{ id: 'copy', label: 'M. K.', instrumentName: 'Trumpet in B flat', lessons: 3, lastDate: '2026-04-20' }]);
  });

  it('the player that is left is kept with its last change, and opening it again shows it', async () => {
    const shelf = createMemoryShelf();
    const tab = tabOn(shelf, demo());
    relabel(tab, 'first');
    await tab.records.startOwn();
    expect(tab.store.getState().player).toMatchObject({ label: 'New player', lessons: [{ date: TODAY }] });
    expect(tab.store.getState().history.past).toEqual([]);
    await tab.records.settle();
    await new Promise((done) => setTimeout(done, 20));
    expect(await labels(shelf)).toEqual(['first']);
    await tab.records.open('copy');
    expect(tab.store.getState().player.label).toBe('first');
  });

  it('an invented player is opened under a name of its own, so that it can be opened anew', async () => {
    const tab = tabOn(createMemoryShelf(), demo());
    await tab.records.openInvented('pulls-down');
    const first = tab.store.getState().player.id;
    await tab.records.openInvented('pulls-down');
    expect(tab.store.getState().player.id).not.toBe(first);
    expect(tab.store.getState().player.instrument).toBe('tenor-trombone');
  });
});

describe('deleting', () => {
  it('the player on the page shows the next one, and putting back brings it back as it was', async () => {
    const shelf = createMemoryShelf();
    await shelf.save({ ...demo(), id: 'other', label: 'other' }, 0);
    const tab = tabOn(shelf, demo());
    relabel(tab, 'goes');
    await tab.records.settle();
    const gone: string[] = [];
    tab.records.onRemoved(({ label }) => gone.push(label));
    await tab.records.remove('copy');
    expect(gone).toEqual(['goes']);
    expect(await labels(shelf)).toEqual(['other']);
    expect(tab.store.getState().player.id).toBe('other');
    expect(tab.records.current().deleted).toEqual([{ id: 'copy', label: 'goes' }]);
    await tab.records.putBack('copy');
    expect(await labels(shelf)).toEqual(['goes', 'other']);
    expect(tab.records.current().deleted).toEqual([]);
  });

  it('the last one leaves an invented player on the page, which is not kept', async () => {
    const shelf = createMemoryShelf();
    const tab = tabOn(shelf, demo());
    relabel(tab, 'only');
    await tab.records.settle();
    await tab.records.remove('copy');
    await tab.records.settle();
    expect(await labels(shelf)).toEqual([]);
    expect(tab.store.getState().player.label).toBe(demo().label);
  });
});

describe('a player taken in over the one on the page', () => {
  it('is held by this tab again, not thought to be open in another', async () => {
    const held = new Set<string>();
    const locks = {
      request: async (name: string, options: { ifAvailable?: boolean }, work: (lock: object | null) => Promise<unknown>) => {
        if (held.has(name) && options.ifAvailable === true) return work(null);
        held.add(name);
        return work({ name }).finally(() => held.delete(name));
      },
    } as unknown as LockManager;
    const shelf = createMemoryShelf();
    await shelf.save(demo(), 0);
    const tab = tabOn(shelf, demo(), 1, locks);
    await tab.records.settle();
    const taken = { ...demo(), label: 'from a file' };
    await shelf.save(taken, 1);
    await tab.records.show(taken, 2, true);
    await tab.records.settle();
    expect(tab.records.current().keeping.state).toBe('kept');
    expect(tab.store.getState().locked).toBe(false);
    relabel(tab, 'changed');
    await tab.records.settle();
    expect(await labels(shelf)).toEqual(['changed']);
  });
});

describe('while a hand drags', () => {
  it('what is saved is told when it lets go, not before', async () => {
    const shelf = createMemoryShelf();
    const tab = tabOn(shelf, demo());
    await tab.records.settle();
    tab.store.getState().drag(true);
    relabel(tab, 'dragged');
    let told = 0;
    tab.records.subscribe(() => (told += 1));
    await new Promise((done) => setTimeout(done, 2300));
    expect(await labels(shelf)).toEqual(['dragged']);
    expect(told).toBe(0);
    tab.store.getState().drag(false);
    await tab.records.settle();
    expect(tab.records.current().players.map(({ label }) => label)).toEqual(['dragged']);
  });
});

describe('nothing is lost', () => {
  it('a player whose last changes the store does not take stays on the page until the reader, having been told, chooses once more', async () => {
    const shelf = { ...createMemoryShelf(), lasting: true };
    await shelf.save({ ...demo(), id: 'other' }, 0);
    const full = { ...shelf, save: () => Promise.resolve({ kind: 'not-saved' as const, message: 'full' }) };
    const tab = tabOn(full, demo());
    relabel(tab, 'only here');
    await tab.records.open('other');
    expect(tab.store.getState().player.label).toBe('only here');
    expect(tab.store.getState().notice).toBe('full Save this player as a file first; to leave it all the same, choose once more.');
    relabel(tab, 'still only here');
    await tab.records.startOwn();
    expect(tab.store.getState().player.label).toBe('still only here');
    await tab.records.open('other');
    expect(tab.store.getState().player.id).toBe('other');
  });

  it('another language waits where the page keeps nothing, until the reader, having been told, chooses once more', async () => {
    const nowhere = tabOn(createMemoryShelf(), demo());
    relabel(nowhere, 'M. K.');
    expect(await nowhere.records.mayRestart()).toBe(false);
    expect(nowhere.store.getState().notice).toMatch(/^In another language the page begins anew, .+ choose once more\.$/);
    expect(await nowhere.records.mayRestart()).toBe(true);

    const kept = tabOn({ ...createMemoryShelf(), lasting: true }, demo());
    relabel(kept, 'M. K.');
    expect(await kept.records.mayRestart()).toBe(true);
    expect(await labels(kept.records.shelf)).toEqual(['M. K.']);
  });

  it('deleted, taken in again and deleted once more, both can be put back', async () => {
    const shelf = createMemoryShelf();
    await shelf.save({ ...demo(), id: 'twice', label: 'first' }, 0);
    const tab = tabOn(shelf, demo());
    await tab.records.settle();
    await tab.records.remove('twice');
    await shelf.save({ ...demo(), id: 'twice', label: 'from a file' }, 0);
    await tab.records.settle();
    await tab.records.remove('twice');
    for (const { id } of tab.records.current().deleted) await tab.records.putBack(id);
    expect(await labels(shelf)).toEqual(['first', 'from a file']);
    expect(tab.records.current().deleted).toEqual([]);
  });
});

describe('lessons', () => {
  it('a new one starts from the last one with nothing seen, is looked at, and one undo takes it away again', () => {
    const tab = tabOn(createMemoryShelf(), demo());
    tab.records.newLesson();
    const { lesson, record, player } = tab.store.getState();
    expect(player.lessons).toHaveLength(4);
    expect(lesson.date).toBe(TODAY);
    expect(record.readings.every(({ travel, horn }) => travel === undefined && horn === undefined)).toBe(true);
    expect(record.rim).toEqual(player.lessons[2]!.rim);
    tab.store.getState().undo();
    expect(tab.store.getState().player.lessons).toHaveLength(3);
    expect(tab.store.getState().lesson.id).toBe(demo().lessons[2]!.id);
  });
});

describe('the end of what a record holds', () => {
  it('there is no lesson after the two hundredth', () => {
    const [first] = demo().lessons;
    const lessons = Array.from({ length: 199 }, (_, index) => ({ ...first!, id: `lesson-${index}`, tryOuts: [] }));
    const tab = tabOn(createMemoryShelf(), { ...demo(), lessons });
    tab.records.newLesson();
    tab.records.newLesson();
    expect(tab.store.getState().player.lessons).toHaveLength(200);
  });

  it('no key and no hand moves the rim out of it, at a note and at home', () => {
    const { store } = tabOn(createMemoryShelf(), demo());
    const { moveNote, moveRim, tryTravel, select } = store.getState();
    const last = store.getState().record.readings.length - 1;
    moveNote(last, { upMm: 59, rightMm: 0 }, null);
    const { record } = store.getState();
    expect(record.readings[last]?.travel?.upMm).toBe(59);
    moveNote(last, { upMm: 61, rightMm: 0 }, null);
    select(last);
    expect(tryTravel({ upMm: 0, rightMm: -61 }, 'drag')).toBe(false);
    moveRim({ upMm: 0, rightMm: 61 }, null);
    select(record.readings.findIndex(({ note }) => note === record.home?.note));
    moveRim({ upMm: 75, rightMm: 0 }, null);
    expect(store.getState().record).toBe(record);
  });
});

describe('two tabs on one player where the browser has no locks', () => {
  it('both changes are kept: the second goes on as a copy with its undo', async () => {
    const shelf = createMemoryShelf();
    await shelf.save(demo(), 0);
    const one = tabOn(shelf, demo(), 1);
    const two = tabOn(shelf, demo(), 1);
    relabel(one, 'one');
    await one.records.settle();
    relabel(two, 'two');
    await two.records.settle();
    expect(await labels(shelf)).toEqual(['one', 'two (copy from this tab)']);
    expect(two.store.getState().player.id).not.toBe('copy');
    const copyId = two.store.getState().player.id;
    two.store.getState().undo();
    await two.records.settle();
    expect(two.store.getState().player.id).toBe(copyId);
    expect(await labels(shelf)).toEqual([demo().label, 'one'].sort());
  });
});

describe('a player that another tab has', () => {
  it('is only shown: nothing changes it, drags it or undoes it', () => {
    const { store } = tabOn(createMemoryShelf(), demo());
    store.getState().change((now) => ({ ...now, force: { newtons: 30 } }));
    store.getState().lock(true);
    const { record } = store.getState();
    store.getState().change((now) => ({ ...now, force: { newtons: 40 } }));
    store.getState().changePlayer((player) => ({ ...player, label: 'x' }));
    store.getState().undo();
    expect(store.getState().tryTravel({ upMm: 1, rightMm: 1 }, 'drag')).toBe(false);
    expect(store.getState().record).toBe(record);
    store.getState().lock(false);
    store.getState().undo();
    expect(store.getState().record.force.newtons).toBe(20);
  });
});
