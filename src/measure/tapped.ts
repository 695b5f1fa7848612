/** Notes set by hand: tapped along a film without sound, and changed one by one. Lists are in order and never lie over one another. */
import { SHORTEST_NOTE_S } from './noteFinder';
import type { NoteHeard } from './traces';

export interface Tap {
  readonly timeS: number;
  /** `note`: a note begins (and the one before ends); `pause`: the one before ends. */
  readonly kind: 'note' | 'pause';
}

export type NotesEdited =
  | { readonly kind: 'edited'; readonly notes: readonly NoteHeard[] }
  /** `too-short`: a note would last less than 80 ms; `in-the-way`: another note lies there; `no-next`: nothing to join with. */
  | { readonly kind: 'refused'; readonly reason: 'too-short' | 'in-the-way' | 'no-next' };

/** Notes from taps in any order; the last lasts until `endS`. What would last less than 80 ms is left out: a bounce of the finger. */
export function notesFromTaps(taps: readonly Tap[], endS: number): NoteHeard[] {
  for (const { timeS } of taps) finite('notesFromTaps', 'timeS', timeS);
  finite('notesFromTaps', 'endS', endS);
  const sorted = taps.filter(({ timeS }) => timeS < endS).sort((a, b) => a.timeS - b.timeS);
  const kept: Tap[] = [];
  for (const tap of sorted) {
    const last = kept.at(-1);
    // A second tap so soon is the same one.
    if (last && tap.timeS - last.timeS < SHORTEST_NOTE_S && tap.kind === 'note' && last.kind === 'note') continue;
    kept.push(tap);
  }
  return kept.flatMap(({ timeS, kind }, at): NoteHeard[] => {
    const untilS = kept[at + 1]?.timeS ?? endS;
    return kind === 'note' && longEnough(timeS, untilS) ? [{ startS: timeS, endS: untilS, midi: null, cents: null }] : [];
  });
}

/** Another name; what was heard off the old one is not known of the new. null: nobody knows. Throws RangeError for no MIDI number. */
export function renamed(notes: readonly NoteHeard[], index: number, midi: number | null): NotesEdited {
  const note = at(notes, index, 'renamed');
  if (midi !== null && !(Number.isInteger(midi) && midi >= 0 && midi <= 127)) throw new RangeError(`renamed: midi ${midi}; allowed: a whole number from 0 to 127, or null`);
  return edited(notes, index, 1, [midi === note.midi ? note : { ...note, midi, cents: null }]);
}

/** One note made two of one name at a time within it. */
export function split(notes: readonly NoteHeard[], index: number, timeS: number): NotesEdited {
  const note = at(notes, index, 'split');
  finite('split', 'timeS', timeS);
  if (!longEnough(note.startS, timeS) || !longEnough(timeS, note.endS)) return refused('too-short');
  return edited(notes, index, 1, [{ ...note, endS: timeS }, { ...note, startS: timeS }]);
}

/** One note from the beginning of this to the end of the next, with this one's name, or the next's where this has none. */
export function joinedWithNext(notes: readonly NoteHeard[], index: number): NotesEdited {
  const note = at(notes, index, 'joinedWithNext');
  const next = notes[index + 1];
  if (!next) return refused('no-next');
  return edited(notes, index, 2, [{ ...(note.midi === null ? next : note), startS: note.startS, endS: next.endS }]);
}

/** A note's beginning or end elsewhere; where two notes touch, both go along. */
export function boundaryMoved(notes: readonly NoteHeard[], index: number, edge: 'start' | 'end', timeS: number): NotesEdited {
  const note = at(notes, index, 'boundaryMoved');
  finite('boundaryMoved', 'timeS', timeS);
  if (edge === 'end') {
    const next = notes[index + 1];
    if (next?.startS === note.endS) return boundaryBetween(notes, index, timeS);
    if (next && timeS > next.startS) return refused('in-the-way');
    return longEnough(note.startS, timeS) ? edited(notes, index, 1, [{ ...note, endS: timeS }]) : refused('too-short');
  }
  const before = notes[index - 1];
  if (before?.endS === note.startS) return boundaryBetween(notes, index - 1, timeS);
  if (before && timeS < before.endS) return refused('in-the-way');
  return longEnough(timeS, note.endS) ? edited(notes, index, 1, [{ ...note, startS: timeS }]) : refused('too-short');
}

export function removed(notes: readonly NoteHeard[], index: number): NotesEdited {
  at(notes, index, 'removed');
  return edited(notes, index, 1, []);
}

/** A note where none is; it may touch its neighbours. */
export function added(notes: readonly NoteHeard[], note: NoteHeard): NotesEdited {
  finite('added', 'startS', note.startS);
  finite('added', 'endS', note.endS);
  if (!longEnough(note.startS, note.endS)) return refused('too-short');
  const index = notes.filter(({ startS }) => startS < note.startS).length;
  const [before, after] = [notes[index - 1], notes[index]];
  if ((before && before.endS > note.startS) || (after && after.startS < note.endS)) return refused('in-the-way');
  return edited(notes, index, 0, [note]);
}

function boundaryBetween(notes: readonly NoteHeard[], index: number, timeS: number): NotesEdited {
  const [first, second] = [notes[index]!, notes[index + 1]!];
  if (!longEnough(first.startS, timeS) || !longEnough(timeS, second.endS)) return refused('too-short');
  return edited(notes, index, 2, [{ ...first, endS: timeS }, { ...second, startS: timeS }]);
}

const edited = (notes: readonly NoteHeard[], from: number, count: number, by: readonly NoteHeard[]): NotesEdited => ({
  kind: 'edited',
  notes: notes.toSpliced(from, count, ...by),
});

const refused = (reason: 'too-short' | 'in-the-way' | 'no-next'): NotesEdited => ({ kind: 'refused', reason });

const longEnough = (startS: number, endS: number): boolean => endS - startS >= SHORTEST_NOTE_S;

function at(notes: readonly NoteHeard[], index: number, where: string): NoteHeard {
  const note = notes[index];
  if (!note) throw new RangeError(`${where}: index ${index}; allowed: 0 to ${notes.length - 1}`);
  return note;
}

function finite(where: string, field: string, value: number): void {
  if (!Number.isFinite(value)) throw new RangeError(`${where}: ${field} ${value}; allowed: a finite number of seconds`);
}
