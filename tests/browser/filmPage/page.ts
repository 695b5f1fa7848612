/** Draws films and encodes them here, where WebCodecs is; reads one back so that a test can hold it against what was drawn. */
import {
  ALL_FORMATS,
  AudioSample,
  AudioSampleSource,
  BlobSource,
  BufferTarget,
  Input,
  MovOutputFormat,
  Mp4OutputFormat,
  Output,
  Quality,
  VideoSample,
  VideoSampleSink,
  VideoSampleSource,
  WebMOutputFormat,
} from 'mediabunny';
import { type WholeFormat, frameTimes, turnedClockwise } from '../../support/films/filmFormat';
import { renderFrame } from '../../support/films/renderFrame';
import type { Scene } from '../../support/films/sceneTypes';
import { SOUND_HZ, soundOf } from '../../support/films/tone';

export interface ReadBack {
  readonly timesS: readonly number[];
  readonly rotation: number;
  readonly width: number;
  readonly height: number;
  readonly soundS: number | null;
  /** Mean absolute difference of the decoded from the drawn brightness, of frames asked for. */
  readonly differences: readonly number[];
}

declare global {
  interface Window {
    makeFilm(scene: Scene, format: WholeFormat): Promise<string>;
    makeLongFilm(durationS: number): Promise<string>;
    readBack(base64: string, scene: Scene, compared: readonly number[]): Promise<ReadBack>;
  }
}

window.makeFilm = async (scene, format) => {
  const target = new BufferTarget();
  const container = { mp4: () => new Mp4OutputFormat(), mov: () => new MovOutputFormat(), webm: () => new WebMOutputFormat() }[format.container]();
  const output = new Output({ format: container, target });
  const picture = format.video === null ? null : new VideoSampleSource({ codec: format.video, quality: new Quality({ bitrate: format.bitsPerS }), keyFrameInterval: 1 });
  const sound = format.sound === null ? null : new AudioSampleSource(format.sound === 'opus' ? { codec: 'opus', quality: new Quality({ bitrate: 128_000 }) } : { codec: format.sound });
  if (picture) output.addVideoTrack(picture, { rotation: format.rotation });
  if (sound) output.addAudioTrack(sound);
  await output.start();
  const samples = sound ? soundOf(scene) : new Float32Array(0);
  let heard = 0;
  const addSound = async (untilS: number): Promise<void> => {
    for (; sound && heard < samples.length && heard / SOUND_HZ < untilS; heard += SOUND_STEP) {
      const data = samples.slice(heard, heard + SOUND_STEP);
      const sample = new AudioSample({ data, format: 'f32', numberOfChannels: 1, sampleRate: SOUND_HZ, timestamp: heard / SOUND_HZ });
      await sound.add(sample);
      sample.close();
    }
  };
  if (picture) {
    const times = frameTimes(scene, format);
    for (const [at, timeS] of times.entries()) {
      await addSound(timeS);
      const sample = frameSample(scene, format.rotation, timeS, (times[at + 1] ?? timeS + 1 / scene.framesPerS) - timeS);
      await picture.add(sample);
      sample.close();
    }
  }
  await addSound(Infinity);
  await output.finalize();
  return base64Of(target.buffer!);
};

window.makeLongFilm = async (durationS) => {
  const target = new BufferTarget();
  const output = new Output({ format: new Mp4OutputFormat(), target });
  const picture = new VideoSampleSource({ codec: 'avc', quality: new Quality({ bitrate: 100_000 }) });
  output.addVideoTrack(picture);
  await output.start();
  const [width, height] = [160, 96];
  for (let timeS = 0; timeS < durationS; timeS += 10) {
    const data = new Uint8Array((width * height * 3) / 2).fill(128);
    const sample = new VideoSample(data, { format: 'I420', codedWidth: width, codedHeight: height, timestamp: timeS, duration: Math.min(10, durationS - timeS) });
    await picture.add(sample);
    sample.close();
  }
  await output.finalize();
  return base64Of(target.buffer!);
};

window.readBack = async (base64, scene, compared) => {
  const blob = await (await fetch(`data:application/octet-stream;base64,${base64}`)).blob();
  const input = new Input({ source: new BlobSource(blob), formats: ALL_FORMATS });
  const track = await input.getPrimaryVideoTrack();
  const audio = await input.getPrimaryAudioTrack();
  const soundS = audio ? await audio.computeDuration() : null;
  if (!track) return { timesS: [], rotation: 0, width: 0, height: 0, soundS, differences: [] };
  const timesS: number[] = [];
  const differences: number[] = [];
  for await (const sample of new VideoSampleSink(track).samples()) {
    if (compared.includes(timesS.length)) differences.push(await differenceFrom(scene, sample));
    timesS.push(sample.timestamp);
    sample.close();
  }
  return { timesS, rotation: await track.getRotation(), width: await track.getDisplayWidth(), height: await track.getDisplayHeight(), soundS, differences };
};

/** Samples of sound in one piece: a tenth of a second. */
const SOUND_STEP = SOUND_HZ / 10;

function frameSample(scene: Scene, rotation: WholeFormat['rotation'], timestamp: number, duration: number): VideoSample {
  const upright = renderFrame(scene, timestamp);
  const { luma, width, height } = turnedClockwise(upright.luma, upright.width, upright.height, ((360 - rotation) % 360) as WholeFormat['rotation']);
  const data = new Uint8Array((width * height * 3) / 2);
  data.set(luma);
  data.fill(128, width * height);
  return new VideoSample(data, { format: 'I420', codedWidth: width, codedHeight: height, timestamp, duration });
}

async function differenceFrom(scene: Scene, sample: VideoSample): Promise<number> {
  const stored = new Uint8Array(sample.allocationSize());
  const [plane] = await sample.copyTo(stored);
  const luma = new Uint8Array(sample.codedWidth * sample.codedHeight);
  for (let y = 0; y < sample.codedHeight; y++) {
    const from = plane!.offset + y * plane!.stride;
    luma.set(stored.subarray(from, from + sample.codedWidth), y * sample.codedWidth);
  }
  const upright = turnedClockwise(luma, sample.codedWidth, sample.codedHeight, sample.rotation);
  const drawn = renderFrame(scene, sample.timestamp).luma;
  return upright.luma.reduce((sum, value, at) => sum + Math.abs(value - drawn[at]!), 0) / drawn.length;
}

function base64Of(buffer: ArrayBuffer): Promise<string> {
  return new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done((reader.result as string).replace(/^[^,]*,/, ''));
    reader.onerror = () => failed(new Error(`The film's bytes could not be read: ${reader.error?.message ?? 'no reason given'}`));
    reader.readAsDataURL(new Blob([buffer]));
  });
}
