/**
 * What somebody shared, on the page as a guest: the reader's own players are untouched, and one step leads back to them or keeps the guest.
 * Whatever leads away from it, it is put aside and can be shown again until the page is closed.
 */
import type { PlayerSpec } from '../core/specs';
import { sameValue } from '../records/sameValue';
import type { PictureView, SharedPicture } from '../records/sharedPicture';
import { type ViewSettings, settingsOf, viewOf } from './pictureView';
import type { Records } from './records';
import type { SessionStart } from './session';
import type { Settings } from './settings';
import type { AppState, AppStore, Opened } from './store';
import { sayPage } from '../words/page';

export interface GuestState {
  readonly kind: 'none' | 'shown' | 'aside';
  /** Whether it came in a link or in the file that the page itself is. */
  readonly from: 'link' | 'file';
  /** Whether there is a player of the reader's own to go back to, or an invented one. */
  readonly hasOwn: boolean;
  /** Why a link or a file that was opened last cannot be shown; null otherwise. */
  readonly refused: string | null;
}

export interface Guest {
  current(): GuestState;
  subscribe(listener: () => void): () => void;
  show(picture: SharedPicture): Promise<void>;
  /** What was opened cannot be shown, and why; the page stays as it is. null: it has been read. */
  refuse(why: string | null): void;
  /** As a player of the reader's own from now on. */
  keep(): Promise<void>;
  /** To what was on the page before, as it is kept. */
  back(): Promise<void>;
  /** The guest that was put aside, with what was changed in it. */
  again(): Promise<void>;
}

export interface OwnPlace extends Opened {
  readonly settings: ViewSettings;
  readonly selected: number;
  readonly own: boolean;
}

export interface GuestStart {
  /** Already on the page when it began; null: none. */
  readonly picture: SharedPicture | null;
  readonly from: GuestState['from'];
  /** Why what came with the page cannot be shown; null otherwise. */
  readonly refused: string | null;
  /** What would be there without it. */
  readonly place: OwnPlace;
}

/** `forgetAddress`: the link is taken out of the page's address, so that a reload does not bring it back. */
export function createGuest(store: AppStore, records: Records, start: GuestStart, forgetAddress: () => void): Guest {
  const listeners = new Set<() => void>();
  let place = start.place;
  let last: { readonly player: PlayerSpec; readonly view: PictureView } | null = start.picture;
  let kind: GuestState['kind'] = start.picture === null ? 'none' : 'shown';
  let { from, refused } = start;
  /** As it came. */
  let unchanged: PlayerSpec | null = start.picture?.player ?? null;
  /** Of whom it was said last that they would be lost. */
  let told: PlayerSpec | null = null;
  let state: GuestState = { kind, from, hasOwn: place.own, refused };

  const tell = (): void => {
    state = { kind, from, hasOwn: place.own, refused };
    for (const listener of listeners) listener();
  };
  const enter = (next: GuestState['kind']): void => {
    if (next !== 'shown' && kind === 'shown') forgetAddress();
    kind = next;
    tell();
  };
  store.subscribe((now) => {
    if (now.player.id === last?.player.id) last = { player: now.player, view: viewOf(now) };
  });
  records.subscribe(() => {
    if (kind === 'shown' && !records.current().guest) enter('aside');
  });
  const look = (settings: ViewSettings, selected: number): void => {
    store.getState().set(settings);
    store.getState().select(selected);
  };
  /** What was changed in a guest is its reader's work: it is kept before another guest takes its place. False where it cannot be, which the reader is told. */
  const keepChanged = async (): Promise<boolean> => {
    if (kind === 'none' || last === null || sameValue(last.player, unchanged)) return true;
    const { player } = last;
    const before = kind;
    // What is told meanwhile is not that it was put aside.
    kind = 'none';
    const kept = before === 'shown' ? await records.keepGuest() : await keepAside(player);
    if (kept === 'left') return true;
    if (kept) store.getState().notify(sayPage('guestKeptFirst', { name: player.label }));
    else kind = before;
    return kept;
  };
  /** One that was put aside and cannot be kept is given up only when the reader, having been told, opens a link once more. */
  const keepAside = async (player: PlayerSpec): Promise<boolean | 'left'> => {
    const why = await records.keepAside(player);
    if (why === null) return true;
    if (told === player) return 'left';
    told = player;
    store.getState().notify(sayPage('guestAsideNotKept', { why, name: player.label }));
    return false;
  };
  const put = async ({ player, view }: SharedPicture): Promise<boolean> => {
    // Another guest in a guest's place: the way back leads where it led.
    const before = records.current().guest ? null : placeOf(store.getState());
    if (!(await records.showGuest(player))) return false;
    // Whoever was changed a moment ago is kept only now.
    if (before !== null) place = { ...before, own: records.current().players.some(({ id }) => id === before.player.id) };
    last = { player, view };
    unchanged = player;
    look(settingsOf(view), view.selected);
    refused = null;
    enter('shown');
    return true;
  };

  return {
    current: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    show: async ({ player, view }) => {
      const cameFrom = from;
      // Another guest in a guest's place, kept or not: the way back leads where it led.
      const back = kind === 'shown' ? place : null;
      from = 'link';
      if ((await keepChanged()) && (await put({ player: named(player), view }))) {
        place = back ?? place;
        tell();
        return;
      }
      from = cameFrom;
      // The same link opened once more is then something new to the browser.
      forgetAddress();
    },
    refuse: (why) => {
      refused = why;
      tell();
    },
    keep: async () => {
      // What is told meanwhile is not that it was put aside.
      const before = kind;
      kind = 'none';
      if (await records.keepGuest()) {
        last = null;
        forgetAddress();
        enter('none');
      } else kind = before;
    },
    back: async () => {
      const { player, lessonId, settings, selected } = place;
      const got = await records.shelf.get(player.id);
      if (got.kind === 'player') await records.show(got.player, got.revision, true, lessonId);
      else await records.show(player, 0, false, lessonId);
      look(settings, selected);
    },
    again: async () => {
      const asItCame = unchanged;
      if (last !== null && (await put(last))) unchanged = asItCame;
    },
  };
}

/** A picture that came without a label has a name all the same, for the list of players. */
export function named(player: PlayerSpec): PlayerSpec {
  return player.label === '' ? { ...player, label: sayPage('guestName') } : player;
}

/** The page's start with a guest on it. */
export function guestStart({ player, view }: SharedPicture, settings: Settings): SessionStart {
  return { player, lessonId: player.lessons[0]?.id ?? '', settings: { ...settings, ...settingsOf(view) }, selected: view.selected };
}

function placeOf({ player, lesson, settings, selected }: AppState): Omit<OwnPlace, 'own'> {
  return { player, lessonId: lesson.id, settings: settingsOf(viewOf({ settings, selected })), selected };
}
