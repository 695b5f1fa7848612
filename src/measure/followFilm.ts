/** Follows what was marked through a whole film, or a stretch of it: forward from the first marks to the end, then back to the beginning. */
import { createBreather } from './breather';
import { FilmBroken } from './filmBroken';
import { blocksBackward, greyFrames } from './filmFrames';
import { createFilmTracker, type FilmTrackerSettings } from './filmTracker';
import { frameIndexAt } from './frameTimes';
import { markedTimes, SAME_TIME_S } from './markedAgain';
import type { OpenedFilm } from './openFilm';
import { createProgress, type FilmProgress } from './progress';
import type { FilmTrace, TracedFrame, TracedName } from './traces';

export interface FollowAsked {
  /** The stretch to follow, seconds on the film's own clock; the marked frames are followed in any case. Absent: all of it. */
  readonly fromS?: number | undefined;
  readonly toS?: number | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Some ten times a second. */
  readonly onProgress?: ((progress: FilmProgress) => void) | undefined;
}

export type Followed =
  | {
      readonly kind: 'followed';
      readonly trace: FilmTrace;
      /** Marked, but not to be followed. */
      readonly notFollowed: readonly (TracedName | 'rim')[];
      /** A sentence where the film could not be read to its end: the trace has what came before. */
      readonly words: string | null;
    }
  | { readonly kind: 'stopped' };

/** Throws RangeError for settings the tracker refuses, and for a marked frame outside the film. */
export async function followFilm(film: OpenedFilm, settings: FilmTrackerSettings, asked: FollowAsked = {}): Promise<Followed> {
  const { frameTimesS } = film;
  const { signal } = asked;
  const tracker = createFilmTracker(settings);
  const anchorsS = settings.anchors.map(({ timeS }) => timeS);
  const marked = frameIndexAt(frameTimesS, tracker.firstAnchorS + SAME_TIME_S);
  const lastMarked = frameIndexAt(frameTimesS, Math.max(...anchorsS) + SAME_TIME_S);
  checkWithin(film, anchorsS);
  const first = Math.min(marked, asked.fromS === undefined ? 0 : frameIndexAt(frameTimesS, asked.fromS));
  const last = Math.max(lastMarked, asked.toS === undefined ? frameTimesS.length - 1 : frameIndexAt(frameTimesS, asked.toS));
  const progress = createProgress({ of: last - first + 1, ofS: frameTimesS[last]! - frameTimesS[first]!, onProgress: asked.onProgress });
  const breathe = createBreather();
  const after: TracedFrame[] = [];
  const before: TracedFrame[] = [];
  let words: string | null = null;
  /** Frames before the first marks: one more than thought where these lie between two frames. */
  let earlier = marked - 1;
  try {
    for await (const { frame, timeS } of greyFrames(film, { first: marked, last, signal })) {
      const traced = tracker.followForward(frame, timeS);
      if (traced === null) earlier += 1;
      else after.push(traced);
      progress.done();
      await breathe();
    }
  } catch (fault) {
    words = wordsOf(fault);
  }
  if (signal?.aborted) return { kind: 'stopped' };
  // Without the marked frame there is nothing to go back from.
  if (earlier >= first && after.length > 0) {
    try {
      for await (const block of blocksBackward(film, { first, last: earlier, signal })) {
        for (const one of block) {
          before.push(...tracker.followBlockBackward([one]));
          progress.done();
          await breathe();
          if (signal?.aborted) return { kind: 'stopped' };
        }
      }
    } catch (fault) {
      words ??= wordsOf(fault);
    }
  }
  if (signal?.aborted) return { kind: 'stopped' };
  return { kind: 'followed', trace: { view: settings.view, frames: [...before.reverse(), ...after], marked: markedTimes(settings.anchors) }, notFollowed: tracker.notFollowed, words };
}

function checkWithin({ facts: { startS, endS } }: OpenedFilm, anchorsS: readonly number[]): void {
  for (const timeS of anchorsS) {
    if (!(timeS >= startS - SAME_TIME_S && timeS < endS)) throw new RangeError(`anchor at ${timeS} s; allowed: within the film, ${startS} to ${endS} s`);
  }
}

/** Only what is the film's own fault ends in words; anything else is ours and goes on. */
function wordsOf(fault: unknown): string {
  if (fault instanceof FilmBroken) return fault.message;
  throw fault;
}
