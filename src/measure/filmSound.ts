/** The sound of a film as one channel, at the file's own times. docs/numerics.md §20. */
import { type AudioSample, AudioSampleSink } from 'mediabunny';
import { brokenFilm } from './filmBroken';
import type { OpenedFilm } from './openFilm';

export interface SoundBlock {
  /** Of the first sample, on the file's own clock: the frames' clock too. */
  readonly timeS: number;
  readonly sampleRate: number;
  /** Mean of the channels, −1 to 1. Written over when the next block is asked for. */
  readonly samples: Float32Array;
}

/** In order, as they are stored (some 20 ms each). Nothing without sound; ends early when stopped; throws FilmBroken. */
export async function* soundBlocks({ audio }: OpenedFilm, signal?: AbortSignal): AsyncGenerator<SoundBlock, void, void> {
  if (audio === null) return;
  const mix = createMixer();
  let reachedS = 0;
  const samples = new AudioSampleSink(audio).samples();
  try {
    while (!signal?.aborted) {
      const step = await samples.next().catch((fault: unknown) => {
        throw brokenFilm(reachedS, fault);
      });
      if (step.done) return;
      const sample = step.value;
      let block: SoundBlock;
      try {
        block = { timeS: sample.timestamp, sampleRate: sample.sampleRate, samples: mix(sample) };
      } finally {
        sample.close();
      }
      reachedS = block.timeS;
      yield block;
    }
  } finally {
    await samples.return();
  }
}

/** One channel; owned by whoever asked for it. */
export interface WholeSound {
  /** Of the first sample, on the file's own clock. */
  readonly timeS: number;
  readonly sampleRate: number;
  readonly samples: Float32Array;
}

/** All of the sound in one piece: 12 MB a minute. Silence where the file has a gap. Null without sound, or stopped. */
export async function wholeSound(film: OpenedFilm, signal?: AbortSignal): Promise<WholeSound | null> {
  const { sound, endS } = film.facts;
  if (sound === null) return null;
  let whole = new Float32Array(0);
  let timeS: number | null = null;
  let length = 0;
  let { sampleRate } = sound;
  for await (const block of soundBlocks(film, signal)) {
    if (timeS === null) {
      timeS = block.timeS;
      // What is decoded counts: some files state another rate.
      sampleRate = block.sampleRate;
      whole = new Float32Array(Math.ceil((Math.max(endS - timeS, 0) + SPARE_S) * sampleRate));
    }
    const stamped = Math.round((block.timeS - timeS) * sampleRate);
    // Stamps are rounded, to a whole millisecond in WebM: only a real gap or overlap moves what follows.
    const at = Math.abs(stamped - length) > GAP_S * sampleRate ? Math.max(0, stamped) : length;
    const end = at + block.samples.length;
    if (end > whole.length) {
      const longer = new Float32Array(Math.ceil(end * GROWTH));
      longer.set(whole);
      whole = longer;
    }
    whole.set(block.samples, at);
    length = Math.max(length, end);
  }
  return signal?.aborted || timeS === null ? null : { timeS, sampleRate, samples: whole.slice(0, length) };
}

/** Twice the rounding of a stamp to milliseconds, with room for a coder's own. */
const GAP_S = 0.005;
/** By how much sound usually outlasts the pictures. */
const SPARE_S = 0.5;
const GROWTH = 1.25;

/** Lowest and highest sample in each of equal stretches, for a wave form to look at. */
export interface SoundOverview {
  readonly startS: number;
  readonly endS: number;
  readonly lowest: Float32Array;
  readonly highest: Float32Array;
}

/** Of the film's own stretch (`facts.startS` to `endS`), so that it lies beside its frames. Null without sound, or stopped. RangeError for `buckets`. */
export async function soundOverview(film: OpenedFilm, buckets: number, signal?: AbortSignal): Promise<SoundOverview | null> {
  if (!Number.isInteger(buckets) || buckets < 1 || buckets > MOST_BUCKETS) {
    throw new RangeError(`buckets ${buckets}; allowed: whole numbers from 1 to ${MOST_BUCKETS}`);
  }
  if (film.audio === null) return null;
  const { startS, endS } = film.facts;
  const lowest = new Float32Array(buckets);
  const highest = new Float32Array(buckets);
  for await (const block of soundBlocks(film, signal)) {
    const perSample = buckets / ((endS - startS) * block.sampleRate);
    const first = ((block.timeS - startS) / (endS - startS)) * buckets;
    for (let index = 0; index < block.samples.length; index++) {
      const bucket = Math.floor(first + index * perSample);
      if (bucket < 0 || bucket >= buckets) continue;
      const value = block.samples[index]!;
      if (value < lowest[bucket]!) lowest[bucket] = value;
      else if (value > highest[bucket]!) highest[bucket] = value;
    }
  }
  return signal?.aborted ? null : { startS, endS, lowest, highest };
}

/** More than any screen is wide. */
const MOST_BUCKETS = 100_000;

/** Mixes one sample after the other into the same buffers. */
function createMixer(): (sample: AudioSample) => Float32Array {
  let mixed = new Float32Array(0);
  let plane = new Float32Array(0);
  return (sample) => {
    const { numberOfFrames, numberOfChannels } = sample;
    if (mixed.length < numberOfFrames) {
      mixed = new Float32Array(numberOfFrames);
      plane = new Float32Array(numberOfFrames);
    }
    const sum = mixed.subarray(0, numberOfFrames);
    const one = plane.subarray(0, numberOfFrames);
    sample.copyTo(sum, { planeIndex: 0, format: 'f32-planar' });
    for (let channel = 1; channel < numberOfChannels; channel++) {
      sample.copyTo(one, { planeIndex: channel, format: 'f32-planar' });
      for (let index = 0; index < numberOfFrames; index++) sum[index]! += one[index]!;
    }
    if (numberOfChannels > 1) for (let index = 0; index < numberOfFrames; index++) sum[index]! /= numberOfChannels;
    return sum;
  };
}
