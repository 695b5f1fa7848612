/**
 * What the readings say: asked for when the record has been at rest for a moment, worked out beside the page, and shown only while no
 * hand is on the rim. The player's own shape, which takes seconds, is worked out only when the reader asks for it.
 */
import type { Finding, FitFailed, OwnShape } from '../core/findings/findings';
import { type ProgressPoint, lessonFindings, progressOf } from '../core/findings/progress';
import type { Said } from '../core/findings/said';
import { recordOf } from '../core/lessons';
import type { PlayerRecord } from '../core/specs';
import type { OwnShapeState } from '../notebook/says/props';
import type { Later } from './idle';
import type { AppState, AppStore } from './store';
import { sayPage } from '../words/page';

/** Of which record it speaks, and what is shown; the same object until something in it changes. */
export interface ShownFindings {
  readonly record: PlayerRecord | null;
  readonly said: Said | null;
  /** Null until every lesson has been looked at. */
  readonly progress: readonly ProgressPoint[] | null;
  /** Why nothing could be worked out for the present record; null when it could. */
  readonly failure: string | null;
  readonly own: OwnShapeState;
}

export interface OwnShapeJob {
  readonly answer: Promise<Finding<OwnShape> | FitFailed>;
  cancel(): void;
}

export interface FindingsWork {
  say(record: PlayerRecord): Promise<Said>;
  ownShape(record: PlayerRecord, onPart: (part: number) => void): OwnShapeJob;
  dispose(): void;
}

export interface FindingsKeeper {
  current(): ShownFindings;
  subscribe(listener: () => void): () => void;
  askOwnShape(): void;
  cancelOwnShape(): void;
  dispose(): void;
}

const NOTHING: ShownFindings = { record: null, said: null, progress: null, failure: null, own: { kind: 'not-asked' } };

export function createFindingsKeeper(store: AppStore, later: Later, work: FindingsWork): FindingsKeeper {
  const listeners = new Set<() => void>();
  /** A lesson that has not changed is not looked at twice. */
  const known = new WeakMap<PlayerRecord, Promise<Said>>();
  let shown = NOTHING;
  /** What has come while a hand was on the rim. */
  let held: ShownFindings | null = null;
  let wanted: readonly unknown[] | null = null;
  let callOff: (() => void) | null = null;
  let isDisposed = false;
  let shape: (OwnShapeJob & { readonly record: PlayerRecord; readonly playerId: string }) | null = null;

  const latest = (): ShownFindings => held ?? shown;
  const publish = (): void => {
    if (held === null || isDisposed || store.getState().dragging) return;
    shown = held;
    held = null;
    for (const listener of listeners) listener();
  };
  const show = (part: Partial<ShownFindings>): void => {
    held = { ...latest(), ...part };
    publish();
  };
  const say = (record: PlayerRecord): Promise<Said> => {
    const before = known.get(record);
    if (before !== undefined) return before;
    const answer = work.say(record);
    known.set(record, answer);
    return answer;
  };
  const run = async ({ player, record }: AppState): Promise<void> => {
    const mine = wanted;
    const isStale = (): boolean => isDisposed || mine !== wanted;
    try {
      const said = await say(record);
      if (isStale()) return;
      show({ record, said, failure: null });
    } catch (error) {
      if (!isStale()) show({ record, said: null, failure: failureWords(error) });
    }
    const found = new Map<string, Said>();
    for (const lesson of player.lessons) {
      if (isStale()) return;
      // A lesson of which nothing can be worked out leaves a gap in the plots.
      const said = await say(recordOf(player, lesson)).catch(() => null);
      if (said !== null) found.set(lesson.id, said);
    }
    if (!isStale()) show({ progress: progressOf(lessonFindings(player, (id) => found.get(id)?.findings ?? null)) });
  };
  const consider = (): void => {
    const state = store.getState();
    if (state.dragging) return;
    publish();
    if (shape !== null && shape.playerId !== state.player.id) {
      shape.cancel();
      shape = null;
      show(NOTHING);
    }
    const key = keyOf(state);
    if (state.failure !== null || same(key, wanted)) return;
    wanted = key;
    const { own } = latest();
    if (own.kind === 'done' && !own.behind && shape?.record !== state.record) show({ own: { ...own, behind: true } });
    callOff?.();
    callOff = later(() => {
      callOff = null;
      if (!isDisposed) void run(store.getState());
    });
  };
  const stopFollowing = store.subscribe(consider);
  consider();
  return {
    current: () => shown,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    askOwnShape: () => {
      const { record, player, failure } = store.getState();
      if (failure !== null || latest().own.kind === 'working') return;
      const job = work.ownShape(record, (part) => {
        if (shape === mine && latest().own.kind === 'working') show({ own: { kind: 'working', part } });
      });
      const mine = { ...job, record, playerId: player.id };
      shape = mine;
      show({ own: { kind: 'working', part: 0 } });
      job.answer.then(
        (own) => {
          if (shape === mine) show({ own: { kind: 'done', own, behind: store.getState().record !== record } });
        },
        (error: unknown) => {
          if (shape === mine) show({ own: { kind: 'failed', words: failureWords(error) } });
        },
      );
    },
    cancelOwnShape: () => {
      if (latest().own.kind !== 'working') return;
      shape?.cancel();
      shape = null;
      show({ own: { kind: 'not-asked' } });
    },
    dispose: () => {
      isDisposed = true;
      stopFollowing();
      callOff?.();
      shape?.cancel();
      work.dispose();
    },
  };
}

/** What the work hangs on: the record, and the lessons for what is drawn over time. */
function keyOf({ record, lesson, player }: AppState): readonly unknown[] {
  const lessons = player.lessons.flatMap((one): readonly unknown[] => (one.id === lesson.id ? [one.id, one.date] : [one]));
  return [record, player.id, ...lessons];
}

const same = (key: readonly unknown[], before: readonly unknown[] | null): boolean =>
  before !== null && before.length === key.length && key.every((part, at) => part === before[at]);

function failureWords(error: unknown): string {
  const words = error instanceof Error ? error.message : String(error);
  return sayPage('notWorkedOut', { why: words });
}
