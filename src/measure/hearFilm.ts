/** The notes of a film's sound, in one pass over it. */
import { hertz } from '../core/pitch';
import { sayMeasure } from '../words/measure';
import { createBreather } from './breather';
import { FilmBroken } from './filmBroken';
import { soundBlocks } from './filmSound';
import { findNotes, type NotesFound } from './noteFinder';
import type { NoteRange } from './noteStates';
import type { OpenedFilm } from './openFilm';
import { createPitchTracker, type PitchFrame, type PitchTracker, SAMPLE_RATES } from './pitchTrack';
import { createProgress, type FilmProgress } from './progress';

export interface HearAsked {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: FilmProgress) => void) | undefined;
}

export type Heard =
  | {
      readonly kind: 'heard';
      readonly found: NotesFound;
      /** Pitch, clarity and level through the film. */
      readonly frames: readonly PitchFrame[];
      /** A sentence where the sound could not be read to its end: the notes are those before. */
      readonly words: string | null;
    }
  /** The film has no sound that can be read. */
  | { readonly kind: 'no-sound' }
  | { readonly kind: 'stopped' };

/** `range`: the instrument's comfortable one, sounding. Throws RangeError where it is none. */
export async function hearFilm(film: OpenedFilm, range: NoteRange, { signal, onProgress }: HearAsked = {}): Promise<Heard> {
  const { sound, endS } = film.facts;
  if (sound === null) return { kind: 'no-sound' };
  const lengthS = endS - sound.startS;
  const steps = Math.ceil(lengthS / STEP_S);
  const progress = createProgress({ of: steps, ofS: lengthS, onProgress });
  const breathe = createBreather();
  const frames: PitchFrame[] = [];
  let tracker: PitchTracker | null = null;
  let stepsDone = 0;
  let words: string | null = null;
  try {
    for await (const block of soundBlocks(film, signal)) {
      const unfit = unfitRate(block);
      if (unfit !== null) throw unfit;
      tracker ??= createPitchTracker({ sampleRate: block.sampleRate, lowestHz: hertz(range.lowMidi) });
      for (const frame of tracker.feed(block)) frames.push(frame);
      for (; stepsDone < steps && sound.startS + (stepsDone + 1) * STEP_S <= block.timeS; stepsDone++) progress.done();
      await breathe();
    }
  } catch (fault) {
    if (!(fault instanceof FilmBroken)) throw fault;
    words = fault.message;
  }
  if (signal?.aborted) return { kind: 'stopped' };
  for (; stepsDone < steps; stepsDone++) progress.done();
  return { kind: 'heard', found: findNotes(frames, range), frames, words };
}

/** Null for a rate that pitches can be told at. */
export function unfitRate({ sampleRate, timeS }: { readonly sampleRate: number; readonly timeS: number }): FilmBroken | null {
  const [lowest, highest] = SAMPLE_RATES;
  if (sampleRate >= lowest && sampleRate <= highest) return null;
  return new FilmBroken(sayMeasure('unfitRate', { rate: sampleRate, lowest, highest }), timeS, undefined);
}

/** Progress goes by tenths of a second of sound. */
const STEP_S = 0.1;
