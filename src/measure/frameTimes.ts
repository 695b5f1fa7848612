/** When each frame of a film is shown, by the file's own time stamps and without decoding anything. */
import { type EncodedPacket, EncodedPacketSink, type InputVideoTrack } from 'mediabunny';

/** Seconds on the file's clock; the end is later than the beginning. */
export interface FrameSpan {
  readonly startS: number;
  readonly endS: number;
}

export interface FrameSpans {
  /** In the order they are shown; those that end before 0 are not, by the container's rules, and are left out. */
  readonly spans: readonly FrameSpan[];
  /** The file lists frames whose data it does not hold. */
  readonly isCut: boolean;
}

export async function readFrameSpans(video: InputVideoTrack): Promise<FrameSpans> {
  const sink = new EncodedPacketSink(video);
  const packets: Pick<EncodedPacket, 'timestamp' | 'duration'>[] = [];
  for await (const { timestamp, duration } of sink.packets(undefined, undefined, { metadataOnly: true })) packets.push({ timestamp, duration });
  const held = await heldCount(sink, packets);
  // Frames are stored in the order they are decoded: one whose data is missing takes with it those shown after it.
  const missingFromS = packets.slice(held).reduce((least, { timestamp }) => Math.min(least, timestamp), Infinity);
  const shown = packets
    .slice(0, held)
    .filter(({ timestamp, duration }) => timestamp < missingFromS && timestamp + duration > 0)
    .sort((one, other) => one.timestamp - other.timestamp)
    .filter(({ timestamp }, index, sorted) => index === 0 || timestamp > sorted[index - 1]!.timestamp);
  const spans = shown.map(({ timestamp, duration }, index) => ({
    startS: timestamp,
    endS: shown[index + 1]?.timestamp ?? timestamp + (duration > 0 ? duration : (timestamp - (shown[index - 1]?.timestamp ?? timestamp - FALLBACK_FRAME_S))),
  }));
  return { spans, isCut: held < packets.length };
}

/** A film of one frame whose duration is not stated: any positive value serves. */
const FALLBACK_FRAME_S = 1 / 30;

/** How many of the packets, in the file's order, have their data within the file: all but in a film that was cut short. */
async function heldCount(sink: EncodedPacketSink, packets: readonly Pick<EncodedPacket, 'timestamp'>[]): Promise<number> {
  const isHeld = async (index: number): Promise<boolean> => (await sink.getPacket(packets[index]!.timestamp)) !== null;
  if (packets.length === 0 || (await isHeld(packets.length - 1))) return packets.length;
  let low = 0;
  let high = packets.length - 1;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (await isHeld(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** The frame that is shown at a time: the last that has begun, or the first. RangeError without frames. */
export function frameIndexAt(frameTimesS: ArrayLike<number>, timeS: number): number {
  if (frameTimesS.length === 0) throw new RangeError('frameTimesS: no frames; allowed: at least one');
  let low = 0;
  let high = frameTimesS.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (frameTimesS[middle]! <= timeS) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** `ticksPerSecond`: the container's own resolution, to which its time stamps are rounded. */
export function hasVariableRate(frameTimesS: ArrayLike<number>, ticksPerSecond: number): boolean {
  let least = Infinity;
  let most = 0;
  for (let index = 1; index < frameTimesS.length; index++) {
    const distanceS = frameTimesS[index]! - frameTimesS[index - 1]!;
    least = Math.min(least, distanceS);
    most = Math.max(most, distanceS);
  }
  return most - least > Math.max(ROUNDING_TICKS / ticksPerSecond, UNEVEN_PART * most);
}

/** Two stamps are each off by half a tick, so two distances differ by up to two; a little more for doubles. */
const ROUNDING_TICKS = 2.01;
/** A cheap clock's unevenness, as a part of the distance between frames: nobody calls that variable. */
const UNEVEN_PART = 0.02;
