/**
 * The page's door to a film: it is read in a worker of its own, so that the page goes on. A worker that dies is told in a sentence; the door's
 * closing ends it in the middle of whatever it does.
 */
import { proxy, transfer, wrap } from 'comlink';
import type { SoundOffset } from '../measure/alignSound';
import type { ShownFrame } from '../measure/filmFrames';
import type { SoundOverview, WholeSound } from '../measure/filmSound';
import type { FilmTrackerSettings } from '../measure/filmTracker';
import type { Followed } from '../measure/followFilm';
import type { FrontFilm, HeadFilm, NoHeadFilm } from '../measure/headFromFilm';
import type { Heard } from '../measure/hearFilm';
import type { NoteRange } from '../measure/noteStates';
import type { FilmFacts } from '../measure/openFilm';
import type { FilmProgress } from '../measure/progress';
import type { Refused } from '../measure/refusals';
import { languageNow } from '../words/language';
import { sayWorkers } from '../words/workers';
import type { FilmDesk, FilmSeen, FilmStretch } from './filmWorker';

export interface FilmDoor {
  readonly kind: 'opened';
  readonly facts: FilmFacts;
  /** Beginning of every frame, seconds on the file's own clock. */
  readonly frameTimesS: Float64Array;
  /**
   * The frame of this index, upright; the bitmap is the caller's to close. Null where a later wish overtook this one: of those that come while
   * a frame is being read, only the last is answered.
   */
  frame(index: number): Promise<ShownFrame | null>;
  /** For a wave form. Null without sound, or stopped. */
  overview(buckets: number, signal?: AbortSignal): Promise<SoundOverview | null>;
  /** Follows the marks through the film, or a stretch of it. A stop is answered at once. */
  follow(settings: FilmTrackerSettings, asked?: JobAsked & FilmStretch): Promise<Followed>;
  /** The notes of its sound; `range` is the instrument's, sounding. */
  hear(range: NoteRange, asked?: JobAsked): Promise<Heard>;
  /** The whole of its sound, to be handed to another film's `align`; 12 MB a minute. Null without sound, or stopped. */
  sound(signal?: AbortSignal): Promise<WholeSound | null>;
  /** When another film of the same take began against this one. The samples are handed over. Null without sound in this film, or stopped. */
  align(other: WholeSound, signal?: AbortSignal): Promise<SoundOffset | null>;
  /** The head's own frame through a film from the front, from what was followed in it; some seconds for a long take. */
  head(film: FrontFilm): Promise<HeadFilm | NoHeadFilm>;
  /** The worker ends; what was asked and not answered rejects with an AbortError. */
  close(): void;
}

export interface JobAsked {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: FilmProgress) => void) | undefined;
}

/** Rejects with a sentence where no worker could be had or it died; a file that cannot be used is refused in words. */
export async function askFilm(file: File, startWorker: () => Worker = startPageWorker): Promise<FilmDoor | Refused> {
  let worker: Worker;
  try {
    worker = startWorker();
  } catch {
    throw new Error(sayWorkers('noFilmWorker'));
  }
  const ended = createEnd();
  const onFault = (event: Event): void => {
    event.preventDefault();
    ended.by(new Error(sayWorkers('filmWorkerDied')));
    worker.terminate();
  };
  worker.addEventListener('error', onFault);
  worker.addEventListener('messageerror', onFault);
  const desk = wrap<FilmDesk>(worker);
  const answer = await ended.orElse<FilmSeen | Refused>(desk.open(file, languageNow())).catch((fault: unknown) => {
    // Nobody has a door yet by which it could be ended.
    worker.terminate();
    throw fault;
  });
  if (answer.kind === 'refused') {
    worker.terminate();
    return answer;
  }
  let jobs = 0;
  const job = <Answer>(signal: AbortSignal | undefined, stopped: Answer, ask: (number: number) => Promise<Answer>): Promise<Answer> => {
    if (signal?.aborted) return Promise.resolve(stopped);
    const number = ++jobs;
    return orStopped(ended.orElse(ask(number)), signal, () => {
      void desk.stop(number);
      return stopped;
    });
  };
  return {
    kind: 'opened',
    facts: answer.facts,
    frameTimesS: answer.frameTimesS,
    frame: latestOnly((index) => ended.orElse(desk.frame(index))),
    overview: (buckets, signal) => job(signal, null, (number) => desk.overview(number, buckets)),
    follow: (settings, { signal, onProgress, ...stretch } = {}) =>
      job<Followed>(signal, { kind: 'stopped' }, (number) => desk.follow(number, settings, stretch, telling(signal, onProgress))),
    hear: (range, { signal, onProgress } = {}) => job<Heard>(signal, { kind: 'stopped' }, (number) => desk.hear(number, range, telling(signal, onProgress))),
    sound: (signal) => job<WholeSound | null>(signal, null, (number) => desk.sound(number)),
    align: (other, signal) => job<SoundOffset | null>(signal, null, (number) => desk.align(number, transfer(other, [other.samples.buffer]))),
    head: (film) => ended.orElse<HeadFilm | NoHeadFilm>(desk.head(film)),
    close() {
      ended.by(new DOMException('The film was closed.', 'AbortError'));
      worker.terminate();
    },
  };
}

const startPageWorker = (): Worker => new Worker(new URL('./filmWorker.ts', import.meta.url), { type: 'module', name: 'film' });

/** What the worker still tells after a stop is not passed on. */
const telling = (signal: AbortSignal | undefined, onProgress: JobAsked['onProgress']): ((progress: FilmProgress) => void) =>
  proxy((progress) => {
    if (signal?.aborted !== true) onProgress?.(progress);
  });

interface End {
  by(reason: Error): void;
  /** What the worker answers, or the reason why it never will. */
  orElse<Answer>(answer: Promise<Answer>): Promise<Answer>;
}

function createEnd(): End {
  let reject: (reason: Error) => void = () => undefined;
  const end = new Promise<never>((_, failed) => (reject = failed));
  end.catch(() => undefined);
  return { by: (reason) => reject(reason), orElse: (answer) => Promise.race([answer, end]) };
}

/** A stop is answered at once; the worker hears of it and ends the job when it can. */
function orStopped<Answer>(answer: Promise<Answer>, signal: AbortSignal | undefined, onStop: () => Answer): Promise<Answer> {
  if (signal === undefined) return answer;
  return new Promise((done, failed) => {
    const stop = (): void => done(onStop());
    signal.addEventListener('abort', stop, { once: true });
    void answer.then(done, failed).finally(() => signal.removeEventListener('abort', stop));
  });
}

/** While one question is out, the newest other one waits; those it overtakes are answered with null. */
function latestOnly<Answer>(ask: (index: number) => Promise<Answer>): (index: number) => Promise<Answer | null> {
  let isOut = false;
  let waiting: { readonly index: number; settle(answer: Promise<Answer> | null): void } | null = null;
  const run = (index: number): Promise<Answer> => {
    isOut = true;
    const answer = ask(index);
    const next = (): void => {
      isOut = false;
      const one = waiting;
      waiting = null;
      one?.settle(run(one.index));
    };
    answer.then(next, next);
    return answer;
  };
  return (index) => {
    if (!isOut) return run(index);
    waiting?.settle(null);
    return new Promise((settle) => (waiting = { index, settle }));
  };
}
