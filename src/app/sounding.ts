/** While the path plays and sound is wished for, each note of the readings sounds as it is passed. */
import type { Analysis } from '../core/analysis';
import { createTone, type Tone } from '../staff/tone';
import type { Playhead } from './playhead';
import type { Settings } from './settings';

/** How long a note sounds at speed 1, s: about the time from one note of a usual path to the next. */
const NOTE_S = 0.9;

/** What is heard of: the page's session, or a step of a class. */
export interface Sounding {
  readonly store: { getState(): { readonly settings: Pick<Settings, 'sound' | 'speed'>; readonly analysis: Analysis | null } };
  readonly playhead: Pick<Playhead, 'current' | 'subscribe' | 'isPlaying' | 'onPlaying'>;
}

export function soundAlong({ store, playhead }: Sounding, tone: Tone = createTone()): () => void {
  let lastMidi: number | null = null;
  let sounding: number | null = null;
  const stopFollowing = playhead.subscribe(() => {
    const midi = playhead.current()?.midi ?? null;
    const { settings, analysis } = store.getState();
    if (playhead.isPlaying() && settings.sound && midi !== null && lastMidi !== null && analysis !== null) {
      const from = Math.min(lastMidi, midi);
      const to = Math.max(lastMidi, midi);
      const passed = analysis.readings.find((one) => one.midi > from - PASSED_WITHIN && one.midi < to + PASSED_WITHIN && one.midi !== sounding);
      if (passed !== undefined) {
        sounding = passed.midi;
        tone.start(passed.midi, NOTE_S / settings.speed);
      }
    }
    lastMidi = midi;
  });
  const stopListening = playhead.onPlaying(() => {
    if (playhead.isPlaying()) {
      sounding = null;
      lastMidi = playhead.current()?.midi ?? null;
    } else tone.stop();
  });
  return () => {
    stopFollowing();
    stopListening();
    tone.close();
  };
}

/** Semitones: the turn at an end is soft, so its note is reached only to rounding. */
const PASSED_WITHIN = 0.02;
