/** Which note sounds at each frame: the cheapest way through notes and silence (Viterbi). docs/numerics.md §21. */
import type { PitchFrame } from './pitchTrack';

/** The instrument's comfortable range, sounding MIDI. */
export interface NoteRange {
  readonly lowMidi: number;
  readonly highMidi: number;
}

export interface StatedFrame {
  /** Sounding semitone of the take's tuning; null: no note. */
  readonly semitone: number | null;
  /** The frame's own pitch above that semitone, semitones, its octave set right; null where the frame has none that belongs to the note. */
  readonly off: number | null;
}

/** Frames less like themselves than this are no tone. measure: at 20 dB of pink noise tones keep above 0.9, noise alone below 0.75. */
export const LEAST_CLARITY = 0.8;
/** So far below the loud frames nothing counts as played, dB. */
export const QUIET_BELOW_LOUD_DB = 35;
/** Notes so far outside the comfortable range are looked for, semitones. */
const BEYOND_RANGE = 14;

/*
 * Costs are those of half a chi-square. A note of 80 ms (8 frames) pays for its two changes; a flicker of 50 ms does not.
 */
/** How far a sounding pitch lies from its semitone, semitones: intonation, partials and vibrato together. */
const PITCH_SD = 0.35;
/** A pitch far off costs no more: it is a glitch. */
const MOST_MISFIT = 3;
const CHANGE_OF_NOTE = 8;
const INTO_OR_OUT_OF_SILENCE = 4;
/** A note through a frame without a tone: five of them are a rest. */
const NOTE_WITHOUT_TONE = 2;
const SILENCE_WITH_TONE = 1.5;
/** A period taken two or three times too long or too short, by how unusual it is. */
const SHIFTS = [
  { by: 0, cost: 0 },
  { by: 12, cost: 1 },
  { by: -12, cost: 1 },
  { by: 12 * Math.log2(3), cost: 1.5 },
  { by: -12 * Math.log2(3), cost: 1.5 },
] as const;
/** Each semitone outside the range: at twelve the octave inside it is likelier, at nine the note outside. */
const OUTSIDE_RANGE = 0.1;

/** Frame by frame the note that sounds. `pitches`: semitones above MIDI 0 in the take's tuning, null where there is no tone. */
export function notesByFrame(pitches: readonly (number | null)[], range: NoteRange): StatedFrame[] {
  const lowest = Math.floor(range.lowMidi) - BEYOND_RANGE;
  const count = Math.ceil(range.highMidi) + BEYOND_RANGE - lowest + 1;
  const silence = count;
  const outside = Array.from({ length: count }, (_, at) => OUTSIDE_RANGE * Math.max(0, range.lowMidi - lowest - at, lowest + at - range.highMidi));
  let costs = new Float64Array(count + 1);
  const from: Uint16Array[] = [];
  for (const pitch of pitches) {
    const next = new Float64Array(count + 1);
    const came = new Uint16Array(count + 1);
    let best = 0;
    for (let at = 1; at < count; at++) if (costs[at]! < costs[best]!) best = at;
    for (let at = 0; at <= count; at++) {
      const own = costs[at]!;
      const note = costs[best]! + (at === silence ? INTO_OR_OUT_OF_SILENCE : CHANGE_OF_NOTE);
      const rest = costs[silence]! + (at === silence ? 0 : INTO_OR_OUT_OF_SILENCE);
      const least = Math.min(own, note, rest);
      came[at] = least === own ? at : least === rest ? silence : best;
      next[at] = least + (at === silence ? (pitch === null ? 0 : SILENCE_WITH_TONE) : pitch === null ? NOTE_WITHOUT_TONE : misfit(pitch - lowest - at).cost + outside[at]!);
    }
    from.push(came);
    costs = next;
  }
  const found = new Array<StatedFrame>(pitches.length);
  let state = costs.indexOf(Math.min(...costs));
  for (let frame = pitches.length - 1; frame >= 0; frame--) {
    const pitch = pitches[frame]!;
    found[frame] = state === silence ? { semitone: null, off: null } : { semitone: lowest + state, off: pitch === null ? null : misfit(pitch - lowest - state).off };
    state = from[frame]![state]!;
  }
  return found;
}

/** Whether a frame is a tone loud enough to count; `loudDb` is the level of the take's loud frames. */
export function isTone({ hz, clarity, levelDb }: PitchFrame, loudDb: number): boolean {
  return hz !== null && clarity >= LEAST_CLARITY && levelDb >= loudDb - QUIET_BELOW_LOUD_DB;
}

function misfit(off: number): { cost: number; off: number | null } {
  let least: { cost: number; off: number | null } = { cost: MOST_MISFIT, off: null };
  for (const { by, cost } of SHIFTS) {
    const whole = cost + (off + by) ** 2 / (2 * PITCH_SD ** 2);
    if (whole < least.cost) least = { cost: whole, off: off + by };
  }
  return least;
}
