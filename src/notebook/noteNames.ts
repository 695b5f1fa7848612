/** Note names as the reader chose to see them: as sounding or as written for the instrument, in one of three namings. */
import { type NoteNaming, namedNote } from '../core/noteNaming';
import { noteName } from '../core/pitch';
import type { EntryStyle } from './props';

/** A reading's note as shown; its own spelling is kept, moved along with a transposition. */
export function shownNote(note: string, transpositionSemitones: number, naming: NoteNaming = 'scientific'): string {
  return namedNote(note, { naming, transpositionSemitones });
}

/** A MIDI number as shown. */
export function shownMidi(midi: number, transpositionSemitones: number, naming: NoteNaming = 'scientific'): string {
  return shownNote(noteName(midi), transpositionSemitones, naming);
}

/** The same, as the page's entry style has it. */
export function noteAsShown(note: string, { shownTransposition, naming }: Pick<EntryStyle, 'shownTransposition' | 'naming'>): string {
  return shownNote(note, shownTransposition, naming);
}
