/** Still pictures of a scene, as a camera would write them: upright in the file, or turned and tagged (EXIF orientation). */
import { createCanvas } from '@napi-rs/canvas';
import { turnedClockwise } from './filmFormat';
import { renderFrame } from './renderFrame';
import type { Scene } from './sceneTypes';

export type StillKind = 'jpeg' | 'png' | 'webp';

/** EXIF 2.3, tag 0x0112: how far a viewer turns the stored picture clockwise to have it upright. */
export const ORIENTATIONS = { 1: 0, 3: 180, 6: 90, 8: 270 } as const;
export type Orientation = keyof typeof ORIENTATIONS;

/** One frame as a file; an orientation is for JPEG only, and the stored picture is turned so that the tag sets it right. */
export function photographOf(scene: Scene, timeS: number, kind: StillKind, orientation?: Orientation): Uint8Array {
  if (orientation !== undefined && kind !== 'jpeg') throw new RangeError(`photographOf: orientation ${orientation} with ${kind}; allowed: with jpeg only`);
  const picture = renderFrame(scene, timeS);
  const back = ((360 - (orientation === undefined ? 0 : ORIENTATIONS[orientation])) % 360) as 0 | 90 | 180 | 270;
  const { luma, width, height } = turnedClockwise(picture.luma, picture.width, picture.height, back);
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const image = context.createImageData(width, height);
  for (let at = 0; at < luma.length; at++) {
    image.data.fill(luma[at]!, 4 * at, 4 * at + 3);
    image.data[4 * at + 3] = 255;
  }
  context.putImageData(image, 0, 0);
  const bytes = new Uint8Array(kind === 'png' ? canvas.toBuffer('image/png') : kind === 'jpeg' ? canvas.toBuffer('image/jpeg', JPEG_QUALITY) : canvas.toBuffer('image/webp', JPEG_QUALITY));
  return orientation === undefined ? bytes : withOrientation(bytes, orientation);
}
const JPEG_QUALITY = 92;

/** Puts an APP1 segment with one tag after the JPEG's first marker. */
export function withOrientation(jpeg: Uint8Array, orientation: number): Uint8Array {
  if (jpeg[0] !== 0xff || jpeg[1] !== 0xd8) throw new TypeError(`withOrientation: begins with ${jpeg[0]}, ${jpeg[1]}; allowed: a JPEG (255, 216)`);
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0];
  const exif = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
  const segment = [0xff, 0xe1, (exif.length + 2) >> 8, (exif.length + 2) & 0xff, ...exif];
  const out = new Uint8Array(jpeg.length + segment.length);
  out.set(jpeg.subarray(0, 2));
  out.set(segment, 2);
  out.set(jpeg.subarray(2), 2 + segment.length);
  return out;
}
