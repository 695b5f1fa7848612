/** Frames and sound into a film's file, by the browser's own encoders (WebCodecs); mediabunny puts them together. */
import { AudioSample, AudioSampleSource, BufferTarget, CanvasSource, Mp4OutputFormat, Output, QUALITY_HIGH, WebMOutputFormat } from 'mediabunny';
import type { FilmFormat } from './filmFormats';
import { SOUND_RATE } from './toneSamples';

export interface FilmJob {
  readonly format: FilmFormat;
  /** Drawn on before every frame; its size is the film's. */
  readonly canvas: HTMLCanvasElement;
  readonly framesPerS: number;
  readonly frames: number;
  draw(frame: number): Promise<void>;
  /** One channel at SOUND_RATE; null: a silent film. */
  readonly sound: Float32Array | null;
  readonly signal: AbortSignal;
  /** 0 to 1, after each frame. */
  onProgress(part: number): void;
}

/** Null where it was stopped: then nothing is left behind. Rejects where an encoder fails. */
export async function writeFilm(job: FilmJob): Promise<Blob | null> {
  const { format, canvas, framesPerS, frames, draw, sound, signal, onProgress } = job;
  const target = new BufferTarget();
  const container = format.container === 'mp4' ? new Mp4OutputFormat({ fastStart: 'in-memory' }) : new WebMOutputFormat();
  const output = new Output({ format: container, target });
  const picture = new CanvasSource(canvas, { codec: format.video, quality: QUALITY_HIGH, keyFrameInterval: KEY_FRAMES_S });
  output.addVideoTrack(picture, { frameRate: framesPerS });
  const tone = sound === null || format.sound === null ? null : new AudioSampleSource({ codec: format.sound, quality: QUALITY_HIGH });
  if (tone !== null) output.addAudioTrack(tone);
  try {
    await output.start();
    let heard = 0;
    for (let frame = 0; frame < frames; frame++) {
      if (signal.aborted) break;
      if (tone !== null) heard = await addSound(tone, sound!, heard, Math.round(((frame + 1) / framesPerS) * SOUND_RATE));
      await draw(frame);
      await picture.add(frame / framesPerS, 1 / framesPerS);
      onProgress((frame + 1) / frames);
      // Room for the page, and for a click on the button that stops this.
      await new Promise((done) => setTimeout(done, 0));
    }
    if (signal.aborted) {
      await output.cancel();
      return null;
    }
    if (tone !== null) await addSound(tone, sound!, heard, sound!.length);
    await output.finalize();
  } catch (error) {
    await output.cancel().catch(() => undefined);
    throw error;
  }
  return new Blob([target.buffer!], { type: container.mimeType });
}

/** Between frames that stand alone, s: a player can jump to each. */
const KEY_FRAMES_S = 1;

async function addSound(tone: AudioSampleSource, sound: Float32Array, from: number, to: number): Promise<number> {
  const end = Math.min(to, sound.length);
  if (end <= from) return from;
  const sample = new AudioSample({ data: sound.slice(from, end), format: 'f32', numberOfChannels: 1, sampleRate: SOUND_RATE, timestamp: from / SOUND_RATE });
  await tone.add(sample);
  sample.close();
  return end;
}
