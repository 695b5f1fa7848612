/** How a scene is put into a file, and at which times its frames were taken. */
import { createRandom } from '../../../src/core/random';
import type { Scene } from './sceneTypes';

export interface FilmFormat {
  /** Default 'mp4'. */
  readonly container?: 'mp4' | 'mov' | 'webm';
  /** Default 'avc' (H.264), in WebM 'vp9'; null: no picture. */
  readonly video?: 'avc' | 'vp8' | 'vp9' | 'av1' | null;
  /** Default 'opus', in .mov 'pcm-s16'; null: no sound. */
  readonly sound?: 'opus' | 'pcm-s16' | null;
  /** Degrees clockwise by which a player must turn the stored picture to have it upright; default 0. */
  readonly rotation?: 0 | 90 | 180 | 270;
  /** Uneven times between frames, now and then one left out, as phones do in dim light; default false. */
  readonly unevenTimes?: boolean;
  /** Default 8 million, a phone's for 720 lines (value from memory). */
  readonly bitsPerS?: number;
}

export type WholeFormat = { readonly [Key in keyof FilmFormat]-?: Exclude<FilmFormat[Key], undefined> };

export function wholeFormat(format: FilmFormat): WholeFormat {
  const container = format.container ?? 'mp4';
  return {
    container,
    video: format.video === undefined ? (container === 'webm' ? 'vp9' : 'avc') : format.video,
    sound: format.sound === undefined ? (container === 'mov' ? 'pcm-s16' : 'opus') : format.sound,
    rotation: format.rotation ?? 0,
    unevenTimes: format.unevenTimes ?? false,
    bitsPerS: format.bitsPerS ?? 8_000_000,
  };
}

/** Seconds, rising, from 0; what the file says may be rounded to its own clock (a millisecond in WebM). */
export function frameTimes({ durationS, framesPerS, seed }: Scene, { unevenTimes }: FilmFormat): number[] {
  if (!unevenTimes) return Array.from({ length: Math.round(durationS * framesPerS) }, (_, at) => at / framesPerS);
  const random = createRandom(seed, 42);
  const times: number[] = [];
  for (let at = 0; at < durationS; at += ((random.uniform() < 0.06 ? 2 : 1) * (0.75 + 0.5 * random.uniform())) / framesPerS) times.push(Math.round(at * 1e6) / 1e6);
  return times;
}

/** The picture turned clockwise by a multiple of 90 degrees. */
export function turnedClockwise(luma: Uint8Array, width: number, height: number, degrees: 0 | 90 | 180 | 270): { readonly luma: Uint8Array; readonly width: number; readonly height: number } {
  if (degrees === 0) return { luma, width, height };
  const out = new Uint8Array(luma.length);
  const quarter = degrees !== 180;
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const to = degrees === 90 ? x * height + (height - 1 - y) : degrees === 180 ? (height - 1 - y) * width + (width - 1 - x) : (width - 1 - x) * height + y;
      out[to] = luma[y * width + x]!;
    }
  }
  return { luma: out, width: quarter ? height : width, height: quarter ? width : height };
}
