/** Runs in a worker: one film, opened once, looked at and worked through. Asked by `askFilm`. */
import { expose, transfer } from 'comlink';
import { alignSounds, type SoundOffset } from '../measure/alignSound';
import { createFrameShower, type FrameShower, type ShownFrame } from '../measure/filmFrames';
import { type SoundOverview, soundOverview, type WholeSound, wholeSound } from '../measure/filmSound';
import type { FilmTrackerSettings } from '../measure/filmTracker';
import { type Followed, followFilm } from '../measure/followFilm';
import { type FrontFilm, type HeadFilm, headFromFilm, type NoHeadFilm } from '../measure/headFromFilm';
import { type Heard, hearFilm } from '../measure/hearFilm';
import type { NoteRange } from '../measure/noteStates';
import { type FilmFacts, type OpenedFilm, openFilm } from '../measure/openFilm';
import type { FilmProgress } from '../measure/progress';
import type { Refused } from '../measure/refusals';
import { type Language, speak } from '../words/language';

export interface FilmSeen {
  readonly kind: 'opened';
  readonly facts: FilmFacts;
  readonly frameTimesS: Float64Array;
}

export interface FilmStretch {
  /** Seconds on the film's own clock; absent, the film's own ends. */
  readonly fromS?: number | undefined;
  readonly toS?: number | undefined;
}

/** What the worker answers to. A job has a number of the asker's own, by which it is stopped. */
export interface FilmDesk {
  /** `language`: in which is told, from here on, what goes wrong. */
  open(file: File, language: Language): Promise<FilmSeen | Refused>;
  /** One at a time. Rejects with a sentence where the film is damaged. */
  frame(index: number): Promise<ShownFrame>;
  overview(job: number, buckets: number): Promise<SoundOverview | null>;
  follow(job: number, settings: FilmTrackerSettings, stretch: FilmStretch, onProgress: (progress: FilmProgress) => void): Promise<Followed>;
  hear(job: number, range: NoteRange, onProgress: (progress: FilmProgress) => void): Promise<Heard>;
  sound(job: number): Promise<WholeSound | null>;
  /** When another film of the same take began against this one, from the other's sound. Null without sound here, or stopped. */
  align(job: number, other: WholeSound): Promise<SoundOffset | null>;
  /** The head's own frame through a film from the front. No film need be open. */
  head(film: FrontFilm): HeadFilm | NoHeadFilm;
  /** A job that is done, or none, is left alone. */
  stop(job: number): void;
}

function createFilmDesk(): FilmDesk {
  let film: OpenedFilm | null = null;
  let shower: FrameShower | null = null;
  const jobs = new Map<number, AbortController>();
  const opened = (): OpenedFilm => {
    if (film === null) throw new Error('no film is open');
    return film;
  };
  const asJob = async <Answer>(job: number, work: (film: OpenedFilm, signal: AbortSignal) => Promise<Answer>): Promise<Answer> => {
    const stop = new AbortController();
    jobs.set(job, stop);
    try {
      return await work(opened(), stop.signal);
    } finally {
      jobs.delete(job);
    }
  };
  return {
    async open(file, language) {
      await speak(language).catch(() => undefined);
      const answer = await openFilm(file);
      if (answer.kind === 'refused') return answer;
      film = answer;
      return { kind: 'opened', facts: answer.facts, frameTimesS: answer.frameTimesS };
    },
    async frame(index) {
      shower ??= createFrameShower(opened());
      const shown = await shower.show(index);
      return transfer(shown, [shown.bitmap]);
    },
    async overview(job, buckets) {
      const overview = await asJob(job, (open, signal) => soundOverview(open, buckets, signal));
      return overview === null ? null : transfer(overview, [overview.lowest.buffer, overview.highest.buffer]);
    },
    follow: (job, settings, stretch, onProgress) => asJob(job, (open, signal) => followFilm(open, settings, { ...stretch, signal, onProgress })),
    hear: (job, range, onProgress) => asJob(job, (open, signal) => hearFilm(open, range, { signal, onProgress })),
    async sound(job) {
      const sound = await asJob(job, wholeSound);
      return sound === null ? null : transfer(sound, [sound.samples.buffer]);
    },
    async align(job, other) {
      const own = await asJob(job, wholeSound);
      return own === null ? null : alignSounds(own, other);
    },
    head: headFromFilm,
    stop: (job) => jobs.get(job)?.abort(),
  };
}

expose(createFilmDesk());
