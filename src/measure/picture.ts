/**
 * The frame of a picture, used by all of measure/: pixels, x to the right, y down, the centre of the first pixel at (0, 0),
 * after the picture has been turned upright. Nothing of it leaves measure/: core sees millimetres, degrees, seconds and hertz.
 */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Brightness of one picture, 0 (black) to 255, row by row: pixel (x, y) is `luma[y * width + x]`. */
export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  readonly luma: Uint8Array;
}
