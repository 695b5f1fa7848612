/**
 * A try-out beside playing as usual: the shapes that the page shows. Types only. "As usual" is the lesson's own readings, "tried" the
 * try-out's. What was seen stands beside what the model expected; nothing here says which is better.
 */
import type { HalfShares, HornAngles, KnownHorn, KnownTravel, RimLoad } from './analysis';
import type { PlayingDirection, TryOutChange } from './specs';

/** What was seen of one note in one way of playing, all takes together; null where nobody saw it. */
export interface SeenAtNote {
  readonly takes: number;
  readonly travel: KnownTravel | null;
  readonly horn: KnownHorn | null;
  /** Mean over the takes that have one, 1 (hard) to 5 (easy). */
  readonly ease: number | null;
  readonly airstream: { readonly down: number; readonly up: number; readonly unsure: number };
  /** In the order of the takes. */
  readonly remarks: readonly string[];
}

/** The model's load round the rim, as far as it can be felt or drawn. */
export interface FeltLoad {
  readonly share: HalfShares;
  readonly lipShare: RimLoad['lipShare'];
  readonly contactFraction: number;
  readonly peakOverMeanPressure: number;
  readonly momentNmm: RimLoad['momentNmm'];
}

/** A change of the horn's angles, degrees, with one standard deviation of each. */
export interface HornChange extends HornAngles {
  readonly elevationSdDeg: number;
  readonly lateralSdDeg: number;
}

/**
 * What the model expected at a note: the horn held at home's angle (hold-horn), following the arch (let-horn-follow, place-rim), or held
 * at home's angle and that much to the side (bring-horn-round).
 */
export interface ExpectedAtNote {
  /** Counted from what `countedFrom` says. The deviation is 0 where the angle is asked for and not computed. */
  readonly hornChange: HornChange;
  /** Held for let-horn-follow, following the arch for every other change. */
  readonly loadAsUsual: FeltLoad;
  readonly loadTried: FeltLoad;
}

export interface NoteCompared {
  /** Sounding. */
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  readonly asUsual: SeenAtNote | null;
  readonly tried: SeenAtNote | null;
  /** Null where no travel was seen at this note, or the rim finds no seat there (then `problems` says why). */
  readonly expected: ExpectedAtNote | null;
  /** Seen of the same change, with the deviations of both horn angles; null where one of them was not seen, and at home counted from itself. */
  readonly seen: HornChange | null;
}

export interface EaseCompared {
  /** Notes with an ease on both sides. */
  readonly notes: number;
  /** Tried less as usual, mean over those notes; + is easier. */
  readonly meanDifference: number;
  /** Standard deviation of the notes' differences; null with one note. */
  readonly spread: number | null;
}

export interface TryOutCompared {
  readonly kind: 'compared';
  readonly change: TryOutChange;
  /**
   * `home`: the horn's change from home, in the try-out's own readings where home was seen there and the change leaves it where it was;
   * `same-note`: from the same note played as usual.
   */
  readonly countedFrom: 'home' | 'same-note';
  /** Rising in pitch; ascending before descending. */
  readonly notes: readonly NoteCompared[];
  /** Null without a note that has an ease on both sides. */
  readonly ease: EaseCompared | null;
  /** Sentences for people: notes at which the model found no seat. */
  readonly problems: readonly string[];
}

/** The change cannot be made with this player's mouth and rim; a sentence for people. */
export interface TryOutRefused {
  readonly kind: 'refused';
  readonly words: string;
}

export type TryOutComparison = TryOutCompared | TryOutRefused;
