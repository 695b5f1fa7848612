/** The horn's angle in every frame of a film from the side or from above, from its two followed lines. docs/numerics.md §18. */
import { type AngleOptions, END_SD_PX, type HornAngle } from './hornAngles';
import type { CameraSpec, LineMark, ViewFrom } from './marks';
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
  return frames.map((frame) => ({ timeS: frame.timeS, seen: angleIn(frame, view, camera, options) }));
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
  // What is followed is where the hand put it, wherever that was.
  return { line: { from: start, to: end }, sdPx: Math.hypot(Math.hypot(start.sdPx, end.sdPx) / Math.SQRT2, END_SD_PX) };
}
