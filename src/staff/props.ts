/** What the staff is given: plain data and callbacks, nothing of the store. */
import type { HornAngles, LiveSource } from '../core/analysis';
import type { Transposition } from '../core/pitch';
import type { PlayingDirection } from '../core/specs';

export type ClefName = 'treble' | 'alto' | 'tenor' | 'bass';

/** The part of an instrument that notation depends on. */
export interface StaffInstrument extends Transposition {
  readonly name: string;
  readonly clef: ClefName;
}

export interface StaffNote {
  /** Sounding pitch. */
  readonly midi: number;
  /** Shown under the note, e.g. "Bb4"; where it names the sounding or the written pitch it also decides sharp or flat. */
  readonly label: string;
  /** The same in scientific pitch where the label is in another naming: then this decides sharp or flat. */
  readonly spelling?: string | undefined;
  /** The written name in the label's naming; absent, the scientific one. */
  readonly writtenLabel?: string | undefined;
  /** Which way of the path this note is on, where the two are told apart. */
  readonly direction?: PlayingDirection | null | undefined;
  /** Which reading this is; what `selected` and `onSelect` speak of. */
  readonly readingIndex: number;
}

/** Draws the notation; loaded only when a staff is first shown. */
export interface Engraver {
  /** Replaces what `host` holds by the drawing; throws when the notation cannot be drawn. */
  engrave(host: HTMLElement, score: Score): void;
}

export interface Score {
  readonly clef: ClefName;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly staveLeftPx: number;
  readonly staveTopPx: number;
  readonly notes: readonly ScoreNote[];
}

export interface ScoreNote {
  /** The notehead's middle. */
  readonly xPx: number;
  readonly letter: string;
  readonly octave: number;
  /** What stands before the notehead; null when nothing has to. */
  readonly accidental: '#' | 'b' | 'n' | null;
}

/** Each row's short heading, and the words for a swing of either sign. */
export interface SwingWords {
  readonly elevation: SignWords;
  readonly lateral: SignWords;
}

export interface SignWords {
  readonly heading: string;
  readonly positive: string;
  readonly negative: string;
}

export interface StaffProps {
  /** The time line from left to right: one branch in order of pitch, or all branches one after the other. */
  readonly notes: readonly StaffNote[];
  readonly instrument: StaffInstrument;
  /** The playhead follows this source without rendering again. */
  readonly live: LiveSource;
  /** readingIndex of the selected note. */
  readonly selected: number | null;
  readonly onSelect: (readingIndex: number) => void;
  /**
   * Sounding pitch under the pointer, fractional MIDI, never outside the notes, and the way of the path there. `nearest`: readingIndex of the
   * note that the pointer is at, which is to be selected with it.
   */
  readonly onScrub: (midi: number, direction: PlayingDirection | null, nearest: number) => void;
  readonly onScrubEnd: () => void;
  /** Predicted swing from home at each note, in the order of `notes`; null where there is none. Absent: not shown. */
  readonly showSwing?: readonly (HornAngles | null)[] | undefined;
  /** What the two rows of swing are called; by default what the bell does. */
  readonly swingWords?: SwingWords | undefined;
  /** Where the notation comes from; by default it is loaded on first use. */
  readonly loadEngraver?: (() => Promise<Engraver>) | undefined;
}
