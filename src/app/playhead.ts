/**
 * The moving time, outside React. It publishes one `LiveFrame` after another while the path plays or the rim is dragged, and
 * asks the browser for frames only then; when nothing moves, nothing runs.
 */
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { Live, LiveOptions } from '../core/live';
import type { PlayingDirection, TravelSpec } from '../core/specs';

export interface PlayheadInput {
  readonly live: Live | null;
  readonly options: LiveOptions;
  /** Which way's readings the path takes on its way up and on its way down. */
  readonly ways: PathWays;
  readonly loop: boolean;
  readonly speed: number;
}

export interface PathWays {
  readonly rising: PlayingDirection | null;
  readonly falling: PlayingDirection | null;
}

/** The browser's frame clock; in tests a hand-driven one. Times in milliseconds. */
export interface FrameClock {
  request(callback: (timeMs: number) => void): number;
  cancel(handle: number): void;
}

export interface Playhead extends LiveSource {
  isPlaying(): boolean;
  isDragging(): boolean;
  play(): void;
  pause(): void;
  /** Shows a frame that is already known, that of a reading, and stops there. */
  showFrame(frame: LiveFrame, direction?: LiveOptions['direction']): void;
  /** Shows the path at a pitch and stops there; false when the rim cannot rest there. */
  showPitch(midi: number, direction?: LiveOptions['direction']): boolean;
  /** Shows the rim at a travel off the path, as dragged; false when it cannot rest there. */
  drag(travel: TravelSpec): boolean;
  endDrag(): void;
  /** The analysis, the view or the speed changed: take the new values and redraw what is shown. */
  refresh(): void;
  /** Told when playing starts or stops. */
  onPlaying(listener: () => void): () => void;
}

/** One pass from the lowest note to the highest at speed 1, ms: slow enough to see the horn swing, short enough to wait for. */
export const PASS_MS = 6000;

export function createPlayhead(input: () => PlayheadInput, clock: FrameClock): Playhead {
  const listeners = new Set<() => void>();
  const playingListeners = new Set<() => void>();
  let frame: LiveFrame | null = null;
  let pitch: number | null = null;
  let direction: LiveOptions['direction'] = null;
  let dragged: TravelSpec | null = null;
  let handle: number | null = null;
  let lastTimeMs: number | null = null;
  /** 0 at the lowest note, π at the highest, 2π back at the lowest: the turn at each end is soft. */
  let phase = 0;

  const publish = (next: LiveFrame | null): boolean => {
    // An unreachable place keeps the last good picture.
    if (next === null) return false;
    frame = next;
    for (const listener of listeners) listener();
    return true;
  };
  const show = (): boolean => {
    const { live, options } = input();
    if (live === null) return false;
    if (dragged !== null) return publish(live.atTravel(dragged, options));
    if (pitch === null || live.range === null) return publish(live.atTravel({ upMm: 0, rightMm: 0 }, options));
    pitch = Math.min(live.range.high, Math.max(live.range.low, pitch));
    return publish(live.atPitch(pitch, { ...options, direction: direction ?? null }));
  };
  const tellPlaying = (): void => {
    for (const listener of playingListeners) listener();
  };
  const stop = (): void => {
    if (handle === null) return;
    clock.cancel(handle);
    handle = null;
    lastTimeMs = null;
    tellPlaying();
  };
  const tick = (timeMs: number): void => {
    const { live, loop, speed, ways } = input();
    if (live?.range == null) {
      stop();
      return;
    }
    const elapsed = lastTimeMs === null ? 0 : Math.min(LONGEST_FRAME_MS, timeMs - lastTimeMs);
    lastTimeMs = timeMs;
    phase += (elapsed / PASS_MS) * speed * Math.PI;
    const arrived = !loop && phase >= Math.PI;
    if (arrived) phase = Math.PI;
    if (phase >= 2 * Math.PI) phase -= 2 * Math.PI;
    const { low, high } = live.range;
    pitch = low + (high - low) * (0.5 - 0.5 * Math.cos(phase));
    direction = phase <= Math.PI ? ways.rising : ways.falling;
    show();
    if (arrived) stop();
    else handle = clock.request(tick);
  };

  return {
    current: () => frame,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    onPlaying: (listener) => {
      playingListeners.add(listener);
      return () => playingListeners.delete(listener);
    },
    isPlaying: () => handle !== null,
    isDragging: () => dragged !== null,
    play: () => {
      const { live, loop } = input();
      if (handle !== null || live === null || live.range === null || live.range.high === live.range.low) return;
      dragged = null;
      phase = phaseAt(pitch ?? live.range.low, live.range, direction === 'down');
      if (!loop && phase >= Math.PI) phase = 0;
      handle = clock.request(tick);
      tellPlaying();
    },
    pause: stop,
    showPitch: (midi, wanted = null) => {
      stop();
      dragged = null;
      pitch = midi;
      direction = wanted;
      return show();
    },
    showFrame: (known, wanted = null) => {
      stop();
      dragged = null;
      pitch = known.midi;
      direction = wanted;
      publish(known);
    },
    drag: (travel) => {
      stop();
      dragged = travel;
      return show();
    },
    endDrag: () => {
      if (dragged === null) return;
      dragged = null;
      show();
    },
    refresh: () => {
      show();
    },
  };
}

/** After a pause of the browser (a hidden tab) the path goes on from where it was, not from where it would be. */
const LONGEST_FRAME_MS = 100;

function phaseAt(midi: number, range: { readonly low: number; readonly high: number }, falling: boolean): number {
  const part = Math.min(1, Math.max(0, (midi - range.low) / (range.high - range.low)));
  const rising = Math.acos(1 - 2 * part);
  return falling ? 2 * Math.PI - rising : rising;
}
