/** Makes pictures and short films of an invented player with the app's own code, small and few enough for a test, and reads them back. */
import '../../../src/app/styles/fonts.css';
import '../../../src/app/styles/theme.css';
import '../../../src/app/styles/base.css';
import '../../../src/staff/signs/signs.css';
import { ALL_FORMATS, AudioSampleSink, BlobSource, Input, VideoSampleSink } from 'mediabunny';
import { type PictureScene, filmOf, pngOf, soundOf, svgOf } from '../../../src/app/takePictures';
import { analyse } from '../../../src/core/analyse';
import { buildArch } from '../../../src/core/arch';
import { createLive } from '../../../src/core/live';
import { type FilmCourse, filmMoments, filmSeconds } from '../../../src/pictures/filmPlan';
import { type FilmFormat, filmFormats } from '../../../src/pictures/filmFormats';
import { SOUND_RATE } from '../../../src/pictures/toneSamples';
import { demoPlayers, teeth } from '../../../src/records/library';
import type { StageCamera } from '../../../src/stage/props';

const { record } = demoPlayers[0]!;
const analysis = analyse(record);
const options = { horn: 'follow', view: 'seated' } as const;
const notes = analysis.readings.map(({ midi }) => midi);
const course: FilmCourse = {
  lowMidi: Math.min(...notes), highMidi: Math.max(...notes), notes, rising: null, falling: null, andBack: false, passS: 0.9, restS: 0.15,
};
const RATE = 10;
const nothing = (): void => undefined;

function sceneOf(flat: boolean, camera: StageCamera = 'three-quarter'): PictureScene {
  return {
    props: {
      arch: buildArch(record.arch), teeth, rim: record.rim, lips: record.lips, lipLineMm: analysis.home.lipLineMm, analysis, path: [],
      live: { current: () => null, subscribe: () => nothing }, selected: null, camera, horn: 'follow', showToothNumbers: false, showHeldGhost: true,
      cutOpen: false, theme: 'paper', reducedMotion: false, onDragStart: nothing, onDragTravel: nothing, onDragEnd: nothing, onNudge: nothing,
    },
    flat,
    caption: ({ midi, travel }) => ({ note: `<${Math.round(midi ?? 0)}>`, words: `The rim is ${travel.upMm.toFixed(1)} mm up & aside.`, title: 'Invented' }),
  };
}

const frameAt = (timeS: number) => {
  const { midi } = filmMoments(course, RATE).find((moment) => moment.timeS >= timeS - 1e-9)!;
  return createLive(analysis, true).atPitch(midi, options)!;
};

export interface ReadFilm {
  readonly type: string;
  readonly bytes: number;
  readonly width: number;
  readonly height: number;
  readonly timesS: readonly number[];
  readonly soundS: number | null;
  readonly loudest: number;
  /** Mean difference of brightness of the first frame from the last. */
  readonly change: number;
  /** Of the first and the last frame of a flat film: mean difference of brightness from the picture of each, drawn again. */
  readonly differences: readonly (readonly [number, number])[];
  readonly tookMs: number;
}

declare global {
  interface Window {
    formats(): Promise<FilmFormat[]>;
    film(flat: boolean, container: 'mp4' | 'webm', withSound: boolean): Promise<ReadFilm>;
    stoppedFilm(): Promise<{ readonly made: boolean; readonly parts: number; readonly left: number }>;
    flatPng(): Promise<{ width: number; height: number; colours: number; captionColours: number }>;
    facePngs(): Promise<{ width: number; height: number; colours: number; fromFace: number; fromTurnedFace: number }>;
    svg(): Promise<string>;
    sound(): Promise<{ readonly seconds: number; readonly longestTaskMs: number }>;
  }
}

const WIDTH = 480;
window.formats = () => filmFormats(1280, 720);

window.film = async (flat, container, withSound) => {
  const format = (await filmFormats(WIDTH, 270)).find((one) => one.container === container)!;
  const scene = sceneOf(flat);
  const began = performance.now();
  const blob = await filmOf(scene, createLive(analysis, true), options, {
    course, widthPx: WIDTH, framesPerS: RATE, format, withSound, signal: new AbortController().signal, onProgress: nothing,
  });
  const tookMs = performance.now() - began;
  const input = new Input({ source: new BlobSource(blob!), formats: ALL_FORMATS });
  const track = (await input.getPrimaryVideoTrack())!;
  const audio = await input.getPrimaryAudioTrack();
  const drawn = !flat ? [] : await Promise.all([frameAt(0), frameAt(filmSeconds(course) - 1 / RATE)].map(async (frame) => brightness(await createImageBitmap(await pngOf(scene, frame, WIDTH)))));
  const timesS: number[] = [];
  const seen: Float32Array[] = [];
  for await (const sample of new VideoSampleSink(track).samples()) {
    timesS.push(sample.timestamp);
    const frame = sample.toVideoFrame();
    seen.push(brightness(frame));
    frame.close();
    sample.close();
  }
  let loudest = 0;
  if (audio) {
    for await (const sample of new AudioSampleSink(audio).samples()) {
      const values = new Float32Array(sample.allocationSize({ planeIndex: 0, format: 'f32' }) / 4);
      sample.copyTo(values, { planeIndex: 0, format: 'f32' });
      for (const value of values) loudest = Math.max(loudest, Math.abs(value));
      sample.close();
    }
  }
  return {
    type: blob!.type, bytes: blob!.size, width: await track.getDisplayWidth(), height: await track.getDisplayHeight(), timesS,
    soundS: audio ? await audio.computeDuration() : null, loudest, tookMs,
    change: difference(seen[0]!, seen.at(-1)!),
    differences: flat ? [seen[0]!, seen.at(-1)!].map((one) => [difference(one, drawn[0]!), difference(one, drawn[1]!)] as const) : [],
  };
};

window.stoppedFilm = async () => {
  const control = new AbortController();
  let parts = 0;
  const [format] = await filmFormats(WIDTH, 270);
  const blob = await filmOf(sceneOf(true), createLive(analysis, true), options, {
    course, widthPx: WIDTH, framesPerS: RATE, format: format!, withSound: true, signal: control.signal,
    onProgress: () => {
      parts += 1;
      if (parts === 3) control.abort();
    },
  });
  return { made: blob !== null, parts, left: document.querySelectorAll('body > div').length };
};

window.flatPng = async () => {
  const { values, width, height } = await pixelsOf(sceneOf(true));
  return { width, height, colours: coloursIn(values), captionColours: coloursIn(values.slice(Math.round(width * height * 0.85))) };
};

window.facePngs = async () => {
  const face = await pixelsOf(sceneOf(false, 'face'));
  const mirror = await pixelsOf(sceneOf(false, 'mirror'));
  const { width, height } = mirror;
  // Without the caption and the legend, which no mirror turns.
  const rows = Math.round(height * 0.6);
  const above = (values: Float32Array): Float32Array => values.slice(0, rows * width);
  const turned = above(face.values).map((_, at) => face.values[at - (at % width) + (width - 1 - (at % width))]!);
  return {
    width, height, colours: coloursIn(above(mirror.values)),
    fromFace: difference(above(mirror.values), above(face.values)), fromTurnedFace: difference(above(mirror.values), turned),
  };
};

async function pixelsOf(scene: PictureScene) {
  const picture = await createImageBitmap(await pngOf(scene, frameAt(0), WIDTH));
  return { values: brightness(picture), width: picture.width, height: picture.height };
}

const coloursIn = (values: Float32Array): number => new Set(values.map(Math.round)).size;

window.svg = async () => (await svgOf(sceneOf(false), frameAt(0))).text();

window.sound = async () => {
  let longestTaskMs = 0;
  let last = performance.now();
  let on = true;
  const look = (): void => {
    const now = performance.now();
    longestTaskMs = Math.max(longestTaskMs, now - last);
    last = now;
    if (on) setTimeout(look, 0);
  };
  look();
  const samples = await soundOf({ ...course, passS: 6, andBack: true }, new AbortController().signal);
  on = false;
  return { seconds: samples.length / SOUND_RATE, longestTaskMs };
};

function brightness(picture: ImageBitmap | VideoFrame): Float32Array {
  const [width, height] = picture instanceof VideoFrame ? [picture.displayWidth, picture.displayHeight] : [picture.width, picture.height];
  const context = new OffscreenCanvas(width, height).getContext('2d')!;
  context.drawImage(picture, 0, 0, width, height);
  const { data } = context.getImageData(0, 0, width, height);
  return Float32Array.from({ length: width * height }, (_, at) => 0.299 * data[at * 4]! + 0.587 * data[at * 4 + 1]! + 0.114 * data[at * 4 + 2]!);
}

const difference = (one: Float32Array, other: Float32Array): number => one.reduce((sum, value, at) => sum + Math.abs(value - other[at]!), 0) / one.length;
