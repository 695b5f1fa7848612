/** A grey picture as a file that a page can be given. */
import { createCanvas } from '@napi-rs/canvas';
import type { GreyPicture } from '../../../src/measure/picture';

export interface PictureFile {
  readonly name: string;
  readonly mimeType: 'image/png';
  readonly buffer: Buffer;
}

export function pictureFile(name: string, { width, height, luma }: GreyPicture): PictureFile {
  const canvas = createCanvas(width, height);
  const context = canvas.getContext('2d');
  const image = context.createImageData(width, height);
  luma.forEach((value, at) => {
    image.data.fill(value, 4 * at, 4 * at + 3);
    image.data[4 * at + 3] = 255;
  });
  context.putImageData(image, 0, 0);
  return { name, mimeType: 'image/png', buffer: canvas.toBuffer('image/png') };
}
