/** What the chapters about kept players and files are given. */

/** A player kept in this browser, in a line. */
export interface KeptPlayer {
  readonly id: string;
  readonly label: string;
  readonly instrumentName: string;
  readonly lessons: number;
  /** The last lesson's day, as in 2026-03-01; null where no lesson has one. */
  readonly lastDate: string | null;
  /** One more with every save. */
  readonly revision: number;
}

/** Whether the last change is safe, in a word and a sentence. */
export interface KeepingWords {
  readonly state: 'kept' | 'keeping' | 'not-kept' | 'elsewhere';
  readonly words: string;
}

/** One player of a file that is about to be taken in. */
export interface IncomingPlayer {
  readonly id: string;
  readonly label: string;
  readonly kind: 'new' | 'same' | 'changes';
  /** What differs, each a short phrase; empty for a new or an equal one. */
  readonly differences: readonly string[];
  readonly choice: IncomingChoice;
}

export type IncomingChoice = 'take' | 'both' | 'leave';
