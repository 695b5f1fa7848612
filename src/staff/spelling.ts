/** From a sounding pitch to the written note: transposition, spelling, place on the staff, accidentals. */
import * as Note from '@tonaljs/note';
import { isNote, midiOf, printedNote, writtenMidi } from '../core/pitch';
import type { ClefName, ScoreNote, StaffInstrument, StaffNote } from './props';

export interface WrittenNote {
  readonly letter: string;
  readonly octave: number;
  /** Semitones away from the plain letter: −1 flat, 0, +1 sharp. */
  readonly alteration: -1 | 0 | 1;
}

/**
 * The note a player reads for a sounding pitch. A spelling or label that names the pitch, sounding or written, decides
 * between sharp and flat, and the transposition keeps the spelling by interval (sounding Bb4 on a trumpet in B flat is C5); what would need a double
 * accidental or a white key by another name falls back on the usual spelling.
 * Throws when the written pitch is outside MIDI 0–127.
 */
export function writtenNote(note: Pick<StaffNote, 'midi' | 'label' | 'spelling'>, instrument: StaffInstrument): WrittenNote {
  const midi = writtenMidi(note.midi, instrument);
  if (!Number.isInteger(midi) || midi < 0 || midi > 127) {
    throw new RangeError(`writtenNote: written pitch ${midi}; allowed: a whole MIDI number from 0 to 127`);
  }
  const label = note.spelling ?? note.label;
  const name = namesPitch(label, midi) ? ascii(label) : transposedName(label, note.midi, instrument.transpositionSemitones);
  const named = spelledAs(name, midi);
  return named ?? usualSpelling(midi);
}

/** All notes as written, or null when one of them lies where no note can be written. */
export function writtenNotes(notes: readonly StaffNote[], instrument: StaffInstrument): WrittenNote[] | null {
  try {
    return notes.map((note) => writtenNote(note, instrument));
  } catch {
    return null;
  }
}

/** Steps up from the clef's bottom line: 0 on the line, 1 in the space above it, 8 on the top line. */
export function staffPosition(note: WrittenNote, clef: ClefName): number {
  return diatonicIndex(note.letter, note.octave) - BOTTOM_LINE[clef];
}

/** The written name for a screen reader and for text in place of notation: "B♭4". */
export function writtenName(note: WrittenNote): string {
  return `${note.letter}${note.alteration < 0 ? '♭' : note.alteration > 0 ? '♯' : ''}${note.octave}`;
}

/** A label as printed: accidentals as signs where the label is a note name, anything else unchanged. */
export function printedLabel(label: string): string {
  return isNote(label) ? printedNote(label) : label;
}

/**
 * The signs that stand before the notes, read as one bar without a key signature: every altered note shows its sign,
 * and a plain note shows a natural when the same place on the staff was last altered.
 */
export function accidentals(notes: readonly WrittenNote[]): ScoreNote['accidental'][] {
  const last = new Map<string, number>();
  return notes.map((note) => {
    const place = `${note.letter}${note.octave}`;
    const before = last.get(place) ?? 0;
    last.set(place, note.alteration);
    if (note.alteration > 0) return '#';
    if (note.alteration < 0) return 'b';
    return before === 0 ? null : 'n';
  });
}

const LETTERS = 'CDEFGAB';

function diatonicIndex(letter: string, octave: number): number {
  return octave * 7 + LETTERS.indexOf(letter);
}

/** Bottom lines: E4, F3, D3 and G2, as in any rudiments of music. */
const BOTTOM_LINE: Readonly<Record<ClefName, number>> = {
  treble: diatonicIndex('E', 4),
  alto: diatonicIndex('F', 3),
  tenor: diatonicIndex('D', 3),
  bass: diatonicIndex('G', 2),
};

/** Intervals within an octave by semitones, as transposing instruments use them (the tritone as in G flat instruments). */
const INTERVALS = ['1P', '2m', '2M', '3m', '3M', '4P', '5d', '5P', '6m', '6M', '7m', '7M'] as const;

function transposedName(label: string, midi: number, semitones: number): string {
  const sounding = namesPitch(label, midi) ? ascii(label) : usualName(midi);
  const within = ((semitones % 12) + 12) % 12;
  const moved = Note.get(Note.transpose(sounding, INTERVALS[within] ?? '1P'));
  const octaves = (semitones - within) / 12;
  return moved.empty ? '' : `${moved.letter}${moved.acc}${(moved.oct ?? 0) + octaves}`;
}

function namesPitch(label: string, midi: number): boolean {
  return isNote(label) && midiOf(label) === midi;
}

function ascii(label: string): string {
  return label.replaceAll('♭', 'b').replaceAll('♯', '#');
}

function spelledAs(name: string, midi: number): WrittenNote | null {
  const note = Note.get(name);
  if (note.empty || note.midi !== midi || note.oct === undefined) return null;
  if (note.alt < -1 || note.alt > 1) return null;
  const whiteKey = !Note.fromMidi(midi).includes('b');
  if (whiteKey && note.alt !== 0) return null;
  return { letter: note.letter, octave: note.oct, alteration: note.alt as -1 | 0 | 1 };
}

/** C sharp and F sharp, but E, A and B flat: the black keys as brass parts most often name them. */
function usualName(midi: number): string {
  const chroma = ((midi % 12) + 12) % 12;
  return chroma === 1 || chroma === 6 ? Note.fromMidiSharps(midi) : Note.fromMidi(midi);
}

function usualSpelling(midi: number): WrittenNote {
  const note = Note.get(usualName(midi));
  return { letter: note.letter, octave: note.oct ?? 0, alteration: note.alt as -1 | 0 | 1 };
}
