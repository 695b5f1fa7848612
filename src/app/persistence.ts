/** Keeps the record, the settings and the selection in the browser, so that a reload finds the page as it was. */
import { demoPlayers } from '../records/library';
import { loadRecord, saveRecord } from '../records/saved';
import type { SessionStart } from './session';
import { readSettings } from './settings';
import type { AppState, AppStore } from './store';

const PAGE_KEY = 'rimpath.page.1';
/** Long enough to join the steps of a drag, short enough that a closed lid loses nothing. */
const SAVE_AFTER_MS = 400;
/** A hand that drags the rim waits for nothing: it is saved less often, and again when it lets go. */
const SAVE_WHILE_DRAGGING_MS = 2000;

export interface LoadedStart {
  readonly start: SessionStart;
  /** True when nothing was kept here: the demo player is shown, playing. */
  readonly firstVisit: boolean;
  /** Why what was kept could not be read, or why nothing can be kept; null otherwise. */
  readonly message: string | null;
}

export function loadStart(): LoadedStart {
  const loaded = loadRecord();
  const page = loadPage();
  const settings = readSettings(page?.['settings']);
  if (loaded.kind === 'record') {
    const selected = page?.['selected'];
    const start = { record: loaded.record, settings, selected: typeof selected === 'number' && selected >= 0 ? Math.floor(selected) : 0 };
    return { start, firstVisit: false, message: null };
  }
  const [demo] = demoPlayers;
  if (demo === undefined) throw new Error('models/players holds no demo player');
  // The highest note has travelled furthest: it is the one that shows something at once.
  const start = { record: demo.record, settings, selected: demo.record.readings.length - 1 };
  return { start, firstVisit: loaded.kind !== 'refused', message: loaded.kind === 'none' ? null : loaded.message };
}

/** Saves a little after each change, and at once when the page is left. Returns how to stop. */
export function keepSaved(store: AppStore, page: Pick<Window, 'addEventListener' | 'removeEventListener' | 'setTimeout' | 'clearTimeout'>): () => void {
  let timer: number | null = null;
  let waitsForHand = false;
  let savedRecord: AppState['record'] | null = null;
  let savedPage: Pick<AppState, 'settings' | 'selected'> | null = null;
  const save = (): void => {
    if (timer !== null) page.clearTimeout(timer);
    timer = null;
    const { record, settings, selected, failure } = store.getState();
    // A record that cannot be computed is still being typed; the last good one is the one to come back to.
    if (failure === null && record !== savedRecord) {
      const saved = saveRecord(record);
      if (saved.kind !== 'not-saved') savedRecord = record;
      // Said where it is seen, and not over and over: the words stay the same while the trouble does.
      if (saved.kind === 'not-saved') store.getState().notify(saved.message);
    }
    const isKept = savedPage?.settings === settings && savedPage.selected === selected;
    if (!isKept && savePage({ settings, selected })) savedPage = { settings, selected };
  };
  const stop = store.subscribe((now, before) => {
    if (now.record === before.record && now.settings === before.settings && now.selected === before.selected) return;
    if (timer !== null && waitsForHand && !now.dragging) {
      page.clearTimeout(timer);
      timer = null;
    }
    if (timer !== null) return;
    waitsForHand = now.dragging;
    timer = page.setTimeout(save, now.dragging ? SAVE_WHILE_DRAGGING_MS : SAVE_AFTER_MS);
  });
  const onHide = (): void => {
    if (timer !== null) save();
  };
  page.addEventListener('pagehide', onHide);
  return () => {
    stop();
    page.removeEventListener('pagehide', onHide);
    onHide();
  };
}

function loadPage(): Record<string, unknown> | null {
  try {
    const value: unknown = JSON.parse(globalThis.localStorage.getItem(PAGE_KEY) ?? 'null');
    return typeof value === 'object' ? (value as Record<string, unknown> | null) : null;
  } catch {
    return null;
  }
}

/** False where nothing can be kept: the record's own saving has said so already, and how the page looked is no loss. */
function savePage(page: Pick<AppState, 'settings' | 'selected'>): boolean {
  try {
    globalThis.localStorage.setItem(PAGE_KEY, JSON.stringify(page));
    return true;
  } catch {
    return false;
  }
}
