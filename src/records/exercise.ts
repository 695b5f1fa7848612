/**
 * The notes of an exercise from a MIDI or MusicXML file, for setting up readings. The two readers, with their libraries, are loaded
 * when a file is there to be read.
 */
import { midiOf } from '../core/pitch';
import type { PlayingDirection, ReadingSpec } from '../core/specs';
import { sayExercises } from '../words/exercises';
import { LARGEST_EXERCISE_BYTES, type ParsedExercise } from './exerciseParts';
import { MOST_READINGS } from './readingRanges';

export type { ExercisePart, ParsedExercise } from './exerciseParts';

const EXERCISE_FILE_ENDINGS = ['.mid', '.midi', '.musicxml', '.xml', '.mxl'] as const;

/** Reads a file by what is in it; its name is only for the words of a refusal. Never rejects. */
export async function readExercise(bytes: Uint8Array, fileName: string): Promise<ParsedExercise> {
  const name = fileName.replace(/[\p{Cc}\p{Cf}]+/gu, ' ').slice(0, SHOWN_CHARACTERS);
  if (bytes.length > LARGEST_EXERCISE_BYTES) {
    return { kind: 'refused', message: refusedWords(name, sayExercises('bytesUpTo', { count: bytes.length, most: LARGEST_EXERCISE_BYTES })) };
  }
  const kind = kindOf(bytes);
  if (kind === null) {
    return { kind: 'refused', message: refusedWords(name, sayExercises('noExercise', { endings: EXERCISE_FILE_ENDINGS.join(', ') })) };
  }
  const read = await READERS[kind]().catch(() => null);
  if (read === null) return { kind: 'refused', message: refusedWords(name, sayExercises('exerciseReaderMissing')) };
  const exercise = read(bytes);
  return exercise.kind === 'refused' ? { kind: 'refused', message: refusedWords(name, exercise.message) } : exercise;
}

export type ExerciseReadings =
  | { readonly kind: 'readings'; readonly readings: readonly ReadingSpec[] }
  | { readonly kind: 'refused'; readonly message: string };

/**
 * One reading for each different note in the order in which they are first played. Where the line goes both up and down a note is
 * taken once for each way in which it is reached: ascending from a lower note, descending from a higher; a repeated note keeps the way
 * it was reached, and the first note has that of the step after it. A line that only rises or only falls has no directions.
 */
export function notesToReadings(notes: readonly string[]): ExerciseReadings {
  const directions = directionsOf(notes.map(midiOf));
  const turns = directions.includes('up') && directions.includes('down');
  const readings = new Map<string, ReadingSpec>();
  notes.forEach((note, index) => {
    const direction = turns ? directions[index]! : null;
    const key = `${midiOf(note)} ${direction ?? ''}`;
    if (!readings.has(key)) readings.set(key, direction === null ? { note } : { note, direction });
  });
  if (readings.size > MOST_READINGS) {
    return { kind: 'refused', message: sayExercises('exerciseTooMany', { count: readings.size, most: MOST_READINGS }) };
  }
  return { kind: 'readings', readings: [...readings.values()] };
}

const refusedWords = (file: string, why: string): string => sayExercises('exerciseRefused', { file, why });

const SHOWN_CHARACTERS = 60;

type ExerciseKind = 'midi' | 'musicxml';

/** Each is rejected where its reader cannot be fetched, as without a network. */
const READERS: Readonly<Record<ExerciseKind, () => Promise<(bytes: Uint8Array) => ParsedExercise>>> = {
  midi: async () => (await import('./exerciseMidi')).exerciseFromMidi,
  musicxml: async () => (await import('./exerciseMusicXml')).exerciseFromMusicXml,
};

/** By how the file begins: "MThd", a zip's "PK", or markup after a byte order mark and blanks. */
function kindOf(bytes: Uint8Array): ExerciseKind | null {
  const start = [...bytes.subarray(0, 64)];
  if (String.fromCharCode(...start.slice(0, 4)) === 'MThd') return 'midi';
  if (start[0] === 0x50 && start[1] === 0x4b) return 'musicxml';
  const skipped = new Set([0xef, 0xbb, 0xbf, 0xfe, 0xff, 0x00, 0x20, 0x09, 0x0a, 0x0d]);
  return start.find((byte) => !skipped.has(byte)) === '<'.charCodeAt(0) ? 'musicxml' : null;
}

/** How each note is reached; null all along where every note is the same. */
function directionsOf(midis: readonly number[]): (PlayingDirection | null)[] {
  let way: PlayingDirection | null = null;
  const reached = midis.map((midi, index) => {
    const before = midis[index - 1] ?? midi;
    if (midi !== before) way = midi > before ? 'up' : 'down';
    return way;
  });
  const first = reached.find((direction) => direction !== null) ?? null;
  return reached.map((direction) => direction ?? first);
}
