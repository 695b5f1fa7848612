/** The horn's angle in every frame of a film from the side or from above, from its two followed lines. docs/numerics.md §18. */
import { toDegrees } from '../core/frame';
import { type AngleOptions, END_SD_PX, HEAD_SD_DEG, type HornAngle } from './hornAngles';
import type { CameraSpec, LineMark, ViewFrom } from './marks';
import { acrossSdPx } from './slidingPoint';
import { angleSeen } from './squareLines';
import type { FilmTrace, TracedFrame, TracedName } from './traces';

/** One angle of one frame; null where a line was lost, or tells no angle. */
export interface LineSample {
  readonly timeS: number;
  readonly seen: HornAngle | null;
}

/** `view` is a side or above; of a film from the front there are none: RangeError. */
export function lineSamples({ view, frames }: FilmTrace, camera: CameraSpec, options: Omit<AngleOptions, 'endSdPx' | 'levelEndSdPx'> = {}): LineSample[] {
  if (view === 'front') throw new RangeError('lineSamples: view front; allowed: right, left, above');
  const headSdDeg = options.headSdDeg ?? headTurningDeg(frames) ?? HEAD_SD_DEG;
  return frames.map((frame) => ({ timeS: frame.timeS, seen: angleIn(frame, view, camera, { ...options, headSdDeg }) }));
}

/** Fewer frames do not tell how much a head turns. */
const FRAMES_TO_TELL = 30;
/** No head that plays is believed stiller than this, nor to turn more, degrees: our judgement. */
const LEAST_HEAD_SD_DEG = 1;
const MOST_HEAD_SD_DEG = 8;

/**
 * How much the head turns in a film, one deviation, degrees: by how its level line turns in the picture. Of the two ways that the picture does not show
 * nothing is seen; a head is taken to turn as much about them. null where too few frames tell.
 */
export function headTurningDeg(frames: readonly TracedFrame[]): number | null {
  const ways = frames.flatMap((frame) => {
    const level = lineOf(frame, 'level-back', 'level-front');
    return level === null ? [] : [{ x: level.line.to.x - level.line.from.x, y: level.line.to.y - level.line.from.y }];
  });
  if (ways.length < FRAMES_TO_TELL) return null;
  const mean = ways.reduce((sum, { x, y }) => ({ x: sum.x + x, y: sum.y + y }), { x: 0, y: 0 });
  const turns = ways.map(({ x, y }) => toDegrees(Math.atan2(mean.x * y - mean.y * x, mean.x * x + mean.y * y)));
  const sdDeg = Math.sqrt(turns.reduce((sum, each) => sum + each * each, 0) / turns.length);
  return Math.min(MOST_HEAD_SD_DEG, Math.max(LEAST_HEAD_SD_DEG, sdDeg));
}

function angleIn(frame: TracedFrame, view: Exclude<ViewFrom, 'front'>, camera: CameraSpec, options: AngleOptions): HornAngle | null {
  const [horn, level] = [lineOf(frame, 'horn-near', 'horn-far'), lineOf(frame, 'level-back', 'level-front')];
  if (horn === null || level === null) return null;
  const asked = { ...options, endSdPx: horn.sdPx, levelEndSdPx: level.sdPx };
  const seen = angleSeen(horn.line, level.line, view, camera, asked);
  return seen.kind === 'seen' ? seen : null;
}

function lineOf({ points }: TracedFrame, from: TracedName, to: TracedName): { readonly line: LineMark; readonly sdPx: number } | null {
  const [start, end] = [points[from], points[to]];
  if (start === undefined || end === undefined) return null;
  // A point that slid along its own line is as good as before; one that slid along another edge (a cheek's outline) is not.
  const alongRad = Math.atan2(end.y - start.y, end.x - start.x);
  const sdPx = Math.hypot(acrossSdPx(start, alongRad), acrossSdPx(end, alongRad)) / Math.SQRT2;
  // What is followed is where the hand put it, wherever that was.
  return { line: { from: start, to: end }, sdPx: Math.hypot(sdPx, END_SD_PX) };
}
