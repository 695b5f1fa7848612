/** The brightness of a decoded frame, upright, copied without drawing where the browser allows it. docs/numerics.md §20. */
import { sayMeasure } from '../words/measure';
import type { GreyPicture } from './picture';
import { type Turn, turnUpright } from './upright';

/** What is needed of a frame; `frame.close()` stays the caller's. */
export interface FrameSeen {
  readonly frame: VideoFrame;
  readonly turn: Turn;
  /** Upright, square px. */
  readonly width: number;
  readonly height: number;
}

export interface LumaReader {
  /** The picture's buffer is the reader's own and is written anew by the next call, unless `into` (width × height bytes) is given. */
  read(seen: FrameSeen, into?: Uint8Array): Promise<GreyPicture>;
}

export function createLumaReader(): LumaReader {
  let copied = new Uint8Array(0);
  let turned = new Uint8Array(0);
  let canvas: OffscreenCanvas | null = null;

  const bytesOf = async (frame: VideoFrame, options?: VideoFrameCopyToOptions): Promise<readonly PlaneLayout[]> => {
    const size = frame.allocationSize(options);
    if (copied.length < size) copied = new Uint8Array(size);
    return frame.copyTo(copied, options);
  };
  const upright = ({ turn, width, height }: FrameSeen, plane: Uint8Array, stride: number, into: Uint8Array | undefined): GreyPicture => {
    const isOnSide = turn.rotationDeg % 180 !== 0;
    const [planeWidth, planeHeight] = isOnSide ? [height, width] : [width, height];
    if (into === undefined && turn.rotationDeg === 0 && !turn.isFlipped && stride === width) {
      return { width, height, luma: plane.subarray(0, width * height) };
    }
    if (into === undefined && turned.length < width * height) turned = new Uint8Array(width * height);
    const luma = (into ?? turned).subarray(0, width * height);
    turnUpright(plane, stride, planeWidth, planeHeight, turn, luma);
    return { width, height, luma };
  };
  const drawn = (seen: FrameSeen, into: Uint8Array | undefined): GreyPicture => {
    const { frame, width, height, turn } = seen;
    const isOnSide = turn.rotationDeg % 180 !== 0;
    const [planeWidth, planeHeight] = isOnSide ? [height, width] : [width, height];
    canvas ??= new OffscreenCanvas(planeWidth, planeHeight);
    if (canvas.width !== planeWidth || canvas.height !== planeHeight) canvas = new OffscreenCanvas(planeWidth, planeHeight);
    const context = canvas.getContext('2d', { willReadFrequently: true });
    if (context === null) throw new Error(sayMeasure('noReading'));
    context.drawImage(frame, 0, 0, planeWidth, planeHeight);
    const { data } = context.getImageData(0, 0, planeWidth, planeHeight);
    lumaInPlace(data, planeWidth * planeHeight, RED_FIRST);
    return upright(seen, new Uint8Array(data.buffer), planeWidth, into);
  };

  return {
    async read(seen, into) {
      const { frame, width, height, turn } = seen;
      const rect = frame.visibleRect;
      const [planeWidth, planeHeight] = turn.rotationDeg % 180 === 0 ? [width, height] : [height, width];
      // Pixels that are not square are made so by drawing; so is whatever the browser keeps to itself.
      if (frame.format === null || rect === null || rect.width !== planeWidth || rect.height !== planeHeight) return drawn(seen, into);
      const [first] = await bytesOf(frame);
      if (first === undefined) return drawn(seen, into);
      const plane = copied.subarray(first.offset);
      const format: string = frame.format;
      if (/^(I420|I422|I444|NV12)A?$/.test(format)) return upright(seen, plane, first.stride, into);
      if (/^I4\d\dA?P1[02]$/.test(format)) {
        highBitsInPlace(plane, first.stride, planeHeight, format.endsWith('P10') ? 2 : 4);
        return upright(seen, plane, first.stride / 2, into);
      }
      if (first.stride !== 4 * planeWidth) return drawn(seen, into);
      lumaInPlace(plane, planeWidth * planeHeight, format.startsWith('BGR') ? BLUE_FIRST : RED_FIRST);
      return upright(seen, plane, planeWidth, into);
    },
  };
}

/** Rec. 709 weights of red, green and blue, in 65536ths, whole sum 65536. */
const WEIGHTS_709 = { red: 13933, green: 46871, blue: 4732 } as const;
const RED_FIRST = [WEIGHTS_709.red, WEIGHTS_709.green, WEIGHTS_709.blue] as const;
const BLUE_FIRST = [WEIGHTS_709.blue, WEIGHTS_709.green, WEIGHTS_709.red] as const;

/** Four bytes a pixel become one, in the front of the same buffer. */
function lumaInPlace(data: Uint8Array | Uint8ClampedArray, pixels: number, [first, second, third]: readonly [number, number, number]): void {
  const half = 32768;
  for (let pixel = 0, from = 0; pixel < pixels; pixel++, from += 4) {
    data[pixel] = (first * data[from]! + second * data[from + 1]! + third * data[from + 2]! + half) >> 16;
  }
}

/** Samples of two bytes, low byte first, become their eight highest bits, in the front of the same buffer. */
function highBitsInPlace(plane: Uint8Array, stride: number, height: number, dropped: number): void {
  const samples = (stride * height) >> 1;
  for (let sample = 0; sample < samples; sample++) plane[sample] = (plane[2 * sample]! | (plane[2 * sample + 1]! << 8)) >> dropped;
}
