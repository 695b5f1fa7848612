/** Makes small films whose every frame says its own number, as sixteen bars of brightness, and which way is up. */
import {
  type AudioCodec, AudioSample, AudioSampleSource, BufferTarget, CanvasSource, MkvOutputFormat, MovOutputFormat, Mp4OutputFormat, Output, Quality,
  type VideoCodec, WebMOutputFormat,
} from 'mediabunny';
import type { GreyPicture } from '../../../src/measure/picture';

export interface SoundWanted {
  readonly codec: AudioCodec;
  readonly sampleRate?: number;
  readonly channels?: number;
  readonly startS?: number;
  /** Half a second of each note, MIDI, instead of the clicks. */
  readonly melody?: readonly number[];
}

export interface FilmWanted {
  readonly container?: 'mp4' | 'mp4-start' | 'mp4-fragments' | 'mov' | 'webm' | 'webm-live' | 'mkv';
  readonly video?: VideoCodec | null;
  readonly sound?: SoundWanted | null;
  /** Upright. */
  readonly width?: number;
  readonly height?: number;
  /** How the stored frames must be turned to stand upright, clockwise. */
  readonly rotation?: 0 | 90 | 180 | 270;
  /** Beginning of each frame; the default is 2 s at 25 frames a second. */
  readonly timesS?: readonly number[];
  readonly keyEveryS?: number;
  readonly bitrate?: number;
  /** A moving pattern behind, as much work to decode as a filmed one. */
  readonly isBusy?: boolean;
}

export const evenTimesS = (count: number, framesPerSecond: number): number[] => Array.from({ length: count }, (_, index) => index / framesPerSecond);

export async function makeFilm(wanted: FilmWanted = {}): Promise<Blob> {
  const { container = 'mp4', video = 'avc', sound = null, width = 320, height = 240, rotation = 0 } = wanted;
  const timesS = wanted.timesS ?? evenTimesS(50, 25);
  const target = new BufferTarget();
  const output = new Output({ format: formatOf(container), target });
  const isOnSide = rotation % 180 !== 0;
  const canvas = new OffscreenCanvas(isOnSide ? height : width, isOnSide ? width : height);
  const context = canvas.getContext('2d')!;
  const frames = video === null ? null : new CanvasSource(canvas, { codec: video, quality: new Quality({ bitrate: wanted.bitrate ?? 600_000 }), keyFrameInterval: wanted.keyEveryS ?? 1 });
  if (frames !== null) output.addVideoTrack(frames, { rotation });
  const samples = sound === null ? null : new AudioSampleSource({ codec: sound.codec, ...(sound.codec.startsWith('pcm') ? {} : { quality: new Quality({ bitrate: 96_000 }) }) });
  if (samples !== null) output.addAudioTrack(samples);
  const pattern = wanted.isBusy ? busyPattern(width, height) : null;
  await output.start();
  const endS = (timesS.at(-1) ?? 0) + 0.04;
  if (samples !== null && sound !== null) {
    for (const sample of toneOf(sound, endS)) {
      await samples.add(sample);
      sample.close();
    }
  }
  for (const [index, timeS] of timesS.entries()) {
    if (frames === null) break;
    drawUprightFrame(context, width, height, rotation, index, pattern);
    await frames.add(timeS, (timesS[index + 1] ?? endS) - timeS);
  }
  await output.finalize();
  return new Blob([target.buffer!]);
}

/** The number that a frame shows, read from its brightness. */
export function numberShown({ width, height, luma }: GreyPicture): number {
  const row = Math.round(height * BARS_AT);
  let number = 0;
  for (let bit = 0; bit < BITS; bit++) if (luma[row * width + Math.round(((bit + 0.5) * width) / BITS)]! > MIDDLE) number |= 1 << bit;
  return number;
}

/** The corners' brightness, from the upper left clockwise: bright, dark, dark, middling where the frame is upright. */
export function cornersShown({ width, height, luma }: GreyPicture): number[] {
  const at = (x: number, y: number): number => luma[Math.round(y * height) * width + Math.round(x * width)]!;
  return [at(0.1, 0.12), at(0.9, 0.12), at(0.9, 0.88), at(0.1, 0.88)];
}

/** Where the busy pattern's corner lies in a frame, px. */
export const patternAt = (number: number): { x: number; y: number } => ({ x: -40 + 30 * Math.sin(number / 9), y: -40 + 20 * Math.cos(number / 7) });

/** A tone that starts with the sound's own clock at 0 and clicks to 0.9 for one millisecond at each whole half second. */
export const CLICK_EVERY_S = 0.5;

function drawUprightFrame(context: OffscreenCanvasRenderingContext2D, width: number, height: number, rotation: number, number: number, pattern: OffscreenCanvas | null): void {
  const { canvas } = context;
  context.resetTransform();
  context.translate(canvas.width / 2, canvas.height / 2);
  context.rotate((-rotation * Math.PI) / 180);
  context.translate(-width / 2, -height / 2);
  context.fillStyle = '#404040';
  context.fillRect(0, 0, width, height);
  const at = patternAt(number);
  if (pattern !== null) context.drawImage(pattern, at.x, at.y);
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width * 0.2, height * 0.25);
  context.fillStyle = '#808080';
  context.fillRect(0, height * 0.75, width * 0.2, height * 0.25);
  for (let bit = 0; bit < BITS; bit++) {
    context.fillStyle = (number >> bit) & 1 ? '#ffffff' : '#000000';
    context.fillRect((bit * width) / BITS, height * (BARS_AT - 0.1), width / BITS, height * 0.2);
  }
}

function busyPattern(width: number, height: number): OffscreenCanvas {
  const canvas = new OffscreenCanvas(width + 80, height + 80);
  const context = canvas.getContext('2d')!;
  const spots = (width * height) / 60;
  for (let spot = 0; spot < spots; spot++) {
    context.fillStyle = `hsl(${(spot * 37) % 360} 40% ${20 + ((spot * 53) % 60)}%)`;
    context.fillRect(((spot * 0.618034) % 1) * canvas.width, ((spot * 0.754878) % 1) * canvas.height, 4 + (spot % 17), 4 + (spot % 11));
  }
  return canvas;
}

const BITS = 16;
const BARS_AT = 0.5;
const MIDDLE = 128;

function* toneOf({ sampleRate = 48_000, channels = 1, startS = 0, melody }: SoundWanted, endS: number): Generator<AudioSample> {
  const whole = Math.round((endS - startS) * sampleRate);
  for (let from = 0; from < whole; from += 4800) {
    const block = Math.min(4800, whole - from);
    const data = new Float32Array(block * channels);
    for (let index = 0; index < block; index++) {
      const timeS = startS + (from + index) / sampleRate;
      const intoHalf = ((timeS % CLICK_EVERY_S) + CLICK_EVERY_S) % CLICK_EVERY_S;
      const value = melody === undefined ? (intoHalf < 0.001 ? 0.9 : 0.1 * Math.sin(2 * Math.PI * 440 * timeS)) : melodyAt(melody, timeS);
      // Only the first channel sounds: a mean of two is half as loud.
      data[index] = value;
    }
    yield new AudioSample({ data, format: 'f32-planar', numberOfChannels: channels, sampleRate, timestamp: startS + from / sampleRate });
  }
}

function melodyAt(melody: readonly number[], timeS: number): number {
  const midi = melody[Math.floor(timeS / CLICK_EVERY_S)];
  if (midi === undefined) return 0;
  const turns = 2 * Math.PI * 440 * 2 ** ((midi - 69) / 12) * timeS;
  return 0.3 * Math.sin(turns) + 0.15 * Math.sin(2 * turns) + 0.08 * Math.sin(3 * turns);
}

function formatOf(container: NonNullable<FilmWanted['container']>) {
  switch (container) {
    case 'mp4':
      return new Mp4OutputFormat({ fastStart: false });
    case 'mp4-start':
      return new Mp4OutputFormat({ fastStart: 'in-memory' });
    case 'mp4-fragments':
      return new Mp4OutputFormat({ fastStart: 'fragmented' });
    case 'mov':
      return new MovOutputFormat({ fastStart: false });
    case 'webm':
      return new WebMOutputFormat();
    case 'webm-live':
      return new WebMOutputFormat({ appendOnly: true });
    case 'mkv':
      return new MkvOutputFormat();
  }
}
