/** A Standard MIDI File to the notes of an exercise, by @tonejs/midi. */
import { Midi } from '@tonejs/midi';
import { noteName } from '../core/pitch';
import { sayExercises } from '../words/exercises';
import type { ExercisePart, ParsedExercise } from './exerciseParts';

/**
 * An exercise of some thousand notes takes 30 kB. The library pairs the beginnings and ends of notes in a time that grows with the
 * square of their number: at this size, at worst, some hundred milliseconds.
 */
export const LARGEST_MIDI_BYTES = 100_000;

/** Tracks with notes are the parts; spelled with flats, since a MIDI file does not say. A note that is never ended is not taken. Never throws. */
export function exerciseFromMidi(bytes: Uint8Array): ParsedExercise {
  if (bytes.length > LARGEST_MIDI_BYTES) return refused(sayExercises('midiTooLarge', { count: bytes.length, most: LARGEST_MIDI_BYTES }));
  let midi: Midi;
  try {
    midi = new Midi(boundedBytes(bytes, READS_PER_BYTE * bytes.length));
  } catch {
    return refused(sayExercises('midiDamaged'));
  }
  const parts = midi.tracks.flatMap((track, index) => partOf(track, index));
  if (parts.length === 0) return refused(sayExercises('midiEmpty'));
  return { kind: 'exercise', title: tidyName(midi.name), parts, source: sayExercises('midiFile') };
}

type Track = Midi['tracks'][number];

const refused = (message: string): ParsedExercise => ({ kind: 'refused', message });

function partOf(track: Track, index: number): ExercisePart[] {
  const highest = new Map<number, number>();
  for (const { midi, ticks } of track.notes) {
    if (Number.isInteger(midi) && midi >= 0 && midi <= 127) highest.set(ticks, Math.max(midi, highest.get(ticks) ?? 0));
  }
  if (highest.size === 0) return [];
  const notes = [...highest].sort(([a], [b]) => a - b).map(([, midi]) => noteName(midi));
  return [{ name: tidyName(track.name) ?? sayExercises('track', { number: index + 1 }), notes }];
}

const LONGEST_NAME = 120;

/** Without control characters; null where nothing is left. */
function tidyName(name: string): string | null {
  const tidy = name.replace(/[\p{Cc}\p{Cf}]+/gu, ' ').trim().slice(0, LONGEST_NAME);
  return tidy === '' ? null : tidy;
}

/** A sound file has each byte read two or three times, in its chunk and as itself. */
const READS_PER_BYTE = 10;

/**
 * The bytes as the library reads them, which throw after so many reads: a damaged length can send it backwards in the file, and it
 * would go round for ever.
 */
function boundedBytes(bytes: Uint8Array, mostReads: number): ArrayLike<number> {
  let left = mostReads;
  const bounded = (part: Uint8Array): ArrayLike<number> =>
    new Proxy(part, {
      get(target, name) {
        if (name === 'length') return target.length;
        if (name === 'slice') {
          return (from: number, to: number) => {
            spend(1);
            return bounded(target.subarray(from, to));
          };
        }
        spend(1);
        return typeof name === 'string' ? target[Number(name)] : undefined;
      },
    });
  const spend = (reads: number): void => {
    left -= reads;
    if (left < 0) throw new RangeError(`MIDI file: more than ${mostReads} reads; allowed: as many as a sound file takes`);
  };
  return bounded(bytes);
}
