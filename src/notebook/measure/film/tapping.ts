/** The list of notes changed by hand, or the very same list where that cannot be done. */
import { type NotesEdited, added, boundaryMoved } from '../../../measure/tapped';
import type { NoteHeard } from '../../../measure/traces';

export const editedOr = (before: readonly NoteHeard[], edited: NotesEdited): readonly NoteHeard[] => (edited.kind === 'edited' ? edited.notes : before);

/** A note that nobody has named yet begins at a tap, and goes on to the next note or to the film's end; the one that lies there ends. */
export function tapAt(notes: readonly NoteHeard[], timeS: number, endS: number): readonly NoteHeard[] {
  const at = notes.findLastIndex(({ startS }) => startS <= timeS);
  const [here, next] = [notes[at], notes[at + 1]];
  const tapped: NoteHeard = { startS: timeS, endS: next?.startS ?? endS, midi: null, cents: null };
  const shortened = here === undefined || here.endS <= timeS ? notes : ended(notes, at, timeS);
  return shortened === null ? notes : editedOr(notes, added(shortened, tapped));
}

function ended(notes: readonly NoteHeard[], index: number, timeS: number): readonly NoteHeard[] | null {
  const note = notes[index]!;
  // What touches goes along with a moved boundary: only this note is to end.
  const moved = boundaryMoved([note], 0, 'end', timeS);
  return moved.kind === 'edited' ? notes.with(index, moved.notes[0]!) : null;
}
