/**
 * What a film of the path shows, moment by moment: the playing path's own course, softly turned at its ends, at a fixed rate of frames. Nothing is
 * caught from a screen, so every frame is exactly where its time says.
 */
import type { PlayingDirection } from '../core/specs';

export interface FilmCourse {
  /** MIDI of the lowest and of the highest note, and of all of them. */
  readonly lowMidi: number;
  readonly highMidi: number;
  readonly notes: readonly number[];
  /** Whose readings the path takes on its way up, and on its way down. */
  readonly rising: PlayingDirection | null;
  readonly falling: PlayingDirection | null;
  readonly andBack: boolean;
  /** One pass from the lowest note to the highest, s. */
  readonly passS: number;
  /** Stillness at the beginning and at the end, s. */
  readonly restS: number;
}

export interface FilmMoment {
  readonly timeS: number;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
}

export interface SoundedNote {
  readonly atS: number;
  readonly midi: number;
  readonly seconds: number;
}

/** Frames a second. */
export const FILM_RATE = 30;

export const filmSeconds = ({ andBack, passS, restS }: FilmCourse): number => 2 * restS + passS * (andBack ? 2 : 1);

/** Every frame, at k / rate. */
export function filmMoments(course: FilmCourse, framesPerS = FILM_RATE): FilmMoment[] {
  const count = Math.max(1, Math.round(filmSeconds(course) * framesPerS));
  return Array.from({ length: count }, (_, frame) => momentAt(course, frame / framesPerS));
}

function momentAt(course: FilmCourse, timeS: number): FilmMoment {
  const { lowMidi, highMidi, rising, falling, andBack, passS, restS } = course;
  const end = andBack ? 2 * Math.PI : Math.PI;
  const phase = Math.min(end, Math.max(0, ((timeS - restS) / passS) * Math.PI));
  return {
    timeS,
    midi: lowMidi + (highMidi - lowMidi) * (0.5 - 0.5 * Math.cos(phase)),
    direction: phase <= Math.PI ? rising : falling,
  };
}

/** How long each note sounds, s; the first and the last through the stillness. */
const NOTE_S = 0.9;

/** When each note is passed: there it begins to sound, as on the page. */
export function filmNotes({ lowMidi, highMidi, notes, andBack, passS, restS }: FilmCourse): SoundedNote[] {
  const different = [...new Set(notes)].sort((a, b) => a - b);
  const up = different.map((midi) => {
    const part = highMidi === lowMidi ? 0 : (midi - lowMidi) / (highMidi - lowMidi);
    return { atS: restS + (Math.acos(1 - 2 * part) / Math.PI) * passS, midi, seconds: NOTE_S };
  });
  const down = andBack ? up.slice(0, -1).reverse().map((note) => ({ ...note, atS: 2 * (restS + passS) - note.atS })) : [];
  const all = [...up, ...down];
  const longest = restS + NOTE_S;
  // The film begins with its first note, and ends with its last.
  return all.map((note, at) => ({
    ...note,
    atS: at === 0 ? Math.max(0, note.atS - restS + LEAD_S) : note.atS,
    seconds: at === 0 ? longest - LEAD_S : at === all.length - 1 ? Math.min(restS, longest) : NOTE_S,
  }));
}

/** Silence before the first note, s: players cut the very start of a film off. */
const LEAD_S = 0.1;
