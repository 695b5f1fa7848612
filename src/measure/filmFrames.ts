/** The frames of a film, each once, in order and with its own time; one after the other, never all at once. docs/numerics.md §20. */
import { type VideoSample, VideoSampleSink } from 'mediabunny';
import { sayMeasure } from '../words/measure';
import { brokenFilm, changedSize } from './filmBroken';
import { frameIndexAt } from './frameTimes';
import { createLumaReader, type FrameSeen, type LumaReader } from './lumaPlane';
import type { OpenedFilm } from './openFilm';
import type { GreyPicture } from './picture';

export interface FilmFrame {
  /** Of its beginning, on the file's own clock. */
  readonly timeS: number;
  readonly frame: GreyPicture;
}

export interface FramesAsked {
  /** First and last frame, by their index in `frameTimesS`, both included; absent, the film's own first and last. */
  readonly first?: number | undefined;
  readonly last?: number | undefined;
  /** Stopped, the frames end early; who asked looks at the signal. */
  readonly signal?: AbortSignal | undefined;
}

/**
 * In order. A frame's brightness is written over when the next one is asked for. Throws FilmBroken where the film cannot be decoded further,
 * RangeError for frames that are not in it.
 */
export async function* greyFrames(film: OpenedFilm, asked: FramesAsked = {}): AsyncGenerator<FilmFrame, void, void> {
  const { first, last } = rangeOf(film, asked);
  const reader = createLumaReader();
  for await (const sample of decoded(film, first, last, asked.signal)) {
    try {
      yield { timeS: stampOf(sample, film), frame: await greyOf(sample, film, reader) };
    } finally {
      sample.close();
    }
    if (asked.signal?.aborted) return;
  }
}

/** Planes of brightness that are kept at once when a film is followed backward. */
export const MOST_BLOCK_FRAMES = 30;

/**
 * From the last frame back to the first, in blocks of at most 30; in each block the latest frame comes first. A block's frames are written
 * over when the next one is asked for. Throws as `greyFrames` does.
 */
export async function* blocksBackward(film: OpenedFilm, asked: FramesAsked = {}): AsyncGenerator<readonly FilmFrame[], void, void> {
  const { first, last } = rangeOf(film, asked);
  const { width, height } = film.facts;
  const reader = createLumaReader();
  const planes: Uint8Array[] = [];
  for (let end = last; end >= first; end -= MOST_BLOCK_FRAMES) {
    const block: FilmFrame[] = [];
    for await (const sample of decoded(film, Math.max(first, end - MOST_BLOCK_FRAMES + 1), end, asked.signal)) {
      try {
        const plane = (planes[block.length] ??= new Uint8Array(width * height));
        block.push({ timeS: stampOf(sample, film), frame: await greyOf(sample, film, reader, plane) });
      } finally {
        sample.close();
      }
      if (asked.signal?.aborted) return;
    }
    if (asked.signal?.aborted) return;
    yield block.reverse();
  }
}

/** One frame to look at. The bitmap is upright and the caller's to close. */
export interface ShownFrame {
  readonly index: number;
  readonly timeS: number;
  readonly bitmap: ImageBitmap;
}

export interface FrameShower {
  /** The frame of this index in `frameTimesS`. The next ones in order, and those just before, come without looking for them anew. */
  show(index: number): Promise<ShownFrame>;
  close(): void;
}

/** Only one `show` at a time. */
export function createFrameShower(film: OpenedFilm): FrameShower {
  const { width, height } = film.facts;
  const keepable = Math.max(1, Math.min(MOST_KEPT_FRAMES, Math.floor(MOST_KEPT_PIXELS / (width * height))));
  /** Of the frames before the one that was stepped back to. */
  const kept = new Map<number, ImageBitmap>();
  let open: { readonly samples: AsyncGenerator<VideoSample, void, void>; next: number } | null = null;
  let shownLast = 0;
  const startAt = async (index: number): Promise<NonNullable<typeof open>> => {
    await open?.samples.return();
    open = { samples: decoded(film, index, film.frameTimesS.length - 1), next: index };
    return open;
  };
  const forget = (): void => {
    for (const bitmap of kept.values()) bitmap.close();
    kept.clear();
  };
  return {
    async show(index) {
      rangeOf(film, { first: index, last: index });
      const timeS = film.frameTimesS[index]!;
      const isBack = index < shownLast && shownLast - index <= keepable;
      const isAhead = open !== null && index >= open.next && index - open.next <= NEAR_FRAMES;
      shownLast = index;
      const known = kept.get(index);
      if (known !== undefined) return { index, timeS, bitmap: await createImageBitmap(known) };
      if (isBack) forget();
      const from = open !== null && isAhead ? open : await startAt(isBack ? Math.max(0, index - keepable + 1) : index);
      for (;;) {
        const step = await from.samples.next();
        if (step.done) throw brokenFilm(timeS);
        try {
          if (isBack && from.next < index) kept.set(from.next, bitmapOf(step.value, film));
          from.next += 1;
          if (from.next > index) return { index, timeS, bitmap: bitmapOf(step.value, film) };
        } finally {
          step.value.close();
        }
      }
    },
    close() {
      forget();
      void open?.samples.return();
      open = null;
    },
  };
}

/** So many frames are passed over rather than looked for: decoding goes by key frames, which lie about this far apart at best. */
const NEAR_FRAMES = 15;
/** To look for a frame takes as long as to decode some thirty: a step back brings these along, so that the next steps back cost nothing. */
const MOST_KEPT_FRAMES = 12;
/** 64 MB of colour: eleven frames of 1920 × 1080 would be 91 MB. */
const MOST_KEPT_PIXELS = 16e6;

function rangeOf({ frameTimesS }: OpenedFilm, { first = 0, last = frameTimesS.length - 1 }: FramesAsked): { first: number; last: number } {
  const isWithin = (index: number): boolean => Number.isInteger(index) && index >= 0 && index < frameTimesS.length;
  if (!isWithin(first) || !isWithin(last) || first > last) {
    throw new RangeError(`frames ${first} to ${last}; allowed: whole numbers from 0 to ${frameTimesS.length - 1}, the first not after the last`);
  }
  return { first, last };
}

/** Every sample is closed by whoever takes it; those in waiting are closed when the walk ends. */
async function* decoded({ video, frameTimesS }: OpenedFilm, first: number, last: number, signal?: AbortSignal): AsyncGenerator<VideoSample, void, void> {
  if (signal?.aborted) return;
  const after = frameTimesS[last + 1];
  const samples = new VideoSampleSink(video).samples(frameTimesS[first]! + STAMP_SLACK_S, after === undefined ? undefined : after - STAMP_SLACK_S);
  // A decoder may take long over one frame; a stop does not wait for it.
  let onStop: (() => void) | undefined;
  const stopped = new Promise<{ readonly done: true; readonly value: undefined }>((resolve) => {
    onStop = () => resolve({ done: true, value: undefined });
    signal?.addEventListener('abort', onStop, { once: true });
  });
  let reachedS = frameTimesS[first]!;
  try {
    for (;;) {
      const coming = samples.next();
      const step = await Promise.race([coming, stopped]).catch((fault: unknown) => {
        throw brokenFilm(reachedS, fault);
      });
      if (step.done) {
        // Where the stop came first, the frame may come all the same.
        void coming.then(({ value }) => value?.close()).catch(() => undefined);
        return;
      }
      reachedS = step.value.timestamp;
      yield step.value;
    }
  } finally {
    if (onStop !== undefined) signal?.removeEventListener('abort', onStop);
    await samples.return();
  }
}

/** A decoder carries whole microseconds; the file's own stamp is the one beside it. */
const stampOf = ({ timestamp }: VideoSample, { frameTimesS }: OpenedFilm): number => frameTimesS[frameIndexAt(frameTimesS, timestamp + STAMP_SLACK_S)]!;

/** More than a microsecond, and far less than any two frames are apart. */
const STAMP_SLACK_S = 2e-5;

async function greyOf(sample: VideoSample, film: OpenedFilm, reader: LumaReader, into?: Uint8Array): Promise<GreyPicture> {
  const { displayWidth: width, displayHeight: height } = sample;
  const fault = changedSize(stampOf(sample, film), { width, height }, film.facts);
  if (fault !== null) throw fault;
  const frame = sample.toVideoFrame();
  try {
    const seen: FrameSeen = {
      frame,
      turn: { rotationDeg: sample.rotation, isFlipped: sample.flip },
      width,
      height,
    };
    return await reader.read(seen, into);
  } finally {
    frame.close();
  }
}

function bitmapOf(sample: VideoSample, { facts }: OpenedFilm): ImageBitmap {
  const canvas = new OffscreenCanvas(facts.width, facts.height);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error(sayMeasure('noShowing'));
  sample.draw(context, 0, 0, facts.width, facts.height);
  return canvas.transferToImageBitmap();
}
