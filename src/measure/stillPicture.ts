/** Opens a photograph: upright, to look at and to measure in, with what its camera says of the lens; or a sentence why not. */
import { cameraNotes, type CameraNotes } from './exif';
import { type FileKind, fileKind, KIND_BYTES } from './fileKind';
import type { GreyPicture } from './picture';
import { isWhole, pictureHeader } from './pictureHeader';
import { storedSize } from './pictureSize';
import { type Refused, stillRefusals } from './refusals';

/**
 * Marks lie in the picture's own pixels, so nothing is made smaller. In colour and in grey together a picture of this size takes 500 MB, half
 * of what measuring may use.
 */
export const MOST_STILL_PIXELS = 100e6;

export interface OpenedStill {
  readonly kind: 'opened';
  readonly name: string;
  /** To look at; upright. The caller closes it. */
  readonly bitmap: ImageBitmap;
  /** The same pixels, Rec. 601 brightness: what a JPEG stores. */
  readonly grey: GreyPicture;
  readonly camera: CameraNotes;
}

/** Works on the page and in a worker. Never rejects for what is in the file. */
export async function openStill(file: Blob & { readonly name?: string }): Promise<OpenedStill | Refused> {
  const name = file.name ?? '';
  if (file.size === 0) return stillRefusals.empty();
  let bytes: Uint8Array;
  let kind: FileKind;
  try {
    kind = fileKind(await bytesOf(file.slice(0, KIND_BYTES)));
    if (kind === 'text') return stillRefusals.text(name);
    if (kind === 'film') return stillRefusals.film(name);
    bytes = await bytesOf(file.slice(0, MOST_STILL_BYTES));
  } catch {
    return stillRefusals.unreadable();
  }
  const header = pictureHeader(bytes);
  const size = header ?? storedSize(bytes);
  if (size !== null && size.width * size.height > MOST_STILL_PIXELS) return stillRefusals.tooLarge(size.width, size.height, MOST_STILL_PIXELS);
  if (header !== null && bytes.length < MOST_STILL_BYTES && !isWhole(bytes, header)) return stillRefusals.cutShort();
  let bitmap: ImageBitmap;
  try {
    // It turns the picture upright by itself, whatever it is asked: turned here again, it would lie on its side.
    bitmap = await createImageBitmap(file);
  } catch {
    if (kind === 'heic') return stillRefusals.codec('HEIC');
    return header === null && kind !== 'picture' ? stillRefusals.otherKind(name) : stillRefusals.damaged();
  }
  if (bitmap.width * bitmap.height > MOST_STILL_PIXELS) {
    const { width, height } = bitmap;
    bitmap.close();
    return stillRefusals.tooLarge(width, height, MOST_STILL_PIXELS);
  }
  try {
    return { kind: 'opened', name, bitmap, grey: greyOf(bitmap), camera: cameraNotes(header?.exif ?? null) };
  } catch (fault) {
    // No memory for the grey one: the coloured one must not stay behind.
    bitmap.close();
    throw fault;
  }
}

/** A file of 100 million pixels without any loss is about as long; of a longer one only so much is looked at. */
const MOST_STILL_BYTES = 300e6;

const bytesOf = async (blob: Blob): Promise<Uint8Array> => new Uint8Array(await blob.arrayBuffer());

/** By strips, so that the picture is not held in colour a second time. */
function greyOf(bitmap: ImageBitmap): GreyPicture {
  const { width, height } = bitmap;
  const luma = new Uint8Array(width * height);
  const canvas = new OffscreenCanvas(width, Math.min(height, STRIP_ROWS));
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (context === null) throw new Error('this browser gives no canvas to read pictures with');
  for (let top = 0; top < height; top += STRIP_ROWS) {
    const rows = Math.min(STRIP_ROWS, height - top);
    // Anything that is not covered counts as white paper.
    context.fillStyle = '#ffffff';
    context.fillRect(0, 0, width, rows);
    context.drawImage(bitmap, 0, top, width, rows, 0, 0, width, rows);
    const { data } = context.getImageData(0, 0, width, rows);
    for (let pixel = 0, from = 0, to = top * width; pixel < width * rows; pixel++, from += 4, to++) {
      luma[to] = (RED * data[from]! + GREEN * data[from + 1]! + BLUE * data[from + 2]! + HALF) >> 16;
    }
  }
  return { width, height, luma };
}

const STRIP_ROWS = 256;
/** Rec. 601: 0.299, 0.587, 0.114, in 65536ths, whole sum 65536. */
const RED = 19595;
const GREEN = 38470;
const BLUE = 7471;
const HALF = 32768;
