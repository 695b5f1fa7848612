/** Frames in the formats that decoders give, all with the same slope of grey. */

export const FRAME_WIDTH = 48;
export const FRAME_HEIGHT = 34;
export const FRAME_FORMATS = ['I420', 'I420A', 'I422', 'I444', 'NV12', 'I420P10', 'I422P12', 'RGBA', 'RGBX', 'BGRA', 'BGRX'] as const;

export const greySlope = (): Uint8Array => Uint8Array.from({ length: FRAME_WIDTH * FRAME_HEIGHT }, (_, index) => 30 + (index % FRAME_WIDTH) * 3 + Math.floor(index / FRAME_WIDTH) * 2);

/** null where the browser makes no frame of this format. */
export function frameOf(format: (typeof FRAME_FORMATS)[number]): VideoFrame | null {
  const init = { format: format as VideoPixelFormat, codedWidth: FRAME_WIDTH, codedHeight: FRAME_HEIGHT, timestamp: 0 };
  try {
    return new VideoFrame(bytesOf(format), init);
  } catch {
    return null;
  }
}

function bytesOf(format: (typeof FRAME_FORMATS)[number]): Uint8Array<ArrayBuffer> {
  const slope = greySlope();
  const pixels = slope.length;
  if (/^(RGB|BGR)/.test(format)) return Uint8Array.from({ length: 4 * pixels }, (_, at) => (at % 4 === 3 ? 255 : slope[at >> 2]!));
  const isDeep = /P1[02]$/.test(format);
  // Colour without any: the middle value. The planes behind the first are as large as the largest of these formats needs.
  const bytes = new Uint8Array(4 * pixels * (isDeep ? 2 : 1)).fill(isDeep ? 2 : 128);
  if (!isDeep) bytes.set(slope);
  else {
    const view = new DataView(bytes.buffer);
    const bits = format.endsWith('P10') ? 2 : 4;
    // Bits below the eighth are full: they are dropped, not rounded.
    for (const [index, value] of slope.entries()) view.setUint16(2 * index, (value << bits) + (1 << bits) - 1, true);
  }
  return bytes;
}
