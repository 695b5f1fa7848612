/** A shared picture on the page: what it leaves untouched, and the ways to and from it. */
import { describe, expect, it } from 'vitest';
import { type Guest, createGuest, guestStart, named } from '../../../src/app/guest';
import { settingsOf, viewOf } from '../../../src/app/pictureView';
import { type Records, createRecords, firstDemo, inventedCopy } from '../../../src/app/records';
import { DEFAULT_SETTINGS } from '../../../src/app/settings';
import { type AppStore, createAppStore } from '../../../src/app/store';
import { analyse } from '../../../src/core/analyse';
import { createLive } from '../../../src/core/live';
import type { PlayerSpec } from '../../../src/core/specs';
import { demoPlayers } from '../../../src/records/library';
import { createMemoryShelf } from '../../../src/records/shelf';
import type { Shelf } from '../../../src/records/shelfTypes';
import { type SharedPicture, parsePictureText, pictureOf, pictureText } from '../../../src/records/sharedPicture';
import { UNTICKED, VIEW } from '../../support/sharedPictures';

interface Tab {
  readonly store: AppStore;
  readonly records: Records;
  readonly guest: Guest;
  readonly forgotten: () => number;
}

const OWN: PlayerSpec = { ...inventedCopy(firstDemo(), () => 'own'), label: 'M. K.' };

/** `opened`: the page began with the picture on it. */
async function tabWith(shelf: Shelf, opened: SharedPicture | null = null): Promise<Tab> {
  const saved = await shelf.save(OWN, 0);
  const revision = saved.kind === 'saved' ? saved.revision : 0;
  const settings = { ...DEFAULT_SETTINGS, camera: 'above' as const, theme: 'projector' as const };
  const place = { player: OWN, lessonId: OWN.lessons[0]!.id, settings, selected: 2 };
  const start = opened === null ? place : guestStart(opened, settings);
  const store = createAppStore({ analyse, createLive }, start, start.settings, start.selected);
  const records = createRecords(store, shelf, opened === null ? { revision, own: true } : { revision: 0, own: false, guest: true }, {
    keeper: { locks: undefined, channel: undefined, storage: undefined, onHide: () => () => undefined },
  });
  let forgotten = 0;
  const guest = createGuest(store, records, { picture: opened, from: 'link', refused: null, place: { ...place, own: true } }, () => void (forgotten += 1));
  await records.settle();
  return { store, records, guest, forgotten: () => forgotten };
}

function picture(): SharedPicture {
  const demo = demoPlayers[1]!.player;
  const parsed = parsePictureText(pictureText(pictureOf(demo, '', { ...VIEW, camera: 'side', horn: 'held', selected: 3 }, UNTICKED)));
  if (parsed.kind !== 'picture') throw new Error(parsed.message);
  return { ...parsed.picture, player: named(parsed.picture.player) };
}

const shelved = async (shelf: Shelf): Promise<string> => JSON.stringify((await shelf.all()).players);
const retravel = ({ store }: Tab): void => store.getState().moveNote(0, { upMm: 0.7, rightMm: 0.2 }, null);

describe('a shared picture', () => {
  it('is shown as it was looked at, and changed as one likes: nothing that is kept is touched, and nothing is added', async () => {
    const shelf = createMemoryShelf();
    const tab = await tabWith(shelf);
    const before = await shelved(shelf);
    await tab.guest.show(picture());
    expect(tab.guest.current()).toMatchObject({ kind: 'shown', from: 'link', hasOwn: true });
    const { player, settings, selected } = tab.store.getState();
    expect(player).toMatchObject({ label: 'Shared picture', instrument: 'tenor-trombone' });
    expect(settings).toMatchObject({ camera: 'side', horn: 'held', theme: 'projector' });
    expect(selected).toBe(3);
    retravel(tab);
    await tab.records.settle();
    expect(await shelved(shelf)).toBe(before);
    expect(tab.records.current().keeping.words).toContain('Nothing of it is kept');
  });

  it.each(['with the page', 'while it is open'])('that came %s leads back in one step to what was on the page, as it was looked at', async (when) => {
    const shelf = createMemoryShelf();
    const tab = await tabWith(shelf, when === 'with the page' ? picture() : null);
    if (when !== 'with the page') {
      tab.store.getState().select(2);
      tab.store.getState().openLesson(OWN.lessons[0]!.id);
      await tab.guest.show(picture());
    }
    retravel(tab);
    const changed = tab.store.getState().player;
    await tab.guest.back();
    const { player, lesson, settings, selected } = tab.store.getState();
    expect(player).toEqual(OWN);
    expect(lesson.id).toBe(OWN.lessons[0]!.id);
    expect(viewOf({ settings, selected })).toEqual({ ...viewOf({ settings: { ...DEFAULT_SETTINGS, camera: 'above' }, selected: 2 }) });
    expect(tab.guest.current().kind).toBe('aside');
    expect(tab.forgotten()).toBe(1);
    // What is changed from now on is kept again.
    tab.store.getState().change((now) => ({ ...now, player: { ...now.player, label: 'Changed' } }));
    await tab.records.settle();
    expect((await shelf.list()).players.map(({ label }) => label)).toEqual(['Changed']);
    // Put aside, not lost: as it was left.
    await tab.guest.again();
    expect(tab.store.getState().player).toEqual(changed);
    expect(tab.guest.current().kind).toBe('shown');
    expect((await shelf.list()).players).toHaveLength(1);
  });

  it('is kept in one step as a player of one’s own, and goes on being kept', async () => {
    const shelf = createMemoryShelf();
    const tab = await tabWith(shelf, picture());
    retravel(tab);
    const { id } = tab.store.getState().player;
    await tab.guest.keep();
    expect(tab.guest.current().kind).toBe('none');
    expect(tab.records.current().guest).toBe(false);
    expect(tab.forgotten()).toBe(1);
    expect((await shelf.list()).players.map(({ label }) => label).sort()).toEqual(['M. K.', 'Shared picture']);
    // Undo still knows what was changed before.
    tab.store.getState().undo();
    tab.store.getState().change((now) => ({ ...now, player: { ...now.player, label: 'Mine now' } }));
    await tab.records.settle();
    const got = await shelf.get(id);
    expect(got.kind === 'player' ? got.player : null).toEqual(tab.store.getState().player);
    expect(got.kind === 'player' ? got.player.label : null).toBe('Mine now');
  });

  it('is put aside whatever leads away from it, and another in its place leads back to the same player', async () => {
    const shelf = createMemoryShelf();
    const tab = await tabWith(shelf);
    await tab.guest.show(picture());
    await tab.guest.show(picture());
    await tab.records.open('own');
    expect(tab.guest.current().kind).toBe('aside');
    await tab.guest.again();
    await tab.guest.back();
    expect(tab.store.getState().player.id).toBe('own');
    expect((await shelf.list()).players).toHaveLength(1);
  });

  it('that was changed is kept before another takes its place, and the way back leads where it led; one as it came is not', async () => {
    const shelf = createMemoryShelf();
    const tab = await tabWith(shelf);
    await tab.guest.show(picture());
    const second = picture();
    await tab.guest.show({ ...second, player: { ...second.player, id: 'second' } });
    expect((await shelf.all()).players.map(({ player }) => player.id)).toEqual(['own']);
    retravel(tab);
    const changed = tab.store.getState().player;
    const third = picture();
    await tab.guest.show({ ...third, player: { ...third.player, id: 'third' } });
    expect(tab.guest.current()).toMatchObject({ kind: 'shown', from: 'link', hasOwn: true });
    expect(tab.store.getState().player.id).toBe('third');
    expect(tab.store.getState().notice).toContain(changed.label);
    const kept = await shelf.get('second');
    expect(kept.kind === 'player' && kept.player.lessons[0]!.readings[0]!.travel).toEqual(changed.lessons[0]!.readings[0]!.travel);
    await tab.guest.back();
    expect(tab.store.getState().player.id).toBe('own');
    // Put aside, shown again, put aside once more: the same holds.
    await tab.guest.again();
    retravel(tab);
    await tab.guest.back();
    await tab.guest.again();
    await tab.guest.back();
    await tab.guest.show(picture());
    expect((await shelf.all()).players.map(({ player }) => player.id).sort()).toEqual(['own', 'second', 'third']);
  });

  it('that was changed and put aside is in the list of players as soon as it is kept for the next link', async () => {
    const tab = await tabWith(createMemoryShelf(), picture());
    retravel(tab);
    const { id } = tab.store.getState().player;
    await tab.guest.back();
    const seen: (readonly string[])[] = [];
    tab.records.subscribe(() => seen.push(tab.records.current().players.map((one) => one.id)));
    const next = picture();
    await tab.guest.show({ ...next, player: { ...next.player, id: 'next' } });
    // Before the next one is on the page, whose coming reads the list as well.
    expect(seen[0]).toContain(id);
  });

  it('that was changed, put aside and cannot be kept holds the next link up, and the reader is told; opened once more, the link is shown', async () => {
    const shelf = createMemoryShelf();
    const tab = await tabWith({ ...shelf, save: (player, revision) => (player.id === 'own' ? shelf.save(player, revision) : Promise.resolve({ kind: 'not-saved', message: 'The store is full.' })) }, picture());
    retravel(tab);
    const changed = tab.store.getState().player;
    await tab.guest.back();
    const next = picture();
    await tab.guest.show({ ...next, player: { ...next.player, id: 'next' } });
    expect(tab.store.getState().player.id).toBe('own');
    expect(tab.guest.current().kind).toBe('aside');
    expect(tab.store.getState().notice).toMatch(/^The store is full\. What you had changed in “Shared picture” would be lost/);
    expect(tab.forgotten()).toBe(2);
    await tab.guest.again();
    expect(tab.store.getState().player).toEqual(changed);
    await tab.guest.back();
    await tab.guest.show({ ...next, player: { ...next.player, id: 'next' } });
    expect(tab.store.getState().player.id).toBe('next');
  });

  it('shows whoever was changed a moment before as kept, since on the way they are', async () => {
    const shelf = createMemoryShelf();
    const tab = await tabWith(shelf);
    await tab.records.openInvented(demoPlayers[2]!.id);
    retravel(tab);
    const { player } = tab.store.getState();
    await tab.guest.show(picture());
    expect(tab.guest.current()).toMatchObject({ kind: 'shown', hasOwn: true });
    await tab.guest.back();
    expect(tab.store.getState().player).toEqual(player);
  });

  it('that has to wait for what could not be kept is taken out of the address, so that the same link can be opened once more', async () => {
    const shelf = createMemoryShelf();
    let full = false;
    const tab = await tabWith({ ...shelf, lasting: true, save: (player, revision) => (full ? Promise.resolve({ kind: 'not-saved', message: 'The store is full.' }) : shelf.save(player, revision)) });
    full = true;
    retravel(tab);
    await tab.guest.show(picture());
    expect(tab.guest.current().kind).toBe('none');
    expect(tab.store.getState().player.id).toBe('own');
    expect(tab.forgotten()).toBe(1);
    await tab.guest.show(picture());
    expect(tab.guest.current().kind).toBe('shown');
  });

  it('that cannot be read leaves the page as it is; the sentence goes with the next that can, or when it is closed', async () => {
    const tab = await tabWith(createMemoryShelf());
    const before = tab.store.getState();
    tab.guest.refuse('This link is not whole.');
    expect(tab.guest.current()).toMatchObject({ kind: 'none', refused: 'This link is not whole.' });
    expect(tab.store.getState()).toBe(before);
    await tab.guest.show(picture());
    expect(tab.guest.current()).toMatchObject({ kind: 'shown', refused: null });
    tab.guest.refuse('This link is not whole.');
    expect(tab.guest.current()).toMatchObject({ kind: 'shown', refused: 'This link is not whole.' });
    tab.guest.refuse(null);
    expect(tab.guest.current().refused).toBeNull();
  });

  it('that could not be kept stays a guest, and the reader is told', async () => {
    const shelf = createMemoryShelf();
    const tab = await tabWith({ ...shelf, save: (player, revision) => (player.id === 'own' ? shelf.save(player, revision) : Promise.resolve({ kind: 'not-saved', message: 'The store is full.' })) }, picture());
    await tab.guest.keep();
    expect(tab.guest.current().kind).toBe('shown');
    expect(tab.store.getState().notice).toBe('The store is full.');
  });
});

it('the view of a picture and the page’s settings say the same', () => {
  const view = { camera: 'mirror', angles: 'sphere', horn: 'held', selected: 4, cutOpen: true, toothNumbers: true } as const;
  expect(viewOf({ settings: { ...DEFAULT_SETTINGS, ...settingsOf(view) }, selected: 4 })).toEqual(view);
});
