/** One frame of a made film: wall, head, rim and horn, then what the camera adds. Plain numbers, so that it runs in Node and in a page. */
import type { GreyPicture } from '../../../src/measure/picture';
import { type Canvas, drawHead, moveFace } from './drawHead';
import { type HornModel, drawHorn, drawRimPlane, hornModel } from './drawHorn';
import { type HeadModel, headModel } from './headTexture';
import { hornPlaceOf } from './hornShape';
import { NOISE_LENGTH, mixed, noiseStore, solidNoise } from './noise';
import { rimStateAt } from './notesPlayed';
import type { Scene } from './sceneTypes';
import { truthAt } from './truth';

/**
 * The frame at a time, seconds; `out` is filled and used for the picture where it is given (width × height long). A scene's textures
 * are made at its first frame (about half a second) and kept as long as the scene object is.
 */
export function renderFrame(scene: Scene, timeS: number, out?: Uint8Array): GreyPicture {
  const { width, height } = scene.camera;
  const luma = out ?? new Uint8Array(width * height);
  if (luma.length !== width * height) throw new RangeError(`renderFrame: out holds ${luma.length} bytes; allowed: ${width * height}`);
  const studio = studioOf(scene);
  const { exposureS } = scene.picture;
  if (exposureS === 0) draw(scene, studio, timeS);
  else drawBlurred(scene, studio, timeS, exposureS);
  develop(scene, studio, timeS, luma);
  return { width, height, luma };
}

interface Studio {
  readonly canvas: Canvas;
  readonly wall: Uint8Array;
  readonly head: HeadModel;
  readonly horn: HornModel;
  readonly noise: Int8Array;
  readonly sum: Uint16Array;
}

const studios = new WeakMap<Scene, Studio>();

function studioOf(scene: Scene): Studio {
  const kept = studios.get(scene);
  if (kept) return kept;
  const { width, height } = scene.camera;
  const size = width * height;
  const studio: Studio = {
    canvas: { width, height, luma: new Uint8ClampedArray(size), nearness: new Float32Array(size) },
    wall: wallOf(scene),
    head: headModel(scene),
    horn: hornModel(scene),
    noise: noiseStore(scene.seed),
    sum: new Uint16Array(scene.picture.exposureS > 0 ? size : 0),
  };
  studios.set(scene, studio);
  return studio;
}

function draw(scene: Scene, { canvas, wall, head, horn }: Studio, timeS: number): void {
  const truth = truthAt(scene, timeS);
  canvas.luma.set(wall);
  canvas.nearness.fill(0);
  moveFace(head, shutAt(scene, timeS), rimStateAt(scene.notes, timeS));
  drawHead(canvas, head, scene.camera, truth.headInCamera);
  const place = hornPlaceOf(truth);
  if (scene.view === 'front') drawRimPlane(canvas, horn, scene, place);
  drawHorn(canvas, horn, scene, place, scene.view !== 'front');
}

/** The mean of pictures spread evenly over the time the shutter is open, its middle at the frame's time. */
function drawBlurred(scene: Scene, studio: Studio, timeS: number, exposureS: number): void {
  const { canvas, sum } = studio;
  sum.fill(0);
  for (let sub = 0; sub < SUB_FRAMES; sub++) {
    draw(scene, studio, timeS + exposureS * ((sub + 0.5) / SUB_FRAMES - 0.5));
    for (let at = 0; at < sum.length; at++) sum[at]! += canvas.luma[at]!;
  }
  for (let at = 0; at < sum.length; at++) canvas.luma[at] = sum[at]! / SUB_FRAMES;
}
const SUB_FRAMES = 4;

/** Flicker and the noise of each pixel, another for every time. */
function develop(scene: Scene, { canvas, noise }: Studio, timeS: number, out: Uint8Array): void {
  const { noiseSd, flicker } = scene.picture;
  const gain = 1 + flicker * Math.sin(2 * Math.PI * FLICKER_HZ * timeS);
  const part = noiseSd / 16;
  const { width, height, luma } = canvas;
  const rounded = new Uint8ClampedArray(out.buffer, out.byteOffset, out.length);
  const frame = Math.round(timeS * 1e6);
  for (let y = 0; y < height; y++) {
    const from = mixed(frame, y) % NOISE_LENGTH;
    for (let x = 0, at = y * width; x < width; x++, at++) rounded[at] = gain * luma[at]! + part * noise[(from + x) & (NOISE_LENGTH - 1)]!;
  }
}
const FLICKER_HZ = 3.1;

/** 0 (open) to 1: a blink takes a quarter of a second. */
function shutAt({ picture }: Scene, timeS: number): number {
  const nearest = Math.min(...picture.blinksS.map((at) => Math.abs(timeS - at)));
  return Math.max(0, Math.min(1, 1.6 * (1 - nearest / BLINK_HALF_S)));
}
const BLINK_HALF_S = 0.125;

/** Plain wall with a shelf's edges and some books, out of focus. */
function wallOf({ seed, camera: { width, height } }: Scene): Uint8Array {
  const noise = solidNoise(seed, 39);
  const wall = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) {
      const book = 26 * noise(x / 55, Math.floor(y / 150) * 3.1, 2);
      wall[y * width + x] = 112 + book + 22 * noise(x / 210, y / 210, 0) + 6 * noise(x / 13, y / 29, 1) - (y % 150 < 9 ? 30 : 0);
    }
  }
  return wall;
}
