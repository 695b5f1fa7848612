/** What the readers of exercise files answer. */

export interface ExercisePart {
  /** As the file names it, or "Part 2". */
  readonly name: string;
  /** Sounding, in the order played, repeats too; of notes that begin together the highest. At least one. */
  readonly notes: readonly string[];
}

export type ParsedExercise =
  | {
      readonly kind: 'exercise';
      readonly title: string | null;
      /** Those with notes, at least one; the first is meant where nobody chose. */
      readonly parts: readonly ExercisePart[];
      /** What the notes were read from, in words: "MIDI file", "MusicXML file". */
      readonly source: string;
    }
  /** One sentence: what, value, allowed. */
  | { readonly kind: 'refused'; readonly message: string };

/**
 * Enough for an étude of some thousand notes as notation programs write it, which is read in about a second; a whole score is larger, and
 * would keep the page waiting.
 */
export const LARGEST_EXERCISE_BYTES = 2_000_000;
