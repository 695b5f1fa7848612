/** How the page looked and who was on it, so that a reload finds it as it was. Players themselves: records.ts. */
import type { PlayerSpec } from '../core/specs';
import type { KeptPlayer, Shelf } from '../records/shelfTypes';
import { type NewId, newId } from '../records/newId';
import { takeOverRecord } from '../records/takeOver';
import { usualNaming } from './language';
import { firstDemo, inventedCopy } from './records';
import type { SessionStart } from './session';
import { readSettings } from './settings';
import type { AppState, AppStore } from './store';

const PAGE_KEY = 'rimpath.page.1';
/** Long enough to join the steps of a drag, short enough that a closed lid loses nothing. */
const SAVE_AFTER_MS = 400;

export interface LoadedStart {
  readonly start: SessionStart;
  /** The revision the player was read at; 0: not kept. */
  readonly revision: number;
  readonly own: boolean;
  /** True when nothing was kept here: the demo player is shown, playing. */
  readonly firstVisit: boolean;
  /** Why what was kept could not be read, or why nothing can be kept; null otherwise. */
  readonly message: string | null;
}

/** Who was on the page last, else whoever was kept last, else an invented player. */
export async function loadStart(shelf: Shelf, idOf: NewId = newId): Promise<LoadedStart> {
  const page = loadPage();
  const settings = readSettings(page?.['settings']);
  const at = typeof page?.['selected'] === 'number' && page['selected'] >= 0 ? Math.floor(page['selected']) : 0;
  // First of all, so that whoever used an earlier version finds their player among the others.
  const taken = await takeOverRecord(shelf, undefined, idOf);
  const found = await lastOpen(shelf, taken.kind === 'taken' ? taken.player.id : page?.['playerId']);
  const { kept } = found;
  const message = taken.kind === 'left' ? taken.message : found.message;
  if (kept !== null) {
    const { player, revision } = kept;
    const lessonId = lessonIn(player, page?.['lessonId']);
    const selected = page?.['playerId'] === player.id ? at : 0;
    return { start: { player, lessonId, settings, selected }, revision, own: true, firstVisit: false, message };
  }
  const player = inventedCopy(firstDemo(), idOf);
  const lessonId = lessonIn(player, undefined);
  // The highest note has travelled furthest: it is the one that shows something at once.
  const selected = (player.lessons.at(-1)?.readings.length ?? 1) - 1;
  return { start: { player, lessonId, settings, selected }, revision: 0, own: false, firstVisit: message === null || !shelf.lasting, message };
}

async function lastOpen(shelf: Shelf, id: unknown): Promise<{ readonly kept: KeptPlayer | null; readonly message: string | null }> {
  if (typeof id === 'string') {
    const got = await shelf.get(id);
    if (got.kind === 'player') return { kept: got, message: shelf.message };
  }
  const { players, damaged, message } = await shelf.list();
  const [latest] = players.toSorted((a, b) => b.changedAt - a.changedAt);
  const words = message ?? damaged[0]?.message ?? shelf.message;
  if (latest === undefined) return { kept: null, message: words };
  const got = await shelf.get(latest.id);
  return { kept: got.kind === 'player' ? got : null, message: words };
}

function lessonIn(player: PlayerSpec, wanted: unknown): string {
  return (player.lessons.find(({ id }) => id === wanted) ?? player.lessons.at(-1))?.id ?? '';
}

type PageClock = Pick<Window, 'addEventListener' | 'removeEventListener' | 'setTimeout' | 'clearTimeout'>;
type PageState = Pick<AppState, 'settings' | 'selected' | 'player' | 'lesson'>;

/**
 * Saves a little after each change of the page, and at once when it is left. Returns how to stop. While a guest is on the page (what
 * somebody shared) nothing is saved, so that the page comes back as its owner left it.
 */
export function keepPage(store: AppStore, page: PageClock, isGuest: () => boolean = () => false): () => void {
  let timer: number | null = null;
  let saved: string | null = null;
  const save = (): void => {
    if (timer !== null) page.clearTimeout(timer);
    timer = null;
    if (isGuest()) return;
    const text = pageText(store.getState());
    if (text !== saved && savePage(text)) saved = text;
  };
  const stop = store.subscribe((now, before) => {
    if (timer === null && !samePage(now, before)) timer = page.setTimeout(save, SAVE_AFTER_MS);
  });
  // Also when nothing was changed: who is on the page and which note is chosen is not known from anywhere else.
  const onHide = (): void => save();
  page.addEventListener('pagehide', onHide);
  return () => {
    stop();
    page.removeEventListener('pagehide', onHide);
    onHide();
  };
}

function samePage(a: PageState, b: PageState): boolean {
  return a.settings === b.settings && a.selected === b.selected && a.player.id === b.player.id && a.lesson.id === b.lesson.id;
}

function pageText({ settings: { naming, ...settings }, selected, player, lesson }: PageState): string {
  // Notes named as the language names them go with the language.
  const kept = naming === usualNaming() ? settings : { ...settings, naming };
  return JSON.stringify({ settings: kept, selected, playerId: player.id, lessonId: lesson.id });
}

function loadPage(): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(globalThis.localStorage.getItem(PAGE_KEY) ?? 'null');
    return typeof value === 'object' ? (value as Record<string, unknown> | null) : null;
  } catch {
    return null;
  }
}

/** False where nothing can be kept: the players' own keeping has said so already, and how the page looked is no loss. */
function savePage(text: string): boolean {
  try {
    globalThis.localStorage.setItem(PAGE_KEY, text);
    return true;
  } catch {
    return false;
  }
}
