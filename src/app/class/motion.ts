/**
 * What moves in a step: one clock that takes one or two players from the start of what a step plays to its end, outside React. With
 * less motion wished for, the end is shown at once.
 */
import type { Travel } from '../../core/live';
import { midiOf } from '../../core/pitch';
import type { ClassStep } from '../../records/classSchema';
import { type Follower, pitchRange } from '../follower';
import { type FrameClock, PASS_MS } from '../playhead';
import type { Actor } from './cast';

export interface ClassMotion {
  /** From the start, or on from where it was paused. */
  play(): void;
  pause(): void;
  toStart(): void;
  toEnd(): void;
  /** From where the rim is, straight to a place: a number from the room; or to where the path passes a note, which may have a jaw and a force of its own. */
  goTo(travel: Travel, midi?: number): void;
  /** The rim at a place at once, as dragged. */
  put(travel: Travel): void;
  isPlaying(): boolean;
  /** Where it stands: at the start, on the way, at the end. */
  stands(): Standing;
  subscribe(listener: () => void): () => void;
  dispose(): void;
}

export type Standing = 'start' | 'on the way' | 'end';

export interface MotionSetting {
  readonly plays: ClassStep['plays'];
  readonly actors: readonly Actor[];
  readonly followers: readonly Follower[];
  readonly reducedMotion: () => boolean;
  readonly clock: FrameClock;
}

/** From home to a place, ms: slow enough to see the horn turn. */
const LINE_MS = 3000;
/** After a pause of the browser it goes on from where it was. */
const LONGEST_FRAME_MS = 100;
const HOME: Travel = { upMm: 0, rightMm: 0 };

export function createClassMotion({ plays, actors, followers, reducedMotion, clock }: MotionSetting): ClassMotion {
  const listeners = new Set<() => void>();
  const range = plays.kind === 'path' ? wholeRange(actors) : null;
  const lengthMs = range === null ? LINE_MS : PASS_MS;
  let from: Travel = HOME;
  let to: Travel = plays.kind === 'line' ? plays : HOME;
  let toMidi: number | null = null;
  let part = 0;
  let handle: number | null = null;
  let lastMs: number | null = null;
  let told = '';

  const tell = (): void => {
    const now = `${handle !== null} ${stands()}`;
    if (now === told) return;
    told = now;
    for (const listener of listeners) listener();
  };
  const stands = (): Standing => (part <= 0 ? 'start' : part >= 1 ? 'end' : 'on the way');
  const show = (): void => {
    const eased = 0.5 - 0.5 * Math.cos(Math.PI * part);
    for (const follower of followers) {
      if (plays.kind === 'note') follower.toPitch(midiOf(plays.note));
      else if (toMidi !== null && part >= 1) follower.toPitch(toMidi);
      else if (range !== null) follower.toPitch(range.low + (range.high - range.low) * eased);
      else follower.toTravel({ upMm: from.upMm + (to.upMm - from.upMm) * eased, rightMm: from.rightMm + (to.rightMm - from.rightMm) * eased });
    }
  };
  const stop = (): void => {
    if (handle !== null) clock.cancel(handle);
    handle = null;
    lastMs = null;
  };
  const set = (next: number): void => {
    part = next;
    show();
    tell();
  };
  const tick = (timeMs: number): void => {
    const elapsed = lastMs === null ? 0 : Math.min(LONGEST_FRAME_MS, timeMs - lastMs);
    lastMs = timeMs;
    part = Math.min(1, part + elapsed / lengthMs);
    if (part >= 1) stop();
    else handle = clock.request(tick);
    show();
    tell();
  };
  const run = (): void => {
    if (reducedMotion()) {
      stop();
      set(1);
      return;
    }
    handle ??= clock.request(tick);
    tell();
  };
  const moves = plays.kind === 'line' || plays.kind === 'path' || plays.kind === 'room';
  show();
  return {
    play: () => {
      if (!moves || handle !== null) return;
      if (part >= 1) part = 0;
      run();
    },
    pause: () => {
      stop();
      tell();
    },
    toStart: () => {
      stop();
      set(0);
    },
    toEnd: () => {
      stop();
      set(1);
    },
    goTo: (travel, midi) => {
      stop();
      from = followers[0]?.current()?.travel ?? HOME;
      to = travel;
      toMidi = midi ?? null;
      part = 0;
      run();
    },
    put: (travel) => {
      stop();
      from = travel;
      to = travel;
      toMidi = null;
      set(1);
    },
    isPlaying: () => handle !== null,
    stands,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dispose: stop,
  };
}

/** From the lowest note that any of them has to the highest: whoever does not have it stands still meanwhile. */
function wholeRange(actors: readonly Actor[]): { readonly low: number; readonly high: number } | null {
  const ranges = actors.flatMap(({ analysis }) => pitchRange(analysis) ?? []);
  if (ranges.length === 0) return null;
  return { low: Math.min(...ranges.map(({ low }) => low)), high: Math.max(...ranges.map(({ high }) => high)) };
}
