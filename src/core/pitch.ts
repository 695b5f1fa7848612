/**
 * Notes as people write them, as MIDI numbers and as hertz; note arithmetic is @tonaljs/note's.
 * Scientific pitch: C4 is middle C, MIDI 60. Concert pitch: ISO 16, A4 = 440 Hz.
 */
import { fromMidi, fromMidiSharps, midi as tonalMidi } from '@tonaljs/note';
import { sayCore } from '../words/core';

/** A letter, at most two accidentals (ASCII or the printed signs), an octave from -1 to 9. */
export const NOTE_PATTERN = /^[A-Ga-g](?:##|♯♯|bb|♭♭|[#♯b♭x])?(?:-1|[0-9])$/;
/** For a sentence that begins "Allowed:". */
export const noteAllowed = (): string => sayCore('note');

const HIGHEST_MIDI = 127;

/** How an instrument's part is written: written − sounding, semitones (trumpet in B flat: +2). */
export interface Transposition {
  readonly transpositionSemitones: number;
}

/** The MIDI number of a sounding note, 'C4' → 60. Throws RangeError with the value and what is allowed. */
export function midiOf(note: string): number {
  const known = knownMidis.get(note);
  if (known !== undefined) return known;
  const midi = NOTE_PATTERN.test(note) ? tonalMidi(asciiNote(note)) : null;
  if (midi === null) throw noNote(note);
  knownMidis.set(note, midi);
  return midi;
}

/** The RangeError for what is no note. */
export const noNote = (note: string): RangeError =>
  new RangeError(sayCore('notAllowed', { field: 'note', value: JSON.stringify(note), allowed: noteAllowed() }));

/** Every spelling read so far; the pattern lets through some thousand. */
const knownMidis = new Map<string, number>();

/** True where `midiOf` gives an answer. */
export function isNote(note: string): boolean {
  return NOTE_PATTERN.test(note) && tonalMidi(asciiNote(note)) !== null;
}

/** The name of the nearest semitone, ASCII ('Bb3'); `printedNote` gives the printed sign. */
export function noteName(midi: number, preferFlats = true): string {
  const nearest = Math.round(midi);
  if (!(nearest >= 0 && nearest <= HIGHEST_MIDI)) {
    throw new RangeError(`noteName: midi ${midi}; allowed: 0 to ${HIGHEST_MIDI}`);
  }
  return preferFlats ? fromMidi(nearest) : fromMidiSharps(nearest);
}

/** 'Bb3' → 'B♭3', 'F#4' → 'F♯4': for reading, never for storing. */
export function printedNote(note: string): string {
  return note.slice(0, 1).toUpperCase() + note.slice(1).replaceAll('b', '♭').replaceAll('#', '♯');
}

/** Equal temperament on A4, hertz; fractional MIDI numbers allowed. */
export function hertz(midi: number, a4Hertz = 440): number {
  return a4Hertz * 2 ** ((midi - 69) / 12);
}

/** Cents from one frequency up to another. */
export function centsBetween(fromHertz: number, toHertz: number): number {
  if (!(fromHertz > 0) || !(toHertz > 0)) {
    throw new RangeError(`centsBetween: ${fromHertz} and ${toHertz} Hz; allowed: both above 0`);
  }
  return 1200 * Math.log2(toHertz / fromHertz);
}

/** Whole semitones of equal temperament nearest to partial n above the fundamental: 0, 12, 19, 24, 28 … */
export function partialSemitones(partial: number): number {
  return Math.round(12 * Math.log2(wholePartial(partial)));
}

/** How far the harmonic partial n lies above (+) or below (−) that semitone, cents. Partial 1 of real brass is not on the series. */
export function partialCents(partial: number): number {
  return 1200 * Math.log2(wholePartial(partial)) - 100 * partialSemitones(partial);
}

export function writtenMidi(soundingMidi: number, notation: Transposition): number {
  return soundingMidi + notation.transpositionSemitones;
}

export function soundingMidi(written: number, notation: Transposition): number {
  return written - notation.transpositionSemitones;
}

/**
 * How far a slide is drawn out at a position (1 is closed; fractions allowed), mm: half the tube length that must be added to
 * lower the note by position − 1 semitones. The tube length is that of a trombone in B flat, 2.74 m (9 ft).
 */
export function slideExtensionMm(position: number, tubeLengthMm = 2740): number {
  if (!(position >= 1 && position <= 7)) throw new RangeError(`slideExtensionMm: position ${position}; allowed: 1 to 7`);
  return (tubeLengthMm * (2 ** ((position - 1) / 12) - 1)) / 2;
}

function asciiNote(note: string): string {
  return note.replaceAll('♭', 'b').replaceAll('♯', '#');
}

function wholePartial(partial: number): number {
  if (!Number.isInteger(partial) || partial < 1) {
    throw new RangeError(`partial: ${partial}; allowed: a whole number from 1`);
  }
  return partial;
}
