/**
 * The page's one owner of the record, its undo history, what was computed from it, the selection and the settings.
 * What it computes with is given, so that the rules here can be tested without a solver or a browser.
 */
import { type StoreApi, createStore } from 'zustand/vanilla';
import type { Analysis, LoadDetail } from '../core/analysis';
import type { Live } from '../core/live';
import type { PlayerRecord, TravelSpec } from '../core/specs';
import { HomeUnseatedError, seatWords } from '../core/words';
import { withHomePlace, withTravel } from '../notebook/recordEdits';
import { type History, closeStep, redo, startHistory, step, undo } from './history';
import type { Settings } from './settings';

/** What the record's numbers lead to; `analysis` is the last that could be computed. */
export interface Computed {
  readonly analysis: Analysis | null;
  readonly live: Live | null;
  /** Why the present record could not be computed at all; null when it could. */
  readonly failure: string | null;
}

export interface AppState extends Computed {
  readonly history: History<PlayerRecord>;
  readonly record: PlayerRecord;
  /** Index into record.readings. */
  readonly selected: number;
  readonly settings: Settings;
  /** What the reader should know about the page itself, such as a kept record that could not be read; null: nothing. */
  readonly notice: string | null;
  /** True from the rim's being taken up to its being let go. */
  readonly dragging: boolean;
  /** Said politely by a screen reader after a move by keys. */
  readonly announcement: string;

  /** A new record; steps in a row with the same key are undone together. */
  change(edit: PlayerRecord | ((record: PlayerRecord) => PlayerRecord), key?: string | null): void;
  /** Ends a run of joined steps (a field was left, a drag ended). */
  settle(): void;
  undo(): void;
  redo(): void;
  select(index: number): void;
  set(settings: Partial<Settings>): void;
  /** The rim was put somewhere: the selected note's travel, or at home the home place. */
  moveRim(travel: TravelSpec, key: string | null): void;
  /** The same for the selected note's travel, but not where the rim would find no seat; true when it was taken. */
  tryTravel(travel: TravelSpec, key: string): boolean;
  drag(on: boolean): void;
  announce(words: string): void;
  notify(words: string): void;
}

export interface Solver {
  /** `before` is an earlier analysis whose parts may be reused. */
  analyse(record: PlayerRecord, before?: Analysis, detail?: LoadDetail): Analysis;
  createLive(analysis: Analysis): Live;
}

export type AppStore = StoreApi<AppState>;

export function createAppStore(solver: Solver, record: PlayerRecord, settings: Settings, selected = 0): AppStore {
  return createStore<AppState>()((set, get) => {
    const moveTo = (history: History<PlayerRecord>): void => {
      const state = get();
      if (history.present === state.record) {
        set({ history });
        return;
      }
      const kept = Math.min(state.selected, Math.max(0, history.present.readings.length - 1));
      set({ history, record: history.present, selected: kept, ...compute(solver, history.present, state) });
    };
    return {
      history: startHistory(record),
      record,
      selected: Math.min(selected, Math.max(0, record.readings.length - 1)),
      settings,
      notice: null,
      announcement: '',
      dragging: false,
      ...compute(solver, record, NOTHING),
      change: (edit, key = null) =>
        moveTo(step(get().history, typeof edit === 'function' ? edit(get().record) : edit, key)),
      settle: () => {
        moveTo(closeStep(get().history));
        // A drag looks at the load only at a glance; what is left standing is looked at fully.
        if (get().analysis?.readings.some((reading) => reading.detail === 'glance')) set(compute(solver, get().record, get()));
      },
      undo: () => moveTo(undo(get().history)),
      redo: () => moveTo(redo(get().history)),
      select: (index) => {
        if (index !== get().selected && index >= 0 && index < get().record.readings.length) set({ selected: index });
      },
      set: (changes) => set({ settings: { ...get().settings, ...changes } }),
      moveRim: (travel, key) => {
        const { record: now, selected: index, analysis } = get();
        if (movesHome(now, index) && analysis !== null) {
          get().change(withHomePlace(now, {
            upMm: analysis.home.upMm + travel.upMm,
            rightMm: analysis.home.rightMm + travel.rightMm,
          }), key);
          return;
        }
        get().change(withTravel(now, index, travel), key);
      },
      tryTravel: (travel, key) => {
        const state = get();
        const next = withTravel(state.record, state.selected, travel);
        const computed = compute(solver, next, state, 'glance');
        if (computed.failure !== null || !computed.analysis?.readings.some((one) => one.sources.includes(state.selected))) return false;
        set({ history: step(state.history, next, key), record: next, ...computed });
        return true;
      },
      drag: (on) => set({ dragging: on }),
      announce: (words) => set({ announcement: words }),
      notify: (words) => set({ notice: words }),
    };
  });
}

/**
 * Travel is counted from home, so the home note has none of its own: moving its rim moves the home place, and every other
 * note with it. A home note that was given a travel is an ordinary note.
 */
export function movesHome(record: PlayerRecord, index: number): boolean {
  const reading = record.readings[index];
  if (reading === undefined) return true;
  const atZero = reading.travel.upMm === 0 && reading.travel.rightMm === 0;
  const home = record.home?.note;
  return atZero && (home === undefined ? true : home === reading.note);
}

const NOTHING: Computed = { analysis: null, live: null, failure: null };

function compute(solver: Solver, record: PlayerRecord, last: Computed, detail: LoadDetail = 'full'): Computed {
  try {
    const analysis = solver.analyse(record, last.analysis ?? undefined, detail);
    return { analysis, live: solver.createLive(analysis), failure: null };
  } catch (error) {
    return { analysis: last.analysis, live: last.live, failure: failureWords(error) };
  }
}

function failureWords(error: unknown): string {
  if (error instanceof HomeUnseatedError) return `At home ${seatWords(error.reason)}.`;
  const words = error instanceof Error ? error.message : String(error);
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}.`;
}
