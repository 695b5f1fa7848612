/** What the chapter on the readings is given. */
import type { PlayerObservations } from '../../core/findings/crossTable';
import type { Finding, FitFailed, OwnShape } from '../../core/findings/findings';
import type { ProgressPoint } from '../../core/findings/progress';
import type { Said } from '../../core/findings/said';
import type { Posture } from '../../print/instrumentWords';
import type { EntryStyle } from '../props';
import type { NoteNamer } from './saysWords';

/** The player's own shape is worked out when it is asked for: it takes seconds. */
export type OwnShapeState =
  | { readonly kind: 'not-asked' }
  /** `part` done, 0 to 1. */
  | { readonly kind: 'working'; readonly part: number }
  /** `behind`: the readings have changed since. */
  | { readonly kind: 'done'; readonly own: Finding<OwnShape> | FitFailed; readonly behind: boolean }
  | { readonly kind: 'failed'; readonly words: string };

export interface LeftOutPlayer {
  readonly id: string;
  readonly label: string;
  /** Why nothing could be worked out. */
  readonly words: string;
}

/** All kept players side by side, looked at when it is asked for: some tenths of a second each. */
export type CrossState =
  | { readonly kind: 'not-asked' }
  /** `of`: null until the kept players have been read. */
  | { readonly kind: 'working'; readonly done: number; readonly of: number | null }
  | {
      readonly kind: 'done';
      readonly players: readonly PlayerObservations[];
      /** How many players are kept and can be read. */
      readonly kept: number;
      readonly leftOut: readonly LeftOutPlayer[];
      /** How many are kept but cannot be read. */
      readonly unreadable: number;
      /** The kept players have changed since. */
      readonly behind: boolean;
    }
  | { readonly kind: 'failed'; readonly words: string };

export interface SaysChapterProps {
  /** Null until it has been worked out once. */
  readonly said: Said | null;
  /** Why nothing could be worked out; null when it could. */
  readonly failure: string | null;
  /** The record has changed since, and what is said is being worked out anew. */
  readonly behind: boolean;
  readonly own: OwnShapeState;
  /** Null until it has been worked out once. */
  readonly progress: readonly ProgressPoint[] | null;
  readonly entry: EntryStyle;
  readonly posture: Posture;
  /** Null where the arch cannot be fitted here: then it is not offered. */
  readonly onOwnShape: (() => void) | null;
  onCancelOwnShape(): void;
  readonly cross: CrossState;
  onCross(): void;
  onCancelCross(): void;
}

/** What every part needs. */
export interface PartStyle {
  readonly name: NoteNamer;
  readonly posture: Posture;
  readonly mirror: boolean;
}
