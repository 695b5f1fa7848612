/** Marks put, moved and taken away in whatever is shown: what pictures and films have in common, and how it is said to those who hear the page. */
import type { StoreApi } from 'zustand/vanilla';
import type { ViewFrom } from '../measure/marks';
import type { Point } from '../measure/picture';
import { markHint, markName } from '../notebook/measure/markNames';
import type { MarkId } from '../notebook/measure/marksEdits';
import type { MeasuringPictureProps } from '../notebook/measure/MeasuringPicture';
import { sayMarking } from '../words/marking';
import { fixed } from '../words/numbers';

export interface Marking {
  /** The mark that a tap puts; null: none is asked for. */
  readonly active: MarkId | null;
  /** Rim points are drawn to the edge beside them. */
  readonly snaps: boolean;
  activate(id: MarkId | null): void;
  setSnaps(on: boolean): void;
  setView(view: ViewFrom): void;
  /** Puts the active mark at a point and asks for the next; true where there was one to put. */
  put(point: Point): boolean;
  /** Moves a mark; steps in a row with one key are undone together. */
  move(id: MarkId, point: Point, key: string | null): void;
  /** A run of moves has ended; where a hand has let go (`snap`), a rim point is drawn to the edge. */
  settle(id: MarkId, snap: boolean): void;
  take(id: MarkId): void;
  undo(): void;
  redo(): void;
}

type Spoken = Pick<MeasuringPictureProps, 'active' | 'onPut' | 'onMove' | 'onSettle' | 'onTake' | 'onUndo' | 'onRedo'>;

/** For the picture that is shown, seen from `view`. */
export function spokenMarks(store: Pick<StoreApi<Marking>, 'getState'>, view: ViewFrom, announce: (words: string) => void): Spoken {
  const { active, put, move, settle, take, undo, redo } = store.getState();
  return {
    active,
    onPut: (point) => {
      if (active === null || !put(point)) return;
      const next = store.getState().active;
      const mark = markName(active);
      announce(next === null ? sayMarking('lastPut', { mark }) : sayMarking('markPut', { mark, next: markName(next), hint: markHint(next, view) }));
    },
    onMove: (id, point, key) => {
      move(id, point, key);
      announce(sayMarking('markMoved', { mark: markName(id), x: fixed(point.x, 1), y: fixed(point.y, 1) }));
    },
    onSettle: settle,
    onTake: (id) => {
      take(id);
      announce(sayMarking('markTaken', { mark: markName(id) }));
    },
    onUndo: undo,
    onRedo: redo,
  };
}
