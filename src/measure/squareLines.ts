/**
 * Lines of a side view or a view from above as a camera far away and square to them would see them. A line that recedes from the camera and lies
 * beside the picture's middle is seen turned: the level line on a cheek goes inward toward the eye, so above the middle it seems to sink
 * forward, by 3° through a phone's lens. docs/numerics.md §18.
 */
import { toDegrees, toRadians } from '../core/frame';
import { middleOf } from './camera';
import { type AngleOptions, type AngleRefusal, CAMERA_SD_DEG, HEAD_SD_DEG, type HornAngle, OTHER_ELEVATION, elevationFromSide, lateralFromAbove, meanSquare } from './hornAngles';
import type { CameraSpec, LineMark, ViewFrom } from './marks';
import type { Point } from './picture';

/** By how much each line goes away from the camera on its way forward, as a part of that way. */
interface Recession {
  readonly level: number;
  readonly levelSd: number;
  readonly horn: number;
}

/** From the ear to the eye's outer corner of a generic head (headShape.ts), and how far a line put anywhere along a cheek is from that. */
const CHEEK = { level: 0.35, levelSd: 0.15 } as const;
/** From above a horn that points down goes away from the camera; a line over the crown is about level. */
const RECESSION: Readonly<Record<'side' | 'above', Recession>> = {
  side: { ...CHEEK, horn: 0 },
  above: { level: 0, levelSd: 0, horn: -Math.tan(toRadians(OTHER_ELEVATION.deg)) },
};
/** Elevation from a side, lateral from above, by the lines as they would be seen squarely. */
export function angleSeen(horn: LineMark, level: LineMark, view: Exclude<ViewFrom, 'front'>, camera: CameraSpec, options: AngleOptions = {}): HornAngle | AngleRefusal {
  const { cameraSdDeg = CAMERA_SD_DEG, headSdDeg = HEAD_SD_DEG } = options;
  const leanSdDeg = Math.hypot(cameraSdDeg, headSdDeg);
  const square = squareLines(horn, level, view, camera, leanSdDeg);
  const told = ({ horn, level }: SquareLines): HornAngle | AngleRefusal => (view === 'above' ? lateralFromAbove(horn, level, options) : elevationFromSide(horn, level, view, options));
  const seen = told(square);
  if (seen.kind !== 'seen') return seen;
  // The lens, by its logarithm: where nobody knows it, a line beside the middle is seen turned by anybody's guess.
  const lensSquare = meanSquare([camera.focalRelativeSd], ([off]) => {
    const other = off === 0 ? seen : told(squareLines(horn, level, view, { ...camera, focalPx: camera.focalPx * Math.exp(off!) }, leanSdDeg));
    return other.kind === 'seen' ? other.deg - seen.deg : MOST_OFF_DEG;
  });
  const turningSdDeg = Math.hypot(seen.turningSdDeg, square.sdDeg, Math.sqrt(lensSquare));
  return { ...seen, turningSdDeg, sdDeg: Math.hypot(seen.marksSdDeg, turningSdDeg) };
}
/** What is put for a lens through which the lines would tell no angle: half of the most by which a level line may be turned. */
const MOST_OFF_DEG = 22.5;

export interface SquareLines {
  readonly horn: LineMark;
  readonly level: LineMark;
  /** What the recession leaves unknown in the angle between the two, one deviation, degrees. */
  readonly sdDeg: number;
}

/** `leanSdDeg`: how far camera and head lean about the level line, together. */
export function squareLines(horn: LineMark, level: LineMark, view: Exclude<ViewFrom, 'front'>, camera: CameraSpec, leanSdDeg: number): SquareLines {
  const recession = RECESSION[view === 'above' ? 'above' : 'side'];
  const length = Math.hypot(level.to.x - level.from.x, level.to.y - level.from.y);
  if (!(length > 0)) return { horn, level, sdDeg: 0 };
  const seen = { x: (level.to.x - level.from.x) / length, y: (level.to.y - level.from.y) / length };
  const beside = placeOf(level.from, camera);
  // What is seen of a unit way forward g is g − recession · beside: g is of that form, and of length 1.
  const along = seen.x * beside.x + seen.y * beside.y;
  const across = seen.x * beside.y - seen.y * beside.x;
  const part = Math.sqrt(Math.max(0, 1 - (recession.level * across) ** 2)) - recession.level * along;
  const forward = { x: part * seen.x + recession.level * beside.x, y: part * seen.y + recession.level * beside.y };
  const hornBeside = placeOf(horn.from, camera);
  const [hornX, hornY] = [horn.to.x - horn.from.x, horn.to.y - horn.from.y];
  const hornForward = recession.horn * (hornX * forward.x + hornY * forward.y);
  const size = 1 - recession.horn * (hornBeside.x * forward.x + hornBeside.y * forward.y);
  return {
    horn: { from: horn.from, to: { x: horn.from.x + size * hornX + hornForward * hornBeside.x, y: horn.from.y + size * hornY + hornForward * hornBeside.y } },
    level: { from: level.from, to: { x: level.from.x + length * forward.x, y: level.from.y + length * forward.y } },
    sdDeg: Math.hypot(Math.hypot(recession.level, recession.levelSd) * leanSdDeg, recession.levelSd * toDegrees(across)),
  };
}

/** How far beside the picture's middle, as tangents. */
function placeOf({ x, y }: Point, camera: CameraSpec): Point {
  const middle = middleOf(camera);
  return { x: (x - middle.x) / camera.focalPx, y: (y - middle.y) / camera.focalPx };
}
