/**
 * The upper lip's share from a picture through a clear rim: the line where the lips meet, marked inside the rim's outer edge. The rim's
 * ellipse is mapped back to a circle, the line's distance from its centre is taken in the cup's radii, and core's three meanings follow.
 * Formulas: docs/numerics.md §18.
 */
import { areaShare, arcShare } from '../core/lipLine';
import type { RimSpec } from '../core/specs';
import { type Covariance5, bilinear, formFrom, formOf, numbersOf } from './ellipseForm';
import type { Landmarks } from './marks';
import type { Point } from './picture';
import type { RimEllipse } from './traces';

export interface SharesSeen {
  readonly kind: 'seen';
  readonly diameter: Share;
  readonly arc: Share;
  readonly area: Share;
  /** Height of the lip line above the rim's centre in the rim's own plane, mm. */
  readonly offsetMm: number;
  readonly offsetSdMm: number;
  /** How far the marked line leans from the player's own level, degrees, the higher end toward the player's left positive. */
  readonly leanDeg: number;
}

export interface Share {
  readonly value: number;
  readonly sd: number;
}

/** few: fewer than two different marks. upright: the line stands nearer to upright than to level. outside-cup: it does not cross the cup, or only at its very edge. */
export interface SharesRefusal {
  readonly kind: 'refused';
  readonly reason: 'few' | 'upright' | 'outside-cup';
}

export interface PlacementOptions {
  /** Covariance of the ellipse's form; absent, the ellipse is taken as it is. */
  readonly covariance?: Covariance5;
  /** For which way is up: the eyes, or the bridge of the nose. Absent, the picture's own up. */
  readonly landmarks?: Landmarks;
  /** Deviation of one mark on the lip line, px. */
  readonly markSdPx?: number;
  /** How far the lips may meet before or behind the plane of the rim's outer edge, one deviation, mm: seen askew, that moves the line. */
  readonly lipDepthSdMm?: number;
}

/** Of the cup's diameter: nearer to its edge no hand tells whether the line crosses it, and by area the share would round to 0 or 1, which a reading cannot hold. */
export const LEAST_SHARE = 0.01;
/** Each mark where the lips meet, px, and their depth, mm: our judgement. */
export const LIP_MARK_SD_PX = 1;
export const LIP_DEPTH_SD_MM = 1;

/** Throws RangeError where marks or deviations are no numbers, or the rim's inner diameter is not between 0 and the outer. */
export function sharesSeen(
  ellipse: RimEllipse,
  lipLine: readonly Point[],
  rim: Pick<RimSpec, 'innerDiameterMm' | 'outerDiameterMm'>,
  { covariance, landmarks = {}, markSdPx = LIP_MARK_SD_PX, lipDepthSdMm = LIP_DEPTH_SD_MM }: PlacementOptions = {},
): SharesSeen | SharesRefusal {
  checkInput(ellipse, lipLine, rim, markSdPx, lipDepthSdMm);
  const up = upOf(landmarks, ellipse);
  const flat = [...numbersOf(formOf(ellipse)), ...lipLine.flatMap(({ x, y }) => [x, y])];
  const seen = heightOf(flat, up);
  if (seen === null) return { kind: 'refused', reason: 'few' };
  if (Math.abs(seen.lean) > UPRIGHT) return { kind: 'refused', reason: 'upright' };
  const cup = rim.innerDiameterMm / rim.outerDiameterMm;
  const byDiameter = (1 - seen.height / cup) / 2;
  if (!(byDiameter >= LEAST_SHARE && byDiameter <= 1 - LEAST_SHARE)) return { kind: 'refused', reason: 'outside-cup' };

  const slopes = flat.map((value, index) => (heightMoved(flat, index, value + NUDGE_PX, up) - heightMoved(flat, index, value - NUDGE_PX, up)) / (2 * NUDGE_PX));
  const ofEllipse = covariance === undefined ? 0 : bilinear(slopes.slice(0, 5), covariance, slopes.slice(0, 5));
  // Lips are no straight line: where the marks leave it by more than a hand's error, that is how far it is from known.
  const freedom = lipLine.length - 2;
  const markSquare = Math.max(markSdPx ** 2, freedom > 0 ? (seen.squares * ((ellipse.semiMajorPx + ellipse.semiMinorPx) / 2) ** 2) / freedom : 0);
  const ofMarks = markSquare * slopes.slice(5).reduce((sum, slope) => sum + slope * slope, 0);
  const radiusMm = rim.outerDiameterMm / 2;
  const sd = Math.sqrt(ofEllipse + ofMarks + (lipDepthSdMm * depthSlope(ellipse, seen.across)) ** 2 / radiusMm ** 2);
  return { kind: 'seen', ...sharesOf(byDiameter, sd / cup / 2), offsetMm: seen.height * radiusMm, offsetSdMm: sd * radiusMm, leanDeg: (seen.lean * 180) / Math.PI };
}

/** Steps for slopes, px: differences of a smooth function, with errors of the square of this over the ellipse's size. */
const NUDGE_PX = 1e-3;
const UPRIGHT = Math.PI / 4;

function sharesOf(byDiameter: number, sd: number): Pick<SharesSeen, 'diameter' | 'arc' | 'area'> {
  // Mean slope over ± one deviation: at the cup's edge the arc's own slope has no bound.
  const [low, high] = [Math.max(0, byDiameter - sd), Math.min(1, byDiameter + sd)];
  const over = (meaning: (share: number) => number): number => (high > low ? ((meaning(high) - meaning(low)) / (high - low)) * sd : 0);
  return {
    diameter: { value: byDiameter, sd },
    arc: { value: arcShare(byDiameter), sd: over(arcShare) },
    area: { value: areaShare(byDiameter), sd: over(areaShare) },
  };
}

interface LineSeen {
  /** Signed distance of the centre's nearest point on the line, up positive, in outer radii. */
  readonly height: number;
  /** Unit normal of the line in the rim's plane, upward. */
  readonly across: Point;
  readonly lean: number;
  /** Sum of squared distances of the marks from the line, in outer radii squared. */
  readonly squares: number;
}

/** From the ellipse's five numbers and the marks' coordinates; null: no direction. */
function heightOf(flat: readonly number[], upInPicture: Point): LineSeen | null {
  const form = formFrom(flat);
  const area = form.mean ** 2 - form.p ** 2 - form.q ** 2;
  // The symmetric map back to the circle turns nothing: level stays level but for a squeeze.
  const back = (dx: number, dy: number): Point => ({
    x: ((form.mean - form.p) * dx - form.q * dy) / area,
    y: ((form.mean + form.p) * dy - form.q * dx) / area,
  });
  const marks: Point[] = [];
  for (let index = 5; index < flat.length; index += 2) marks.push(back(flat[index]! - form.x, flat[index + 1]! - form.y));
  const middle = { x: mean(marks.map(({ x }) => x)), y: mean(marks.map(({ y }) => y)) };
  let [xx, xy, yy] = [0, 0, 0];
  for (const { x, y } of marks) {
    xx += (x - middle.x) ** 2;
    xy += (x - middle.x) * (y - middle.y);
    yy += (y - middle.y) ** 2;
  }
  const spread = Math.hypot((xx - yy) / 2, xy);
  if (!(spread > 0)) return null;
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const up = back(upInPicture.x, upInPicture.y);
  const upward = -Math.sin(angle) * up.x + Math.cos(angle) * up.y >= 0 ? 1 : -1;
  const across = { x: -upward * Math.sin(angle), y: upward * Math.cos(angle) };
  return {
    height: across.x * middle.x + across.y * middle.y,
    across,
    lean: Math.atan2(across.x * up.y - across.y * up.x, across.x * up.x + across.y * up.y),
    squares: Math.max(0, (xx + yy) / 2 - spread),
  };
}

function heightMoved(flat: readonly number[], index: number, value: number, up: Point): number {
  const moved = [...flat];
  moved[index] = value;
  return heightOf(moved, up)?.height ?? NaN;
}

/** How far the line moves along its normal, mm in the rim's plane, for lips 1 mm out of it: the tangent of the tilt along the short axis. */
function depthSlope({ semiMajorPx, semiMinorPx, angleRad }: RimEllipse, across: Point): number {
  const tangent = Math.sqrt(Math.max(0, (semiMajorPx / semiMinorPx) ** 2 - 1));
  return tangent * Math.abs(-Math.sin(angleRad) * across.x + Math.cos(angleRad) * across.y);
}

/** Unit vector in the picture: square to the line between the eyes and toward them, else toward the bridge of the nose, else up the picture. */
function upOf(landmarks: Landmarks, { centre }: RimEllipse): Point {
  const [right, left] = [
    landmarks['outer-eye-right'] ?? landmarks['inner-eye-right'],
    landmarks['outer-eye-left'] ?? landmarks['inner-eye-left'],
  ];
  if (right !== undefined && left !== undefined && Math.hypot(left.x - right.x, left.y - right.y) > 0) {
    const [x, y] = [left.y - right.y, right.x - left.x];
    const size = Math.hypot(x, y);
    const toward = x * ((left.x + right.x) / 2 - centre.x) + y * ((left.y + right.y) / 2 - centre.y) >= 0 ? 1 : -1;
    return { x: (toward * x) / size, y: (toward * y) / size };
  }
  const nose = landmarks['nose-bridge'];
  if (nose !== undefined && Math.hypot(nose.x - centre.x, nose.y - centre.y) > 0) {
    const size = Math.hypot(nose.x - centre.x, nose.y - centre.y);
    return { x: (nose.x - centre.x) / size, y: (nose.y - centre.y) / size };
  }
  return { x: 0, y: -1 };
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

function checkInput(ellipse: RimEllipse, lipLine: readonly Point[], rim: Pick<RimSpec, 'innerDiameterMm' | 'outerDiameterMm'>, markSdPx: number, lipDepthSdMm: number): void {
  const { innerDiameterMm: inner, outerDiameterMm: outer } = rim;
  if (!(inner > 0 && outer > inner && outer < Infinity)) throw new RangeError(`rim.innerDiameterMm ${inner}: allowed is between 0 and the outer diameter, ${outer}`);
  if (!(ellipse.semiMinorPx > 0 && ellipse.semiMajorPx < Infinity)) throw new RangeError(`ellipse.semiMinorPx ${ellipse.semiMinorPx}: allowed is above 0`);
  for (const { x, y } of lipLine) if (!Number.isFinite(x) || !Number.isFinite(y)) throw new RangeError(`lipLine (${x}, ${y}): allowed is a place in the picture`);
  for (const [field, value] of Object.entries({ markSdPx, lipDepthSdMm })) if (!(value >= 0 && value < Infinity)) throw new RangeError(`${field} ${value}: allowed is 0 or more`);
}
