/** Files that are damaged, mislabelled or turned on purpose. */
import { makeFilm } from './makeFilm';

/** Every occurrence of four letters, in place. */
export function relabelled(bytes: Uint8Array, from: string, to: string): Uint8Array<ArrayBuffer> {
  const copy = bytes.slice();
  const letters = new TextEncoder().encode(from);
  for (let at = 0; at + 4 <= copy.length; at++) {
    if (letters.every((letter, index) => copy[at + index] === letter)) copy.set(new TextEncoder().encode(to), at);
  }
  return copy;
}

export const hevcLabelled = (film: Uint8Array): Uint8Array<ArrayBuffer> => relabelled(relabelled(film, 'avc1', 'hvc1'), 'avcC', 'hvcC');

/** A small film whose header says that it is 7680 × 4320. */
export async function oversized(): Promise<Uint8Array<ArrayBuffer>> {
  const bytes = new Uint8Array(await (await makeFilm({ timesS: [0, 0.04] })).arrayBuffer());
  const view = new DataView(bytes.buffer);
  const found = [...bytes.keys()].findLast((at) => String.fromCharCode(...bytes.subarray(at, at + 4)) === 'avc1')!;
  // The sample entry's size stands 28 bytes after its name.
  view.setUint16(found + 28, 7680);
  view.setUint16(found + 30, 4320);
  return bytes;
}

function upright(width: number, height: number): OffscreenCanvas {
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  context.fillStyle = '#404040';
  context.fillRect(0, 0, width, height);
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, width * 0.25, height * 0.25);
  context.fillStyle = '#808080';
  context.fillRect(0, height * 0.75, width * 0.25, height * 0.25);
  return canvas;
}

export async function pictureFile(width: number, height: number, type: string): Promise<Blob> {
  const canvas = upright(width, height);
  const context = canvas.getContext('2d')!;
  for (let spot = 0; spot < 400; spot++) {
    context.fillStyle = `hsl(${(spot * 37) % 360} 60% 50%)`;
    context.fillRect(width * (0.3 + 0.4 * ((spot * 0.618) % 1)), height * (0.3 + 0.4 * ((spot * 0.414) % 1)), 6, 6);
  }
  return canvas.convertToBlob({ type, quality: 0.9 });
}

/** Stored so that each orientation, taken once, gives the same upright picture of 60 × 40. */
export async function stillFiles(): Promise<[string, Blob][]> {
  const files: [string, Blob][] = [];
  for (const type of ['image/png', 'image/webp', 'image/jpeg']) files.push([`plain.${type.slice(6)}`, await upright(60, 40).convertToBlob({ type, quality: 0.95 })]);
  for (let orientation = 1; orientation <= 8; orientation++) {
    const isOnSide = orientation > 4;
    const stored = new OffscreenCanvas(isOnSide ? 40 : 60, isOnSide ? 60 : 40);
    const context = stored.getContext('2d')!;
    context.setTransform(...STORED_FROM_UPRIGHT[orientation - 1]!);
    context.drawImage(upright(60, 40), 0, 0);
    const jpeg = new Uint8Array(await (await stored.convertToBlob({ type: 'image/jpeg', quality: 0.95 })).arrayBuffer());
    files.push([`turned ${orientation}.jpg`, withExif(jpeg, orientation)]);
  }
  return files;
}

/** What turns the upright 60 × 40 picture into the stored one, by Exif's eight orientations. */
const STORED_FROM_UPRIGHT: readonly (readonly [number, number, number, number, number, number])[] = [
  [1, 0, 0, 1, 0, 0],
  [-1, 0, 0, 1, 60, 0],
  [-1, 0, 0, -1, 60, 40],
  [1, 0, 0, -1, 0, 40],
  [0, 1, 1, 0, 0, 0],
  [0, -1, 1, 0, 0, 60],
  [0, -1, -1, 0, 40, 60],
  [0, 1, -1, 0, 40, 0],
];

/** Orientation, and 26 mm as on 35 mm film, after the JPEG's first two bytes. */
function withExif(jpeg: Uint8Array<ArrayBuffer>, orientation: number): Blob {
  const tiff = [0x4d, 0x4d, 0, 42, 0, 0, 0, 8, 0, 2, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0x87, 0x69, 0, 4, 0, 0, 0, 1, 0, 0, 0, 38, 0, 0, 0, 0, 0, 1, 0xa4, 0x05, 0, 3, 0, 0, 0, 1, 0, 26, 0, 0, 0, 0, 0, 0];
  const body = [0x45, 0x78, 0x69, 0x66, 0, 0, ...tiff];
  const segment = Uint8Array.from([0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 0xff, ...body]);
  return new Blob([jpeg.slice(0, 2), segment, jpeg.slice(2)]);
}
