/** Where notes begin and end by their level: new attacks on one pitch, onsets, and ends before the room's echo. docs/numerics.md §21. */
import { FRAME_STEP_S } from './pitchTrack';

/** Frames from `from` up to, not with, `to`. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export interface SpanEdges {
  /** Places between frames, in frames. */
  readonly start: number;
  readonly end: number;
}

/** A new attack rises so far above the dip before it, dB. */
export const ATTACK_DB = 5;
/** So far the sound falls into that dip, dB: with an echo less than it rises out again. */
const DIP_DB = 3;
/** The same of the bright level, in which noise fills the dip. */
const BRIGHT_ATTACK_DB = 2;
const BRIGHT_DIP_DB = 1.5;
/** A new attack is so much less clear than the note: vibrato in a live room loses up to 0.02 in our tones, an attack 0.03 and more. */
const UNLIKE = 0.025;
/** A dip between two pitches that is a new attack. */
const CHANGE_DIP_DB = 8;
/** A dip as deep is an attack however clear the sound. */
const DEEP_DIP_DB = 15;
/** How far round a dip the level before and after is looked for. */
const BEFORE_DIP = frames(0.12);
const AFTER_DIP = frames(0.08);
/** A rise to a note's level counts from this far below it, dB: half way up a straight attack lies 6 below. */
const ONSET_BELOW_DB = 8;
const ENDING_BELOW_DB = 4;
/** A sound that falls more slowly than this is still played: an echo of a second's length falls 60 dB a second. */
const RELEASE_DB_PER_S = 45;
const SLOPE_OVER = frames(0.03);
/** A note's level before its end: of its loudest quarter over so many frames. */
const OWN_LEVEL_OVER = frames(0.2);
const OWN_LEVEL_PART = 0.75;
/** How far from the first tone of a note its onset is looked for. */
const ONSET_WITHIN = frames(0.06);

/** What attacks are told by, frame by frame. */
export interface AttackSigns {
  readonly levels: readonly number[];
  readonly bright: readonly number[];
  readonly clarity: readonly number[];
}

/**
 * The dips within a span that a new attack comes after, in order. Both levels must dip, and the sound must be less like itself there, or
 * the dip be deep: where a room's echo meets a vibrato, partials go out and come back, but smoothly.
 */
export function attacksWithin({ levels, bright, clarity }: AttackSigns, { from, to }: Span): number[] {
  const usual = [...clarity.slice(from, to)].sort((a, b) => a - b)[(to - from) >> 1]!;
  const found: number[] = [];
  for (let at = from + 1; at < to - 1; at++) {
    if (lowest(levels, at - 3, at + 4) < levels[at]!) continue;
    const last = found.at(-1) ?? from;
    if (at - last < 2) continue;
    const dips = (of: readonly number[], fall: number, rise: number): boolean => {
      const bottom = lowest(of, at - 1, at + 2);
      return highest(of, Math.max(last, at - BEFORE_DIP), at) - bottom >= fall && highest(of, at + 1, Math.min(to, at + 1 + AFTER_DIP)) - bottom >= rise;
    };
    if (!dips(levels, DIP_DB, ATTACK_DB) || !dips(bright, BRIGHT_DIP_DB, BRIGHT_ATTACK_DB)) continue;
    if (usual - lowest(clarity, at - 3, at + 4) >= UNLIKE || dips(levels, DEEP_DIP_DB, DEEP_DIP_DB)) found.push(at);
  }
  return found;
}

/** Whether a dip at a change of pitch is a new attack: a change alone is unlike, and in a room its level wavers. */
export function attackAtChange({ levels, bright }: AttackSigns, at: number): boolean {
  return [levels, bright].every((of) => {
    const bottom = lowest(of, at - 1, at + 2);
    return Math.min(highest(of, at - BEFORE_DIP, at), highest(of, at + 1, at + 1 + AFTER_DIP)) - bottom >= CHANGE_DIP_DB;
  });
}

/** Where a note that follows silence or a dip begins; `earliest` is where the one before ends. */
export function onsetOf(levels: readonly number[], { from, to }: Span, earliest: number): number {
  const quietest = lowestAt(levels, Math.max(earliest, from - ONSET_WITHIN), Math.min(to, from + ONSET_WITHIN));
  const first = Math.max(earliest, quietest);
  const last = Math.min(to, first + ONSET_WITHIN + AFTER_DIP);
  const wanted = highest(levels, first, last) - ONSET_BELOW_DB;
  for (let at = first; at < last; at++) if (levels[at]! >= wanted) return at <= first ? first : crossing(levels, at - 1, wanted);
  return from;
}

/** Where a note that silence or a dip follows ends: before the level's last fall without a stop. */
export function endingOf(levels: readonly number[], { from, to }: Span): number {
  const fall = RELEASE_DB_PER_S * FRAME_STEP_S * SLOPE_OVER;
  let at = to - 1;
  while (at - SLOPE_OVER > from && levels[at - SLOPE_OVER]! - levels[at]! >= fall) at--;
  // An echo can hold the level up for a while on its way down: what counts is the note's own level before.
  const own = levels.slice(Math.max(from, at - OWN_LEVEL_OVER), at + 1).sort((a, b) => a - b);
  const wanted = own[Math.floor(OWN_LEVEL_PART * own.length)]! - ENDING_BELOW_DB;
  for (let edge = at; edge < to - 1; edge++) if (levels[edge]! >= wanted && levels[edge + 1]! < wanted) return crossing(levels, edge, wanted);
  for (let edge = at - 1; edge > Math.max(from, at - OWN_LEVEL_OVER); edge--) if (levels[edge]! >= wanted && levels[edge + 1]! < wanted) return crossing(levels, edge, wanted);
  return at;
}

/** Whether a sound goes on over the frames of a gap in its pitch: no dip as before a new attack. */
export function soundsOn(levels: readonly number[], { from, to }: Span): boolean {
  return lowest(levels, from - 1, to + 1) > Math.min(highest(levels, from - AFTER_DIP, from), highest(levels, to, to + AFTER_DIP)) - DIP_DB;
}

/** Between two frames, where a straight line through their levels passes `wanted`. */
function crossing(levels: readonly number[], at: number, wanted: number): number {
  const rise = levels[at + 1]! - levels[at]!;
  return rise === 0 ? at : at + Math.min(1, Math.max(0, (wanted - levels[at]!) / rise));
}

function frames(seconds: number): number {
  return Math.round(seconds / FRAME_STEP_S);
}

function highest(levels: readonly number[], from: number, to: number): number {
  let most = -Infinity;
  for (let at = Math.max(0, from); at < Math.min(levels.length, to); at++) most = Math.max(most, levels[at]!);
  return most;
}

function lowestAt(levels: readonly number[], from: number, to: number): number {
  const least = lowest(levels, from, to);
  for (let at = Math.max(0, from); at < to; at++) if (levels[at] === least) return at;
  return from;
}

function lowest(levels: readonly number[], from: number, to: number): number {
  let least = Infinity;
  for (let at = Math.max(0, from); at < Math.min(levels.length, to); at++) least = Math.min(least, levels[at]!);
  return least;
}
