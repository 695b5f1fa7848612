/**
 * The page's one owner of the record, its undo history, what was computed from it, the selection and the settings.
 * What it computes with is given, so that the rules here can be tested without a solver or a browser.
 */
import { type StoreApi, createStore } from 'zustand/vanilla';
import type { Analysis, LoadDetail } from '../core/analysis';
import type { Live } from '../core/live';
import { lessonOf, recordOf, withRecord } from '../core/lessons';
import type { LessonSpec, PlayerRecord, PlayerSpec, TravelSpec } from '../core/specs';
import { HomeUnseatedError, seatWords } from '../core/words';
import { withHomePlace, withMeanTravel } from '../notebook/recordEdits';
import { TRAVEL_MM } from '../records/readingRanges';
import { type History, closeStep, redo, startHistory, step, undo } from './history';
import type { Settings } from './settings';
import { sayPage } from '../words/page';

/** What the record's numbers lead to; `analysis` is the last that could be computed. */
export interface Computed {
  readonly analysis: Analysis | null;
  readonly live: Live | null;
  /** Why the present record could not be computed at all; null when it could. */
  readonly failure: string | null;
}

/** What is on the page, and what undo goes back to: a player, and the lesson that is looked at. */
export interface Opened {
  readonly player: PlayerSpec;
  readonly lessonId: string;
}

export interface AppState extends Computed {
  readonly history: History<Opened>;
  readonly player: PlayerSpec;
  readonly lesson: LessonSpec;
  /** The lesson as what is analysed. */
  readonly record: PlayerRecord;
  /** Index into record.readings. */
  readonly selected: number;
  readonly settings: Settings;
  /** What the reader should know about the page itself, such as a kept record that could not be read; null: nothing. */
  readonly notice: string | null;
  /** Another tab has this player: it is only shown. */
  readonly locked: boolean;
  /** True from the rim's being taken up to its being let go. */
  readonly dragging: boolean;
  /** True while a hand goes along the staff and notes pass by. */
  readonly passing: boolean;
  /** Said politely by a screen reader after a move by keys. */
  readonly announcement: string;

  /**
   * The lesson's record changed; steps in a row with the same key are undone together. `made`: an analysis of what it changes to, worked out
   * beforehand; what it shares with the record as it then is need not be worked out again.
   */
  change(edit: (record: PlayerRecord) => PlayerRecord, key?: string | null, made?: Analysis): void;
  /** The player changed in what is not the record: lessons, try-outs, remarks. Another lesson may be looked at with it. */
  changePlayer(edit: (player: PlayerSpec) => PlayerSpec, key?: string | null, lessonId?: string): void;
  /** Another lesson of this player is looked at; no step to be undone. */
  openLesson(id: string): void;
  /** Another player: what went before cannot be undone from here. */
  open(opened: Opened): void;
  /** The player on the page goes on as another: under a new name, with all that can be undone, or as it is kept elsewhere, without. */
  replacePlayer(edit: (player: PlayerSpec) => PlayerSpec): void;
  /** While another tab has this player, nothing of it is changed here. */
  lock(on: boolean): void;
  /** Works the record out anew: what the rim rests on has changed, and nothing of the record. `made` as for `change`. */
  reanalyse(made?: Analysis): void;
  /** Ends a run of joined steps (a field was left, a drag ended). */
  settle(): void;
  undo(): void;
  redo(): void;
  select(index: number): void;
  set(settings: Partial<Settings>): void;
  /** A note's point was put somewhere: its travel, or that of all its takes together, since the point is their mean. */
  moveNote(index: number, travel: TravelSpec, key: string | null): void;
  /** The rim was put somewhere: the selected note's travel, or at home the home place. */
  moveRim(travel: TravelSpec, key: string | null): void;
  /** The same for the selected note's travel, but not where the rim would find no seat; true when it was taken. */
  tryTravel(travel: TravelSpec, key: string): boolean;
  drag(on: boolean): void;
  pass(on: boolean): void;
  announce(words: string): void;
  notify(words: string): void;
}

export interface Solver {
  /** `before` is an earlier analysis whose parts may be reused. */
  analyse(record: PlayerRecord, before?: Analysis, detail?: LoadDetail): Analysis;
  createLive(analysis: Analysis): Live;
}

export type AppStore = StoreApi<AppState>;

export function createAppStore(solver: Solver, opened: Opened, settings: Settings, selected = 0): AppStore {
  return createStore<AppState>()((set, get) => {
    /** Of the mouth before this one: undo and redo come back to it, and on a scan its seats take longer than a hand should wait. */
    let left: Analysis | undefined;
    const madeBefore = (record: PlayerRecord, last: Analysis | null): Analysis | undefined => {
      if (last === null || last.record.arch === record.arch) return undefined;
      const found = left?.record.arch === record.arch ? left : undefined;
      left = last;
      return found;
    };
    const moveTo = (history: History<Opened>, made?: Analysis): void => {
      const state = get();
      const shown = shownOf(history.present);
      if (shown.record === state.record) {
        set({ history, ...shown });
        return;
      }
      const before = madeBefore(shown.record, state.analysis);
      const kept = Math.min(state.selected, Math.max(0, shown.record.readings.length - 1));
      set({ history, ...shown, selected: kept, ...compute(solver, shown.record, state, 'full', made ?? before) });
    };
    const start = shownOf(opened);
    const { record } = start;
    return {
      history: startHistory(opened),
      ...start,
      selected: Math.min(selected, Math.max(0, record.readings.length - 1)),
      settings,
      notice: null,
      announcement: '',
      dragging: false,
      passing: false,
      locked: false,
      ...compute(solver, record, NOTHING),
      change: (edit, key = null, made) => {
        const { history, record: now, locked } = get();
        if (!locked) moveTo(step(history, withOpenRecord(history.present, edit(now)), key), made);
      },
      changePlayer: (edit, key = null, lessonId = get().history.present.lessonId) => {
        const { history, locked } = get();
        const player = edit(history.present.player);
        if (!locked && player !== history.present.player) moveTo(step(history, { player, lessonId }, key));
      },
      openLesson: (id) => {
        const { history } = get();
        if (id !== history.present.lessonId) moveTo({ ...history, present: { ...history.present, lessonId: id } });
      },
      replacePlayer: (edit) => {
        const { history } = get();
        const before = history.present.player;
        const player = edit(before);
        const { id } = player;
        const renamed = ({ player: earlier, lessonId }: Opened): Opened => ({ player: { ...earlier, id }, lessonId });
        const present = { player, lessonId: history.present.lessonId };
        moveTo(id === before.id
          ? startHistory(present)
          : { ...history, present, past: history.past.map(renamed), future: history.future.map(renamed) });
      },
      lock: (on) => {
        if (on !== get().locked) set({ locked: on });
      },
      open: (next) => {
        set({ selected: 0 });
        moveTo(startHistory(next));
        left = undefined;
      },
      reanalyse: (made) => set(compute(solver, get().record, get(), 'full', made)),
      settle: () => {
        moveTo(closeStep(get().history));
        // A drag looks at the load only at a glance; what is left standing is looked at fully.
        if (get().analysis?.readings.some((reading) => reading.detail === 'glance')) set(compute(solver, get().record, get()));
      },
      undo: () => void (get().locked || moveTo(undo(get().history))),
      redo: () => void (get().locked || moveTo(redo(get().history))),
      select: (index) => {
        if (index !== get().selected && index >= 0 && index < get().record.readings.length) set({ selected: index });
      },
      set: (changes) => set({ settings: { ...get().settings, ...changes } }),
      moveNote: (index, travel, key) => get().change(() => withNoteTravel(get(), index, travel), key),
      moveRim: (travel, key) => {
        const { record: now, selected: index, analysis } = get();
        if (movesHome(now, index) && analysis !== null) {
          const place = { upMm: analysis.home.upMm + travel.upMm, rightMm: analysis.home.rightMm + travel.rightMm };
          if (isPlace(place)) get().change((one) => withHomePlace(one, place), key);
          return;
        }
        get().moveNote(index, travel, key);
      },
      tryTravel: (travel, key) => {
        const state = get();
        if (state.locked) return false;
        const next = withNoteTravel(state, state.selected, travel);
        if (next === state.record) return false;
        const computed = compute(solver, next, state, 'glance');
        if (computed.failure !== null || !computed.analysis?.readings.some((one) => one.sources.includes(state.selected))) return false;
        const history = step(state.history, withOpenRecord(state.history.present, next), key);
        set({ history, ...shownOf(history.present), ...computed });
        return true;
      },
      drag: (on) => set({ dragging: on }),
      pass: (on) => {
        if (on !== get().passing) set({ passing: on });
      },
      announce: (words) => set({ announcement: words }),
      notify: (words) => set({ notice: words }),
    };
  });
}

type Shown = Pick<AppState, 'player' | 'lesson' | 'record'>;

function shownOf({ player, lessonId }: Opened): Shown {
  const lesson = lessonOf(player, lessonId);
  return { player, lesson, record: recordOf(player, lesson) };
}

function withOpenRecord(opened: Opened, record: PlayerRecord): Opened {
  const player = withRecord(opened.player, opened.lessonId, record);
  return player === opened.player ? opened : { ...opened, player };
}

/** The picture shows the mean of a note's takes: what the hand moves is that mean. The very same record where a take would leave what can be kept. */
function withNoteTravel({ record, analysis }: AppState, index: number, travel: TravelSpec): PlayerRecord {
  const pooled = analysis?.readings.find((one) => one.sources.includes(index));
  const next = withMeanTravel(record, pooled?.sources ?? [index], index, pooled?.travel ?? travel, travel);
  return next.readings.every((reading) => reading.travel === undefined || isPlace(reading.travel)) ? next : record;
}

const isPlace = ({ upMm, rightMm }: Pick<TravelSpec, 'upMm' | 'rightMm'>): boolean =>
  [upMm, rightMm].every((value) => value >= TRAVEL_MM[0] && value <= TRAVEL_MM[1]);

/** A hand is at the page that must not be kept waiting. */
export const isHandOn = ({ dragging, passing }: Pick<AppState, 'dragging' | 'passing'>): boolean => dragging || passing;

/**
 * Travel is counted from home, so the home note has none of its own: moving its rim moves the home place, and every other
 * note with it. A home note that was given a travel is an ordinary note.
 */
export function movesHome(record: PlayerRecord, index: number): boolean {
  const reading = record.readings[index];
  if (reading === undefined) return true;
  const home = record.home?.note;
  if (reading.travel === undefined) return home === reading.note;
  const atZero = reading.travel.upMm === 0 && reading.travel.rightMm === 0;
  return atZero && (home === undefined ? true : home === reading.note);
}

const NOTHING: Computed = { analysis: null, live: null, failure: null };

function compute(solver: Solver, record: PlayerRecord, last: Computed, detail: LoadDetail = 'full', made?: Analysis): Computed {
  try {
    const analysis = solver.analyse(record, made ?? last.analysis ?? undefined, detail);
    return { analysis, live: solver.createLive(analysis), failure: null };
  } catch (error) {
    return { analysis: last.analysis, live: last.live, failure: failureWords(error) };
  }
}

function failureWords(error: unknown): string {
  if (error instanceof HomeUnseatedError) return sayPage('atHome', { why: seatWords(error.reason) });
  const words = error instanceof Error ? error.message : String(error);
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}.`;
}
