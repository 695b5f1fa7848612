/**
 * One player's picture driven from outside: to a pitch of the player's own path, or to a travel. Several that are driven together go in
 * step by note. Where a player has no such note the picture stands still at the nearest, and that is told.
 */
import type { Analysis, LiveSource } from '../core/analysis';
import type { Live, LiveOptions, Travel } from '../core/live';
import type { PlayingDirection } from '../core/specs';

export interface FollowerInput {
  readonly analysis: Analysis;
  readonly live: Live;
  readonly options: LiveOptions;
}

export interface Follower extends LiveSource {
  /** False where the player has no such note, or the rim finds no seat there. */
  toPitch(midi: number, direction?: PlayingDirection | null): boolean;
  /** From the player's own home. False where the rim finds no seat: the last picture stays. */
  toTravel(travel: Travel): boolean;
  /** Whether the note last asked for is one of the player's own. */
  hasNote(): boolean;
}

export function createFollower(input: () => FollowerInput | null): Follower {
  const listeners = new Set<() => void>();
  let frame: ReturnType<LiveSource['current']> = null;
  let known = true;
  let last: unknown[] = [];

  const publish = (next: typeof frame): boolean => {
    if (next !== null) frame = next;
    for (const listener of listeners) listener();
    return next !== null;
  };
  return {
    current: () => frame,
    hasNote: () => known,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    toPitch: (midi, direction = null) => {
      const given = input();
      const range = given === null ? null : pitchRange(given.analysis, direction);
      if (given === null || range === null) return false;
      const place = Math.min(range.high, Math.max(range.low, midi));
      const has = isWithin(range, midi);
      const now = [given.live, given.options.horn, given.options.view, place, direction];
      // One who stands still is not worked out again.
      if (has === known && now.every((value, index) => value === last[index])) return has;
      last = now;
      known = has;
      return publish(given.live.atPitch(place, { ...given.options, direction })) && has;
    },
    toTravel: (travel) => {
      const given = input();
      last = [];
      known = true;
      return given !== null && publish(given.live.atTravel(travel, given.options));
    },
  };
}

export interface PitchRange {
  readonly low: number;
  readonly high: number;
}

/** Lowest and highest note of one way of the path, or of the only one; null without readings. */
export function pitchRange(analysis: Analysis, direction: PlayingDirection | null = null): PitchRange | null {
  const branch = analysis.branches.find((one) => one.direction === direction) ?? analysis.branches[0];
  const [low, high] = [branch?.order[0], branch?.order.at(-1)];
  if (low === undefined || high === undefined) return null;
  return { low: analysis.readings[low]!.midi, high: analysis.readings[high]!.midi };
}

/** The notes that both have; null where they have none in common. */
export function sharedRange(one: PitchRange | null, other: PitchRange | null): PitchRange | null {
  if (one === null || other === null) return null;
  const low = Math.max(one.low, other.low);
  const high = Math.min(one.high, other.high);
  return low <= high ? { low, high } : null;
}

/** Semitones: the turn at an end is soft, so its note is passed only to rounding. */
const WITHIN = 0.02;
const isWithin = ({ low, high }: PitchRange, midi: number): boolean => midi >= low - WITHIN && midi <= high + WITHIN;
