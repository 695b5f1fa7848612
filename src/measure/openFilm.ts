/** Opens a film from a file: what is in it, when each of its frames is, or a sentence why it cannot be used. */
import {
  BlobSource, Input, type InputAudioTrack, type InputTrack, type InputVideoTrack, Logging, LogLevel, MATROSKA, MP4, QTFF, UnsupportedInputFormatError,
  WEBM,
} from 'mediabunny';
import { sayMeasure } from '../words/measure';
import { fixed } from '../words/numbers';
import { fileKind, KIND_BYTES } from './fileKind';
import { hasVariableRate, readFrameSpans } from './frameTimes';
import { MOST_TRACED_FRAMES } from './packedTrace';
import { filmRefusals, type Refused } from './refusals';

/** 4K, cinema's width included: thirty planes of brightness (blocksBackward) of such a film are 280 MB, of an 8K one over 1 GB. */
export const MOST_FRAME_PIXELS = 4096 * 2304;
/** A take is one or two minutes. Frames are read about as fast as they were filmed, and nobody waits longer than this. */
export const MOST_FILM_S = 20 * 60;

/** All of it plain values, fit to be sent from a worker. Times in seconds, on the file's own clock. */
export interface FilmFacts {
  readonly name: string;
  /** First frame's beginning and last frame's end. */
  readonly startS: number;
  readonly endS: number;
  /** Upright, square px. */
  readonly width: number;
  readonly height: number;
  readonly frameCount: number;
  /** Mean over the film; NaN with a single frame. */
  readonly framesPerSecond: number;
  /** The distances between frames differ by more than the container's rounding. */
  readonly isVariable: boolean;
  readonly codecWords: string;
  readonly sound: SoundFacts | null;
  /** Sentences for people about what is unusual. */
  readonly told: readonly string[];
}

export interface SoundFacts {
  readonly sampleRate: number;
  readonly channels: number;
  /** Often a little before 0: coders put some silence in front. */
  readonly startS: number;
  readonly codecWords: string;
}

export interface OpenedFilm {
  readonly kind: 'opened';
  readonly facts: FilmFacts;
  /** Beginning of every frame that can be read, in order. */
  readonly frameTimesS: Float64Array;
  readonly video: InputVideoTrack;
  readonly audio: InputAudioTrack | null;
  /** Ends all reading; what is in the middle of it rejects. */
  close(): void;
}

/** Never rejects for what is in the file; a file that cannot be used is refused in words. */
export async function openFilm(file: Blob & { readonly name?: string }): Promise<OpenedFilm | Refused> {
  const name = file.name ?? '';
  if (file.size === 0) return filmRefusals.empty();
  if (typeof VideoDecoder === 'undefined') return filmRefusals.oldBrowser();
  Logging.level = LogLevel.Silent;
  const input = new Input({ source: new BlobSource(file, { handleUnhandledError: () => undefined }), formats: [MP4, QTFF, MATROSKA, WEBM] });
  let isOpened = false;
  try {
    const opened = await openInput(input, name);
    isOpened = opened.kind === 'opened';
    return opened;
  } catch (fault) {
    return await refusalOf(fault, file, name);
  } finally {
    if (!isOpened) input.dispose();
  }
}

/** Whether a film is refused for its length: told when it is opened, not when all has been followed and cannot be kept. null: it is not. */
export function refusalOfLength(frames: number, durationS: number): Refused | null {
  if (durationS > MOST_FILM_S) return filmRefusals.tooLong(durationS, MOST_FILM_S);
  return frames > MOST_TRACED_FRAMES ? filmRefusals.tooManyFrames(frames, MOST_TRACED_FRAMES) : null;
}

async function openInput(input: Input, name: string): Promise<OpenedFilm | Refused> {
  const audios = await input.getAudioTracks();
  const videos = await input.getVideoTracks();
  // Tracks are listed at the end of most films from phones.
  if (videos.length === 0) return audios.length > 0 ? filmRefusals.soundOnly(name) : filmRefusals.cutShort();
  const video = (await input.getPrimaryVideoTrack()) ?? videos[0]!;
  const statedEndS = await input.getDurationFromMetadata();
  if (statedEndS !== null && statedEndS > MOST_FILM_S) return filmRefusals.tooLong(statedEndS, MOST_FILM_S);
  const width = await video.getDisplayWidth();
  const height = await video.getDisplayHeight();
  if (width * height > MOST_FRAME_PIXELS) return filmRefusals.tooLarge(width, height, MOST_FRAME_PIXELS);
  const codecWords = await wordsOfCodec(video);
  if (!(await video.canDecode())) return filmRefusals.codec(codecWords);

  const { spans, isCut } = await readFrameSpans(video);
  const first = spans[0];
  const last = spans.at(-1);
  if (first === undefined || last === undefined) return isCut || (statedEndS ?? 0) > 0 ? filmRefusals.cutShort() : filmRefusals.noFrames();
  if (isCut && last.endS - first.startS < LEAST_LEFT_S) return filmRefusals.cutShort();
  const tooLong = refusalOfLength(spans.length, last.endS - first.startS);
  if (tooLong !== null) return tooLong;
  const { audio, words } = await usableSound(await input.getPrimaryAudioTrack(), audios);
  const told: string[] = [];
  const readEndS = Math.max(last.endS, audio === null ? 0 : await audio.computeDuration());
  if (isCut || (statedEndS !== null && statedEndS - readEndS > MISSING_END_S)) {
    told.push(sayMeasure('onlyTheFirst', { seconds: fixed(last.endS, 1) }));
  }
  if (words !== null) told.push(words);
  const frameTimesS = Float64Array.from(spans, ({ startS }) => startS);
  return {
    kind: 'opened',
    facts: {
      name,
      width,
      height,
      codecWords,
      told,
      startS: first.startS,
      endS: last.endS,
      frameCount: spans.length,
      framesPerSecond: (spans.length - 1) / (last.startS - first.startS),
      isVariable: hasVariableRate(frameTimesS, await video.getTimeResolution()),
      sound: audio === null ? null : await soundFacts(audio),
    },
    frameTimesS,
    video,
    audio,
    close: () => input.dispose(),
  };
}

/** Of what the file itself says it lasts; less is how its writer rounds or counts. */
const MISSING_END_S = 0.5;
/** Less than this of a film that was cut short holds no note. */
const LEAST_LEFT_S = 0.5;

/** The first track that can be read: some phones add a second one in a format of their own. */
async function usableSound(
  primary: InputAudioTrack | null, all: readonly InputAudioTrack[],
): Promise<{ readonly audio: InputAudioTrack | null; readonly words: string | null }> {
  for (const track of new Set([...(primary === null ? [] : [primary]), ...all])) {
    if (await track.canDecode()) return { audio: track, words: null };
  }
  return { audio: null, words: all.length === 0 ? sayMeasure('noSound') : sayMeasure('soundCodec', { codec: await wordsOfCodec(all[0]!) }) };
}

async function soundFacts(audio: InputAudioTrack): Promise<SoundFacts> {
  return {
    sampleRate: await audio.getSampleRate(),
    channels: await audio.getNumberOfChannels(),
    startS: await audio.getFirstTimestamp(),
    codecWords: await wordsOfCodec(audio),
  };
}

const CODEC_WORDS: Readonly<Record<string, string>> = {
  avc: 'H.264', hevc: 'HEVC (H.265)', vp8: 'VP8', vp9: 'VP9', av1: 'AV1', aac: 'AAC', opus: 'Opus', mp3: 'MP3', vorbis: 'Vorbis', flac: 'FLAC',
};

async function wordsOfCodec(track: InputTrack): Promise<string> {
  const codec = await track.getCodec();
  if (codec !== null) return CODEC_WORDS[codec] ?? (codec.startsWith('pcm') ? 'PCM' : codec);
  const own = await track.getInternalCodecId();
  return typeof own === 'string' && /^[\w/ .-]{1,40}$/.test(own) ? sayMeasure('ownCodec', { codec: own.trim() }) : sayMeasure('unknownCodec');
}

async function refusalOf(fault: unknown, file: Blob, name: string): Promise<Refused> {
  let kind;
  try {
    kind = fileKind(new Uint8Array(await file.slice(0, KIND_BYTES).arrayBuffer()));
  } catch {
    return filmRefusals.unreadable();
  }
  switch (kind) {
    case 'text':
      return filmRefusals.text(name);
    case 'picture':
    case 'heic':
      return filmRefusals.picture(name);
    case 'sound':
      return filmRefusals.soundOnly(name);
    case 'film':
      return fault instanceof UnsupportedInputFormatError ? filmRefusals.cutShort() : filmRefusals.damaged();
    case 'unknown':
      return filmRefusals.otherKind(name);
  }
}
