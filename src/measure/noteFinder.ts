/** The notes of a take from its pitch, clarity and level. docs/numerics.md §21. */
import { type AttackSigns, attackAtChange, attacksWithin, endingOf, onsetOf, soundsOn, type Span } from './noteEdges';
import { isTone, type NoteRange, notesByFrame, type StatedFrame } from './noteStates';
import { FRAME_STEP_S, type PitchFrame } from './pitchTrack';
import type { NoteHeard } from './traces';
import { takeTuning, type TakeTuning } from './tuning';

export interface NotesFound {
  /** In order of time, none over another. */
  readonly notes: readonly NoteHeard[];
  /** Where it is unclear the notes are named, and their cents told, by A4 = 440 Hz. */
  readonly tuning: TakeTuning;
}

/** What is shorter is no note: a slip, or the way from one to the next. */
export const SHORTEST_NOTE_S = 0.08;
/** The loud frames of a take: so many of its tones are softer. */
const LOUD_PART = 0.9;
/** So near its semitone a frame has arrived, semitones: the 60 cents at which a pitch leaves its note. */
const ON_PITCH = 0.6;
/** Half of the longest glide between two notes, frames. */
const LONGEST_GLIDE = 8;
/** A dip so near a change of pitch belongs to it, frames. */
const SAME_CHANGE = 7;

/**
 * Finds notes by their pitch and, on one pitch, by their attacks. Vibrato does not part a note; a slur parts in the middle of its glide.
 * Frames run on evenly; where the sound stopped for a while they may leave a gap, which ends a note. Throws RangeError where the range is
 * no range.
 */
export function findNotes(frames: readonly PitchFrame[], range: NoteRange): NotesFound {
  const { lowMidi, highMidi } = range;
  if (!(lowMidi >= 0 && lowMidi <= highMidi && highMidi <= 127)) throw new RangeError(`findNotes: range ${lowMidi} to ${highMidi}; allowed: two MIDI numbers from 0 to 127, rising`);
  const loudDb = part(frames.filter((frame) => isTone(frame, -Infinity)).map(({ levelDb }) => levelDb), LOUD_PART);
  const tones = frames.map((frame) => (isTone(frame, loudDb) ? midiOfHz(frame.hz!) : null));
  const tuning = takeTuning(tones.flatMap((midi) => (midi === null ? [] : [{ midi, weight: 1 }])));
  const notesBy = (tunedBy: number): NoteHeard[] =>
    unbroken(frames).flatMap((run) =>
      notesOfRun(frames.slice(run.from, run.to), tones.slice(run.from, run.to).map((midi) => (midi === null ? null : midi - tunedBy)), range),
    );
  if (tuning.kind === 'unclear') return { notes: notesBy(0), tuning };
  const tunedBy = tuning.cents / 100;
  const notes = notesBy(tunedBy);
  // Frame by frame neighbours hang together: the deviation is that of the notes.
  const byNotes = takeTuning(notes.flatMap(({ midi, cents, startS, endS }) => (midi === null || cents === null ? [] : [{ midi: midi + tunedBy + cents / 100, weight: endS - startS }])));
  return byNotes.kind === 'told' ? { notes, tuning: { ...tuning, sdCents: byNotes.sdCents } } : { notes: notesBy(0), tuning: byNotes };
}

interface Part extends Span {
  readonly semitone: number;
  /** Whether the note before goes over into this one without a new attack. */
  readonly slurred: boolean;
}

function notesOfRun(frames: readonly PitchFrame[], pitches: readonly (number | null)[], range: NoteRange): NoteHeard[] {
  const levels = frames.map(({ levelDb }) => levelDb);
  const stated = bridged(notesByFrame(pitches, range), levels);
  const parts = withoutSlips(partsOf(stated, { levels, bright: frames.map(({ brightDb }) => brightDb), clarity: frames.map(({ clarity }) => clarity) }));
  const timeAt = (place: number): number => {
    const at = Math.min(frames.length - 1, Math.max(0, Math.floor(place)));
    const next = Math.min(frames.length - 1, at + 1);
    return frames[at]!.timeS + (place - at) * (frames[next]!.timeS - frames[at]!.timeS);
  };
  const ends = parts.map((each, index) => (parts[index + 1]?.slurred ? overFrom(stated, each, parts[index + 1]!) : endingOf(levels, each)));
  return parts.flatMap((each, index): NoteHeard[] => {
    const start = each.slurred ? ends[index - 1]! : onsetOf(levels, each, index === 0 ? 0 : Math.ceil(ends[index - 1]!));
    const [startS, endS] = [timeAt(start), timeAt(ends[index]!)];
    if (!(endS - startS >= SHORTEST_NOTE_S)) return [];
    const offs = stated.slice(Math.ceil(start), Math.floor(ends[index]!) + 1).flatMap(({ semitone, off }) => (semitone === each.semitone && off !== null ? [off] : []));
    return offs.length === 0 ? [] : [{ startS, endS, midi: each.semitone, cents: 100 * part(offs, 0.5) }];
  });
}

/** A fast glide has no pitch for a while: where the sound goes on, its halves belong to the notes it joins. */
function bridged(stated: readonly StatedFrame[], levels: readonly number[]): StatedFrame[] {
  const out = [...stated];
  for (const gap of runs(stated.length, (at) => stated[at]!.semitone === null, () => true)) {
    const [before, after] = [stated[gap.from - 1], stated[gap.to]];
    if (!before || !after || frameCount(gap) > 2 * LONGEST_GLIDE || !soundsOn(levels, gap)) continue;
    for (let at = gap.from; at < gap.to; at++) out[at] = { semitone: (2 * at < gap.from + gap.to ? before : after).semitone, off: null };
  }
  return out;
}

/** Runs of one semitone, parted again at new attacks; a dip beside a change of pitch makes the change a new attack. */
function partsOf(stated: readonly StatedFrame[], signs: AttackSigns): Part[] {
  const parts: Part[] = [];
  for (const sounding of runs(stated.length, (at) => stated[at]!.semitone !== null, (a, b) => (stated[a]!.semitone === null) === (stated[b]!.semitone === null))) {
    const attacks = attacksWithin(signs, sounding);
    const onPitch = runs(sounding.to, (at) => at >= sounding.from, (a, b) => stated[a]!.semitone === stated[b]!.semitone);
    const changes = onPitch.slice(1).map(({ from }) => from);
    const cuts = [
      ...changes.map((change) => {
        const dip = attacks.find((at) => Math.abs(at - change) <= SAME_CHANGE && attackAtChange(signs, at));
        return { at: dip ?? change, slurred: dip === undefined };
      }),
      ...attacks.filter((at) => !changes.some((change) => Math.abs(at - change) <= SAME_CHANGE)).map((at) => ({ at, slurred: false })),
    ].sort((a, b) => a.at - b.at);
    [{ at: sounding.from, slurred: false }, ...cuts].forEach(({ at, slurred }, index) => {
      const to = cuts[index]?.at ?? sounding.to;
      if (to > at) parts.push({ from: at, to, slurred, semitone: mostOften(stated.slice(at, to)) });
    });
  }
  return parts;
}

/** Middle of the glide from one note to the next: between the last frame on the one and the first on the other. */
function overFrom(stated: readonly StatedFrame[], before: Part, after: Part): number {
  const on = ({ semitone, off }: StatedFrame, note: Part): boolean => semitone === note.semitone && off !== null && Math.abs(off) <= ON_PITCH;
  let last = before.to - 1;
  while (last > before.from && before.to - last < LONGEST_GLIDE && !on(stated[last]!, before)) last--;
  let first = after.from;
  while (first < after.to - 1 && first - after.from < LONGEST_GLIDE && !on(stated[first]!, after)) first++;
  return (last + first) / 2;
}

/** A part too short for a note that is slurred to and from goes half to each neighbour. */
function withoutSlips(parts: readonly Part[]): Part[] {
  const kept: Part[] = [];
  let from: number | null = null;
  parts.forEach((each, index) => {
    const next = parts[index + 1];
    const before = kept.at(-1);
    const short = frameCount(each) * FRAME_STEP_S < SHORTEST_NOTE_S;
    if (short && each.slurred && next?.slurred && before) {
      const middle = Math.round((each.from + each.to) / 2);
      kept[kept.length - 1] = { ...before, to: middle };
      from = middle;
      return;
    }
    const begun: Part = from === null ? each : { ...each, from };
    from = null;
    const last = kept.at(-1);
    if (begun.slurred && last && last.semitone === begun.semitone) kept[kept.length - 1] = { ...last, to: begun.to };
    else kept.push(begun);
  });
  return kept;
}

/** Frames with no more than two steps between them. */
function unbroken(frames: readonly PitchFrame[]): Span[] {
  const steps = frames.slice(1).map(({ timeS }, at) => timeS - frames[at]!.timeS);
  const step = part(steps, 0.5);
  return runs(frames.length, () => true, (a, b) => frames[b]!.timeS - frames[a]!.timeS <= 2 * step);
}

function runs(count: number, within: (at: number) => boolean, same: (a: number, b: number) => boolean): Span[] {
  const found: Span[] = [];
  let from: number | null = null;
  for (let at = 0; at <= count; at++) {
    if (from !== null && (at === count || !within(at) || !same(at - 1, at))) {
      found.push({ from, to: at });
      from = null;
    }
    if (from === null && at < count && within(at)) from = at;
  }
  return found;
}

function mostOften(stated: readonly StatedFrame[]): number {
  const counts = new Map<number, number>();
  for (const { semitone } of stated) if (semitone !== null) counts.set(semitone, (counts.get(semitone) ?? 0) + 1);
  return [...counts].reduce((most, each) => (each[1] > most[1] ? each : most))[0];
}

/** The value that `share` of the list lies below; NaN for none. */
function part(list: readonly number[], share: number): number {
  const sorted = [...list].sort((a, b) => a - b);
  return sorted.length === 0 ? NaN : sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

const frameCount = ({ from, to }: Span): number => to - from;

const midiOfHz = (hz: number): number => 69 + 12 * Math.log2(hz / 440);
