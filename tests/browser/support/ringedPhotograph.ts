/** A photograph of a face from an npm package (never part of this project), with a mouthpiece's ring drawn where the person has none. */
import { createCanvas, loadImage } from '@napi-rs/canvas';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createRequire } from 'node:module';
import type { RimEllipse } from '../../../src/measure/traces';

export interface PhotographFile {
  readonly name: string;
  readonly mimeType: 'image/jpeg';
  readonly buffer: Buffer;
}

/** 1920 × 1537 px, by a phone; four people from the front. */
const PHOTOGRAPH = 'demo/sample6.jpg';
const JPEG_QUALITY = 92;

/** The photograph with a ring whose outer edge is the ellipse; one can see through its inside. The camera's own notes stay in the file. */
export async function ringedPhotograph(name: string, ring: RimEllipse, innerPart: number): Promise<PhotographFile> {
  const folder = dirname(createRequire(import.meta.url).resolve('@vladmandic/face-api/package.json'));
  const original = readFileSync(join(folder, PHOTOGRAPH));
  const picture = await loadImage(original);
  const canvas = createCanvas(picture.width, picture.height);
  const context = canvas.getContext('2d');
  context.drawImage(picture, 0, 0);
  // A canvas counts from a pixel's corner, marks from its middle.
  context.translate(ring.centre.x + 0.5, ring.centre.y + 0.5);
  context.rotate(ring.angleRad);
  const metal = context.createLinearGradient(0, -ring.semiMinorPx, 0, ring.semiMinorPx);
  metal.addColorStop(0, '#7a7a78');
  metal.addColorStop(0.5, '#585856');
  metal.addColorStop(1, '#3c3c3b');
  context.fillStyle = metal;
  context.ellipse(0, 0, ring.semiMajorPx, ring.semiMinorPx, 0, 0, 2 * Math.PI);
  context.closePath();
  context.ellipse(0, 0, innerPart * ring.semiMajorPx, innerPart * ring.semiMinorPx, 0, 0, 2 * Math.PI);
  context.fill('evenodd');
  const drawn = canvas.toBuffer('image/jpeg', JPEG_QUALITY);
  return { name, mimeType: 'image/jpeg', buffer: Buffer.concat([drawn.subarray(0, 2), cameraSegment(original), drawn.subarray(2)]) };
}

/** The JPEG's Exif segment with its marker. */
function cameraSegment(jpeg: Buffer): Buffer {
  for (let at = 2; jpeg[at] === 0xff && jpeg[at + 1] !== START_OF_SCAN; ) {
    const end = at + 2 + jpeg.readUInt16BE(at + 2);
    if (jpeg[at + 1] === APP1 && jpeg.toString('latin1', at + 4, at + 8) === 'Exif') return jpeg.subarray(at, end);
    at = end;
  }
  throw new Error(`${PHOTOGRAPH} holds no Exif segment: is it another version of the package?`);
}
const APP1 = 0xe1;
const START_OF_SCAN = 0xda;
