/** Note names as the reader chose to see them: as sounding, or as written for the instrument. */
import { isNote, midiOf, noteName, printedNote, NOTE_ALLOWED } from '../core/pitch';

/** A reading's note as shown; its own spelling is kept where nothing is transposed. */
export function shownNote(note: string, transpositionSemitones: number): string {
  if (transpositionSemitones === 0) return printedNote(note);
  const written = midiOf(note) + transpositionSemitones;
  return written >= 0 && written <= HIGHEST_MIDI ? printedNote(noteName(written)) : printedNote(note);
}

/** A MIDI number as shown. */
export function shownMidi(midi: number, transpositionSemitones: number): string {
  return shownNote(noteName(midi), transpositionSemitones);
}

export type NoteReading =
  | { readonly kind: 'note'; readonly note: string }
  | { readonly kind: 'wrong'; readonly words: string };

/** The sounding note that a shown name stands for. */
export function readNote(text: string, transpositionSemitones: number): NoteReading {
  const tidy = text.trim();
  if (!isNote(tidy)) return { kind: 'wrong', words: `“${tidy}” is not a note. Allowed: ${NOTE_ALLOWED}.` };
  const ascii = tidy.slice(0, 1).toUpperCase() + tidy.slice(1).replaceAll('♭', 'b').replaceAll('♯', '#');
  if (transpositionSemitones === 0) return { kind: 'note', note: ascii };
  const sounding = midiOf(ascii) - transpositionSemitones;
  return sounding >= 0 && sounding <= HIGHEST_MIDI
    ? { kind: 'note', note: noteName(sounding) }
    : { kind: 'wrong', words: `“${tidy}” is out of range. Allowed: ${NOTE_ALLOWED}.` };
}

const HIGHEST_MIDI = 127;
