/**
 * The horn's elevation from a picture taken from the side, and its lateral angle from one taken from above: the angle between the line
 * along the horn and the head's level line in the same picture. Both angles are people's (up, to the player's right, degrees). A level
 * line marked a little differently adds the same to every angle of that player: changes from home (`swingFrom`) are what counts.
 * Formulas: docs/numerics.md §18.
 */
import { toDegrees, toRadians } from '../core/frame';
import type { LineMark } from './marks';

/** The other angle, which the picture does not show. */
export interface OtherAngle {
  readonly deg: number;
  readonly sdDeg: number;
}

export interface Unseen {
  readonly other: OtherAngle;
  /** How far from square the camera looks, each of two ways, one deviation; the same for all pictures of one take. */
  readonly cameraSdDeg: number;
  /** How far the head has turned out of the picture since the camera was set up, each of two ways; anew in each picture. */
  readonly headSdDeg: number;
}

export interface AngleOptions {
  /** Lateral for a view from the side, elevation for one from above; default `OTHER_LATERAL` and `OTHER_ELEVATION`. */
  readonly other?: OtherAngle;
  readonly cameraSdDeg?: number;
  readonly headSdDeg?: number;
  /** Deviation of each end of a line, each direction, px; default `END_SD_PX`. */
  readonly endSdPx?: number;
  /** Of the level line's ends, where they are known better or worse; default `endSdPx`. */
  readonly levelEndSdPx?: number;
}

export interface HornAngle {
  readonly kind: 'seen';
  readonly angle: 'elevation' | 'lateral';
  readonly deg: number;
  readonly sdDeg: number;
  /** The parts of the deviation: the ends of both lines, and what turns out of the picture with the other angle. */
  readonly marksSdDeg: number;
  readonly turningSdDeg: number;
  /** As the picture shows it, before the other angle is taken into account. */
  readonly seenDeg: number;
  readonly unseen: Unseen;
}

/**
 * short: a line of fewer than 10 px. backward: the horn's line and the level line run opposite ways, so that the ends of one are
 * exchanged. other-side: the face looks toward the other side of the picture than the view says. upside-down: turned by more than 45°.
 */
export interface AngleRefusal {
  readonly kind: 'refused';
  readonly reason: 'short' | 'backward' | 'other-side' | 'upside-down';
}

/**
 * Our judgement, degrees: a camera set up by eye stands 2 to 5° off square, by root mean square 3.6° in some direction, so 2.5° in each of two; a head
 * that plays, where no film tells how much it turns; a player nobody has looked at from the other side.
 */
export const CAMERA_SD_DEG = 2.5;
export const HEAD_SD_DEG = 3;
export const OTHER_LATERAL: OtherAngle = { deg: 0, sdDeg: 5 };
export const OTHER_ELEVATION: OtherAngle = { deg: -10, sdDeg: 10 };
/** Each end of a line put by hand along a tube or a face, px. */
export const END_SD_PX = 1;
/** Shorter lines tell no direction, px. */
export const SHORTEST_LINE_PX = 10;
const MOST_TURN = Math.PI / 4;

/** Elevation from the player's right or left side: the level line from the back of the head to the front, the horn's toward the bell. */
export function elevationFromSide(horn: LineMark, level: LineMark, view: 'right' | 'left', options: AngleOptions = {}): HornAngle | AngleRefusal {
  const lines = readLines(horn, level);
  if ('kind' in lines) return lines;
  const facing = view === 'right' ? 1 : -1;
  const [levelX, levelY] = [facing * lines.level.x, -lines.level.y];
  if (Math.abs(levelY) > Math.abs(levelX) * Math.tan(MOST_TURN)) return { kind: 'refused', reason: 'upside-down' };
  if (levelX < 0) return { kind: 'refused', reason: 'other-side' };
  const [hornX, hornY] = [facing * lines.horn.x, -lines.horn.y];
  const along = levelX * hornX + levelY * hornY;
  if (!(along > 0)) return { kind: 'refused', reason: 'backward' };
  return answer('elevation', Math.atan2(levelX * hornY - levelY * hornX, along), lines, withDefaults(options, OTHER_LATERAL), options);
}

/** Lateral from over the head, the picture turned any way: the level line from the back of the head to the front says where the right is. */
export function lateralFromAbove(horn: LineMark, level: LineMark, options: AngleOptions = {}): HornAngle | AngleRefusal {
  const lines = readLines(horn, level);
  if ('kind' in lines) return lines;
  const along = lines.level.x * lines.horn.x + lines.level.y * lines.horn.y;
  if (!(along > 0)) return { kind: 'refused', reason: 'backward' };
  // From above, whoever looks up the picture has the right at its right: a turn from x toward y, which runs down.
  const toRight = Math.atan2(lines.level.x * lines.horn.y - lines.level.y * lines.horn.x, along);
  return answer('lateral', toRight, lines, withDefaults(options, OTHER_ELEVATION), options);
}

export interface Swing {
  readonly deg: number;
  readonly sdDeg: number;
}

/**
 * The change of an angle from home to another note's picture of the same take. A level line that is off by the same in both drops out,
 * and so does most of what the camera's obliqueness does. Throws RangeError for two different angles.
 */
export function swingFrom(home: HornAngle, other: HornAngle): Swing {
  if (home.angle !== other.angle) throw new RangeError(`swingFrom: ${home.angle} and ${other.angle}; allowed are two of one angle`);
  // What each has by itself, which is all but the camera's, and what one and the same camera does to the difference.
  const own = [home, other].map((one) => one.marksSdDeg ** 2 + Math.max(0, one.turningSdDeg ** 2 - cameraSquareDeg(one)));
  const cameraSdDeg = Math.max(home.unseen.cameraSdDeg, other.unseen.cameraSdDeg);
  const shared = meanSquare([cameraSdDeg, cameraSdDeg], ([first, second]) => cameraShift(other, first!, second!) - cameraShift(home, first!, second!));
  return { deg: other.deg - home.deg, sdDeg: Math.sqrt(own[0]! + own[1]! + shared) };
}

interface Way {
  readonly x: number;
  readonly y: number;
  readonly lengthPx: number;
}

function readLines(horn: LineMark, level: LineMark): { readonly horn: Way; readonly level: Way } | AngleRefusal {
  const [hornWay, levelWay] = [wayOf('horn', horn), wayOf('level', level)];
  if (Math.min(hornWay.lengthPx, levelWay.lengthPx) < SHORTEST_LINE_PX) return { kind: 'refused', reason: 'short' };
  return { horn: hornWay, level: levelWay };
}

function wayOf(field: string, { from, to }: LineMark): Way {
  const [x, y] = [to.x - from.x, to.y - from.y];
  const lengthPx = Math.hypot(x, y);
  if (!Number.isFinite(lengthPx)) throw new RangeError(`${field} (${from.x}, ${from.y}) to (${to.x}, ${to.y}): allowed are places in the picture`);
  return { x, y, lengthPx };
}

function withDefaults({ other, cameraSdDeg = CAMERA_SD_DEG, headSdDeg = HEAD_SD_DEG }: AngleOptions, usual: OtherAngle): Unseen {
  return { other: other ?? usual, cameraSdDeg, headSdDeg };
}

function answer(
  angle: 'elevation' | 'lateral',
  seen: number,
  lines: { readonly horn: Way; readonly level: Way },
  unseen: Unseen,
  { endSdPx = END_SD_PX, levelEndSdPx = endSdPx }: AngleOptions,
): HornAngle {
  checkUnseen(unseen, endSdPx, levelEndSdPx);
  const convert = CONVERT[angle];
  const other = toRadians(unseen.other.deg);
  const deg = toDegrees(convert(seen, 0, 0, other));
  // Two ends with their own errors across the line turn it by √2 of one over its length.
  const lineSd = Math.SQRT2 * Math.hypot(endSdPx / lines.horn.lengthPx, levelEndSdPx / lines.level.lengthPx);
  const marksSdDeg = Math.sqrt(meanSquare([toDegrees(lineSd)], ([by]) => toDegrees(convert(seen + toRadians(by!), 0, 0, other)) - deg));
  const turning = Math.hypot(unseen.cameraSdDeg, unseen.headSdDeg);
  const turningSquare = meanSquare([turning, turning, unseen.other.sdDeg], ([first, second, by]) =>
    toDegrees(convert(seen, toRadians(first!), toRadians(second!), other + toRadians(by!))) - deg,
  );
  const turningSdDeg = Math.sqrt(turningSquare);
  return { kind: 'seen', angle, deg, sdDeg: Math.hypot(marksSdDeg, turningSdDeg), marksSdDeg, turningSdDeg, seenDeg: toDegrees(seen), unseen };
}

const CONVERT = { elevation: elevationOf, lateral: lateralOf };

/**
 * Elevation that is seen at `seen` from the side by a camera turned by `yaw` about the player's vertical and `lean` about the level line;
 * with both 0, tan e = tan s · cos(lateral). Solves tan s · z′ = y′ for the horn's axis after both turns; all radians.
 */
function elevationOf(seen: number, yaw: number, lean: number, lateral: number): number {
  const tangent = Math.tan(seen);
  const above = tangent * (Math.sin(yaw) * Math.sin(lateral) * Math.cos(lean) + Math.cos(yaw) * Math.cos(lateral)) + Math.sin(lateral) * Math.sin(lean);
  return Math.atan2(above, Math.cos(lean) - tangent * Math.sin(yaw) * Math.sin(lean));
}

/**
 * Lateral that is seen at `seen` from above by a camera turned by `nod` about the player's left-to-right line and `lean` about the level
 * line; with both 0, what is seen. Solves A·sin l − B·cos l = C; all radians.
 */
function lateralOf(seen: number, nod: number, lean: number, elevation: number): number {
  const [tangent, rise] = [Math.tan(seen), Math.tan(elevation)];
  const a = Math.cos(lean) + tangent * Math.sin(nod) * Math.sin(lean);
  const b = tangent * Math.cos(nod);
  const c = rise * (tangent * Math.sin(nod) * Math.cos(lean) - Math.sin(lean));
  return Math.atan2(b, a) + Math.asin(Math.max(-1, Math.min(1, c / Math.hypot(a, b))));
}

/** Three-point Gauss–Hermite nodes, in deviations, with their weights. */
const NODES: readonly (readonly [number, number])[] = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
];

/** Mean of a square over independent normal numbers with these deviations. */
export function meanSquare(deviations: readonly number[], value: (numbers: readonly number[]) => number): number {
  let cases: { readonly numbers: readonly number[]; readonly weight: number }[] = [{ numbers: [], weight: 1 }];
  for (const deviation of deviations) {
    cases = cases.flatMap(({ numbers, weight }) => NODES.map(([at, part]) => ({ numbers: [...numbers, at * deviation], weight: weight * part })));
  }
  return cases.reduce((sum, { numbers, weight }) => sum + weight * value(numbers) ** 2, 0);
}

function cameraShift({ angle, seenDeg, deg, unseen }: HornAngle, firstDeg: number, secondDeg: number): number {
  return toDegrees(CONVERT[angle](toRadians(seenDeg), toRadians(firstDeg), toRadians(secondDeg), toRadians(unseen.other.deg))) - deg;
}

function cameraSquareDeg(one: HornAngle): number {
  const sd = one.unseen.cameraSdDeg;
  return meanSquare([sd, sd], ([first, second]) => cameraShift(one, first!, second!));
}

/** Beyond this the angle not seen would leave the horn almost along the line of sight. */
const MOST_OTHER_DEG = 60;

function checkUnseen({ other, cameraSdDeg, headSdDeg }: Unseen, endSdPx: number, levelEndSdPx: number): void {
  if (!(Math.abs(other.deg) <= MOST_OTHER_DEG)) throw new RangeError(`other.deg ${other.deg}: allowed is from −${MOST_OTHER_DEG} to ${MOST_OTHER_DEG}`);
  for (const [field, value] of Object.entries({ 'other.sdDeg': other.sdDeg, cameraSdDeg, headSdDeg })) {
    if (!(value >= 0 && value <= MOST_SD_DEG)) throw new RangeError(`${field} ${value}: allowed is from 0 to ${MOST_SD_DEG}`);
  }
  for (const [field, value] of Object.entries({ endSdPx, levelEndSdPx })) {
    if (!(value >= 0 && value < Infinity)) throw new RangeError(`${field} ${value}: allowed is 0 or more`);
  }
}

/** √3 deviations of two turns are still well before a quarter turn. */
const MOST_SD_DEG = 20;
