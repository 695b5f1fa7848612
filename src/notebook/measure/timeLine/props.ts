/** What the time line of a film is given: seconds, hertz-free names and plain numbers; nothing of pixels of the film. */
import type { NoteHeard } from '../../../measure/traces';
import type { LostCost } from '../film/lostWords';

/** Loudness for drawing: the least and the greatest sample of each bucket, −1 to 1. */
export interface WaveOverview {
  readonly fromS: number;
  readonly bucketS: number;
  readonly low: ArrayLike<number>;
  readonly high: ArrayLike<number>;
}

/** One number against time; null where it is not known. */
export interface Curve {
  readonly id: string;
  readonly label: string;
  readonly points: readonly { readonly timeS: number; readonly value: number | null }[];
}

/** Curves that share a scale. */
export interface Panel {
  readonly title: string;
  readonly unit: string;
  /** Two at most: the second is drawn dashed. */
  readonly curves: readonly Curve[];
  readonly leastSpan: number;
}

export interface Stretch {
  readonly startS: number;
  readonly endS: number;
}

/** Where something was lost: what, and how much is missing of what the film tells elsewhere. */
export interface LostStretchShown extends Stretch {
  readonly what: readonly string[];
  readonly cost: LostCost;
}

export interface TimeLineProps {
  /** The film's own first and last time, seconds. */
  readonly span: Stretch;
  readonly timeS: number;
  readonly wave: WaveOverview | null;
  readonly panels: readonly Panel[];
  readonly notes: readonly NoteHeard[];
  readonly nameOf: (note: NoteHeard) => string;
  readonly selectedNote: number | null;
  /** Where something that was followed could not be. */
  readonly lost: readonly LostStretchShown[];
  /** Times that were marked by hand. */
  readonly anchors: readonly number[];
  onTime(timeS: number): void;
  onSelectNote(index: number): void;
  /** A boundary is drawn along; `done` when it is let go. */
  onBoundary(index: number, end: 'start' | 'end', timeS: number, done: boolean): void;
}
