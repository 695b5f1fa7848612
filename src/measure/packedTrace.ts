/**
 * A trace as it is kept in a record: whole numbers of small steps, each series as the differences from frame to frame, with a check
 * sum over all of it, since one changed character would shift every later place.
 */
import { crc32 } from '../core/crc32';
import { LANDMARK_NAMES, type ViewFrom } from './marks';
import { type Channels, type Steps, packSeries, packTimes, readSeries, readTimes, stepped } from './packedSeries';
import { acrossSdPx, anyWaySdPx } from './slidingPoint';
import type { FilmTrace, TracedFrame, TracedName, TracedPoint, TracedRim } from './traces';

export const TRACED_NAMES = [...LANDMARK_NAMES, 'level-back', 'level-front', 'horn-near', 'horn-far'] as const satisfies readonly TracedName[];

/** A record holds the view beside the trace. */
export interface PackedTrace {
  readonly frames: number;
  readonly times: string;
  /** Absent: no frame has one. */
  readonly rim?: string | undefined;
  /** Points that no frame has are absent. */
  readonly points: Readonly<Partial<Record<TracedName, string>>>;
  /** CRC-32 of all of it. */
  readonly check: number;
}

export type UnpackedTrace =
  | { readonly kind: 'trace'; readonly trace: FilmTrace }
  /** One line: which part, and what is the matter. */
  | { readonly kind: 'damaged'; readonly message: string };

/** Five minutes at 240 frames a second, the fastest that phones film; a record refuses more. */
export const MOST_TRACED_FRAMES = 72_000;

/** Steps in a pixel, a pixel of deviation, a second and a radian. A twentieth of a pixel errs by 0.014 px RMS where tracking errs by 0.06. */
const PLACE_STEPS = 20;
const DEVIATION_STEPS = 100;
const TIME_STEPS = 10_000;
const ANGLE_STEPS = 2_000;

/** Places lie within this of the picture's first pixel, and deviations below it; px. */
const FURTHEST_PX = 100_000;
/** Times lie within this of the film's beginning: six hours. */
const FURTHEST_S = 21_600;

/**
 * Of a point that slides along an edge (`slides`) one deviation is kept instead of two: across its own line where it is an end of one seen
 * from a side or from above, else for any way, which is how heads count it. So an angle is as sure as before, and travel too; only a
 * horn seen from the front is told a little less sure. Each value comes back as the nearest step; a deviation is never less than one, since 0 would claim to be exact. Throws RangeError
 * for more frames than MOST_TRACED_FRAMES and for a value that is not finite or out of the ranges above.
 */
export function packTrace({ view, frames }: FilmTrace): PackedTrace {
  if (frames.length > MOST_TRACED_FRAMES) throw new RangeError(`frames: ${frames.length}; allowed: up to ${MOST_TRACED_FRAMES}`);
  const times = packTimes(frames.map(({ timeS }) => stepped('timeS', timeS, TIME)));
  const rim = packSeries(frames.map((frame) => frame.rim), RIM_CHANNELS);
  const points: Partial<Record<TracedName, string>> = {};
  for (const name of TRACED_NAMES) {
    const packed = packSeries(frames.map((frame) => withOneDeviation(frame, name, view)), POINT_CHANNELS);
    if (packed !== null) points[name] = packed;
  }
  const parts = { frames: frames.length, times, ...(rim !== null && { rim }), points };
  return { ...parts, check: checkOf(parts) };
}

/** Never throws, whatever the texts hold: a record may have been written by somebody else's program. */
export function unpackTrace(packed: PackedTrace, view: ViewFrom): UnpackedTrace {
  const { frames: count } = packed;
  if (!Number.isInteger(count) || count < 0 || count > MOST_TRACED_FRAMES) {
    return damaged('frames', `${count}; allowed: a whole number from 0 to ${MOST_TRACED_FRAMES}`);
  }
  if (checkOf(packed) !== packed.check) return damaged('check', 'does not go with the rest, so something in the trace was changed');
  const times = readTimes(packed.times, count, TIME);
  if (times === null) return damaged('times', UNREADABLE);
  const rims = packed.rim === undefined ? [] : readSeries(packed.rim, count, RIM_CHANNELS);
  if (rims === null) return damaged('rim', UNREADABLE);
  const points: { readonly name: TracedName; readonly series: readonly (TracedPoint | null)[] }[] = [];
  for (const name of TRACED_NAMES) {
    const text = packed.points[name];
    if (text === undefined) continue;
    const series = readSeries(text, count, POINT_CHANNELS);
    if (series === null) return damaged(`points.${name}`, UNREADABLE);
    points.push({ name, series });
  }
  const frames = times.map((timeS, at): TracedFrame => {
    const seen: Partial<Record<TracedName, TracedPoint>> = {};
    for (const { name, series } of points) {
      const point = series[at];
      if (point != null) seen[name] = point;
    }
    return { timeS, rim: rims[at] ?? null, points: seen };
  });
  return { kind: 'trace', trace: { view, frames } };
}

function withOneDeviation({ points }: TracedFrame, name: TracedName, view: ViewFrom): TracedPoint | null {
  const point = points[name];
  if (point?.slides === undefined) return point ?? null;
  const { x, y } = point;
  const end = view === 'front' ? undefined : points[OTHER_END[name] ?? name];
  const sdPx = end === undefined || end === point ? anyWaySdPx(point) : acrossSdPx(point, Math.atan2(end.y - y, end.x - x));
  return { x, y, sdPx: Math.min(sdPx, FURTHEST_PX) };
}

/** Of a line that is followed by both its ends. */
const OTHER_END: Readonly<Partial<Record<TracedName, TracedName>>> = {
  'horn-near': 'horn-far',
  'horn-far': 'horn-near',
  'level-back': 'level-front',
  'level-front': 'level-back',
};

const UNREADABLE = 'not a series of as many frames with values that can be';

const TIME: Steps = { perUnit: TIME_STEPS, lowest: -FURTHEST_S * TIME_STEPS, highest: FURTHEST_S * TIME_STEPS };
const PLACE: Steps = { perUnit: PLACE_STEPS, lowest: -FURTHEST_PX * PLACE_STEPS, highest: FURTHEST_PX * PLACE_STEPS };
const LENGTH: Steps = { ...PLACE, lowest: 0 };
const DEVIATION: Steps = { perUnit: DEVIATION_STEPS, lowest: 1, highest: FURTHEST_PX * DEVIATION_STEPS };
const QUARTER_TURN = Math.round((Math.PI / 2) * ANGLE_STEPS);
const ANGLE: Steps = { perUnit: ANGLE_STEPS, lowest: 1 - QUARTER_TURN, highest: QUARTER_TURN };

const POINT_CHANNELS: Channels<TracedPoint> = {
  steps: [PLACE, PLACE, DEVIATION],
  take: ({ x, y, sdPx }) => [stepped('x', x, PLACE), stepped('y', y, PLACE), steppedDeviation('sdPx', sdPx)],
  make: ([x, y, sdPx]) => ({ x: x as number, y: y as number, sdPx: sdPx as number }),
};

const RIM_CHANNELS: Channels<TracedRim> = {
  steps: [PLACE, PLACE, LENGTH, LENGTH, ANGLE, DEVIATION, DEVIATION],
  take: ({ centre, semiMajorPx, semiMinorPx, angleRad, centreSdPx, axesSdPx }) => [
    stepped('centre.x', centre.x, PLACE),
    stepped('centre.y', centre.y, PLACE),
    stepped('semiMajorPx', semiMajorPx, LENGTH),
    stepped('semiMinorPx', semiMinorPx, LENGTH),
    steppedAngle(angleRad),
    steppedDeviation('centreSdPx', centreSdPx),
    steppedDeviation('axesSdPx', axesSdPx),
  ],
  make: ([x, y, semiMajorPx, semiMinorPx, angleRad, centreSdPx, axesSdPx]) => ({
    centre: { x: x as number, y: y as number },
    semiMajorPx: semiMajorPx as number,
    semiMinorPx: semiMinorPx as number,
    // The last step lies a little beyond the quarter turn.
    angleRad: Math.min(angleRad as number, Math.PI / 2),
    centreSdPx: centreSdPx as number,
    axesSdPx: axesSdPx as number,
  }),
};

function steppedDeviation(field: string, sdPx: number): number {
  return stepped(field, sdPx >= 0 ? Math.max(sdPx, 1 / DEVIATION_STEPS) : sdPx, DEVIATION);
}

/** The axis has no direction: a quarter turn back is a quarter turn forward. */
function steppedAngle(angleRad: number): number {
  return Math.round(angleRad * ANGLE_STEPS) === -QUARTER_TURN ? QUARTER_TURN : stepped('angleRad', angleRad, ANGLE);
}

/** Each text with its name before it, in the order of the names, so that none can stand for another. */
function checkOf({ frames, times, rim = '', points }: Omit<PackedTrace, 'check'>): number {
  const named = TRACED_NAMES.flatMap((name) => (points[name] === undefined ? [] : [`${name} ${points[name]}`]));
  const encoder = new TextEncoder();
  return [`frames ${frames}`, `times ${times}`, `rim ${rim}`, ...named].reduce((sum, part) => crc32(encoder.encode(`${part}\n`), sum), 0);
}

function damaged(part: string, why: string): UnpackedTrace {
  return { kind: 'damaged', message: `trace.${part}: ${why}` };
}
