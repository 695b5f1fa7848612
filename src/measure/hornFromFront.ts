/**
 * The rim's centre and the horn's axis in the camera's frame, from one picture taken from the front. Three things are brought together
 * by weighted least squares: the line along the horn (the axis lies in the plane through it and the camera), a mark on the horn at a known
 * way from the rim (the point so far along the axis is seen there), and the shape of the rim's ellipse, which near end-on says little
 * and leaves two answers, of which the line's direction chooses.
 */
import { type Vec3, cross, normalize } from '../core/vector';
import { circleForm, middleOf, rayOf } from './camera';
import type { CameraSpec } from './marks';
import type { Point } from './picture';
import { acrossSdPx, anyWaySdPx } from './slidingPoint';
import { factor, invertSymmetric, solveFactored } from './symmetricSolver';
import type { TracedPoint, TracedRim } from './traces';

/** Rim's shape (3), near end (1), far end (2), the far mark's distance (1), the weak prior (2). */
export const SHARED_HORN_ERRORS = 9;
/** How the marks on the marked frame err, the same way all through a film, px: judgements. */
export const HORN_MARK_SD_PX = 1;
export const RIM_MARK_SD_PX = 0.3;
/** A horn points into the camera within about this, radians: so weak that it only counts where nothing else does. */
const TOWARD_CAMERA_SD = 0.6;
const MOST_STEPS = 40;
/** Radians, or parts of the distance. */
const STEP_ENOUGH = 1e-9;
/** For derivatives by differences, in radians or parts of the distance. */
const DIFFERENCE = 1e-6;
/** Two answers whose sums of squares differ by less than this are not told apart (two deviations). */
const CLEAR_DIFFERENCE = 4;
/** A line runs the other way when it does so by more than this many deviations. */
const CLEAR_DIRECTION = 3;

export interface HornSeen {
  readonly rim: TracedRim;
  /** The ends of the horn's line. */
  readonly near?: TracedPoint | undefined;
  readonly far?: TracedPoint | undefined;
  /** How far before the rim's plane `far` lies along the horn. */
  readonly farMm?: { readonly value: number; readonly sd: number } | undefined;
}

export interface FrontAxis {
  readonly kind: 'found';
  /** Rim's centre, mm, and unit axis from mouth to bell, in the camera's frame. */
  readonly centre: Vec3;
  readonly axis: Vec3;
  /** Two unit vectors across the axis; covariances of the axis are along these, rad². */
  readonly across: readonly [Vec3, Vec3];
  /** From what changes from frame to frame: [11, 12, 22]. */
  readonly noise: readonly [number, number, number];
  /**
   * By one deviation of each of SHARED_HORN_ERRORS errors that stay the same through a film, along the two directions: the rim's shape (3),
   * the near end, the far end (2), its distance, the weak prior (2). Zero where one does not apply, so that frames compare place by place.
   */
  readonly shared: readonly (readonly [number, number])[];
  /** Derivatives by the logarithms of focal length and of the rim's diameter. */
  readonly byLogFocal: readonly [number, number];
  readonly byLogDiameter: readonly [number, number];
  /** Sum of squares in deviations, and the steps taken. */
  readonly chi2: number;
  readonly iterations: number;
}

export interface NoFrontAxis {
  readonly kind: 'not-found';
  /** two-fold: no line tells which of the ellipse's two answers it is. */
  readonly reason: 'two-fold' | 'not-settled';
}

/** radiusMm: of the rim's outer edge. */
export function hornFromFront(camera: CameraSpec, radiusMm: number, seen: HornSeen): FrontAxis | NoFrontAxis {
  if (!(radiusMm > 0 && radiusMm < Infinity)) throw new RangeError(`radiusMm ${radiusMm}: allowed is above 0 and finite`);
  if (seen.farMm && !(seen.farMm.value > 0 && seen.farMm.sd > 0)) {
    throw new RangeError(`farMm ${seen.farMm.value} ± ${seen.farMm.sd}: allowed is above 0, both`);
  }
  const direction = seen.near && seen.far ? { x: seen.far.x - seen.near.x, y: seen.far.y - seen.near.y } : null;
  if (!direction && !(seen.far && seen.farMm)) return { kind: 'not-found', reason: 'two-fold' };
  const centre = startCentre(camera, radiusMm, seen.rim);
  const answers = starts(camera, centre, seen)
    .map((axis) => settle(camera, radiusMm, seen, { centre, axis, farMm: seen.farMm?.value ?? 0 }))
    .filter((answer) => answer !== null)
    .filter(({ state }) => !direction || pointsAlong(state, direction, directionSd(seen)))
    .sort((a, b) => a.chi2 - b.chi2);
  const best = answers[0];
  if (!best) return { kind: 'not-found', reason: direction ? 'not-settled' : 'two-fold' };
  const result = withErrors(camera, radiusMm, seen, best);
  if (!result) return { kind: 'not-found', reason: 'not-settled' };
  const rival = answers.find(({ state, chi2 }) => chi2 - best.chi2 < CLEAR_DIFFERENCE && apart(state.axis, best.state.axis) > 3 * spreadOf(result));
  return rival ? { kind: 'not-found', reason: 'two-fold' } : result;
}

/** Standard deviation of the axis in its less certain direction, radians, everything counted but focal length and diameter. */
export function spreadOf(found: FrontAxis): number {
  const [a, b, c] = found.shared.reduce<readonly [number, number, number]>(
    ([a, b, c], [x, y]) => [a + x * x, b + x * y, c + y * y], found.noise,
  );
  return Math.sqrt((a + c) / 2 + Math.hypot((a - c) / 2, b));
}

interface State {
  readonly centre: Vec3;
  readonly axis: Vec3;
  /** Of the far mark; counts only where it is known. */
  readonly farMm: number;
}

interface Settled {
  readonly state: State;
  readonly chi2: number;
  readonly iterations: number;
}

const apart = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
const along = (a: Vec3, b: Vec3, times: number): Vec3 => [a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]];
const size = (a: Vec3): number => Math.hypot(a[0], a[1], a[2]);

function startCentre(camera: CameraSpec, radiusMm: number, rim: TracedRim): Vec3 {
  const ray = rayOf(camera, rim.centre);
  const depth = (camera.focalPx * radiusMm) / rim.semiMajorPx;
  return [(ray[0] / ray[2]) * depth, (ray[1] / ray[2]) * depth, depth];
}

/** Both answers of the ellipse's shape, and that of the far mark. */
function starts(camera: CameraSpec, centre: Vec3, seen: HornSeen): Vec3[] {
  const back = normalize([-centre[0], -centre[1], -centre[2]]);
  const { semiMajorPx, semiMinorPx, angleRad } = seen.rim;
  const cosine = Math.min(1, semiMinorPx / semiMajorPx);
  // Exactly end-on both would be one, and the way from one to the other would never be tried.
  const sine = Math.max(0.05, Math.sqrt(1 - cosine * cosine));
  const minor: Vec3 = [-Math.sin(angleRad), Math.cos(angleRad), 0];
  const found = [sine, -sine].map((each) => normalize(along([back[0] * cosine, back[1] * cosine, back[2] * cosine], minor, each)));
  const onMark = seen.far && seen.farMm ? towardMark(rayOf(camera, seen.far), centre, seen.farMm.value) : null;
  return onMark ? [onMark, ...found] : found;
}

/** The direction from the centre to where the mark's ray comes this far from it, on the camera's side; at its nearest where it never does. */
function towardMark(ray: Vec3, centre: Vec3, farMm: number): Vec3 | null {
  const nearest = ray[0] * centre[0] + ray[1] * centre[1] + ray[2] * centre[2];
  const across = size(along(centre, ray, -nearest));
  const way = nearest - Math.sqrt(Math.max(0, farMm * farMm - across * across));
  return way > 0 ? normalize(along([ray[0] * way, ray[1] * way, ray[2] * way], centre, -1)) : null;
}

/** Whether the axis is seen to run the way the line was drawn; where the line is too short to say, it may. */
function pointsAlong({ centre, axis }: State, direction: Point, sdPx: number): boolean {
  const x = axis[0] * centre[2] - axis[2] * centre[0];
  const y = axis[1] * centre[2] - axis[2] * centre[1];
  return x * direction.x + y * direction.y > -CLEAR_DIRECTION * sdPx * Math.hypot(x, y);
}

/** Of the line's direction times its length, px. */
const directionSd = ({ near, far }: HornSeen): number => Math.hypot(near ? anyWaySdPx(near) : 0, far ? anyWaySdPx(far) : 0, HORN_MARK_SD_PX * Math.SQRT2);

/** Number of unknowns: two turns of the axis, three of the centre (parts of its depth), and the far mark's distance (parts of itself). */
const unknownsOf = (seen: HornSeen): number => (seen.farMm ? 6 : 5);

/** Residuals in deviations, (measured − expected)/sd; null where the state cannot be seen. */
function residuals(camera: CameraSpec, radiusMm: number, seen: HornSeen, { centre, axis, farMm }: State): number[] | null {
  const form = circleForm(camera, centre, axis, radiusMm);
  if (!form) return null;
  const { rim, near, far } = seen;
  const root = rootOf(form.xx, form.xy, form.yy);
  const axesSd = Math.hypot(rim.axesSdPx, RIM_MARK_SD_PX);
  const c = Math.cos(rim.angleRad);
  const s = Math.sin(rim.angleRad);
  const rows = [
    (rim.centre.x - form.centre.x) / rim.centreSdPx,
    (rim.centre.y - form.centre.y) / rim.centreSdPx,
    (rim.semiMajorPx * c * c + rim.semiMinorPx * s * s - root.xx) / axesSd,
    // Off the diagonal once and not twice: this makes the three alike in every direction of the picture.
    (Math.SQRT2 * ((rim.semiMajorPx - rim.semiMinorPx) * c * s - root.xy)) / axesSd,
    (rim.semiMajorPx * s * s + rim.semiMinorPx * c * c - root.yy) / axesSd,
  ];
  const middle = middleOf(camera);
  const f = camera.focalPx;
  const at: Point = { x: middle.x + (f * centre[0]) / centre[2], y: middle.y + (f * centre[1]) / centre[2] };
  const wayX = axis[0] * centre[2] - axis[2] * centre[0];
  const wayY = axis[1] * centre[2] - axis[2] * centre[1];
  const way = Math.hypot(wayX, wayY);
  const offLine = (mark: TracedPoint): number =>
    way > 0 ? ((mark.x - at.x) * wayY - (mark.y - at.y) * wayX) / way / Math.hypot(acrossSdPx(mark, Math.atan2(wayY, wayX)), HORN_MARK_SD_PX) : 0;
  if (near) rows.push(offLine(near));
  if (far && seen.farMm) {
    const mark = along(centre, axis, farMm);
    if (!(mark[2] > 0)) return null;
    const sd = Math.hypot(anyWaySdPx(far), HORN_MARK_SD_PX);
    rows.push((far.x - middle.x - (f * mark[0]) / mark[2]) / sd, (far.y - middle.y - (f * mark[1]) / mark[2]) / sd);
    rows.push((seen.farMm.value - farMm) / seen.farMm.sd);
  } else if (far) rows.push(offLine(far));
  const [across, other] = acrossOf(normalize([-centre[0], -centre[1], -centre[2]]));
  rows.push(-dot(axis, across) / TOWARD_CAMERA_SD, -dot(axis, other) / TOWARD_CAMERA_SD);
  return rows;
}

/** For each residual: the part of its variance that changes from frame to frame; the rest stays the same, as the shared error of this number. */
function errorParts(seen: HornSeen): readonly { readonly noise: number; readonly shared: number }[] {
  const part = (sd: number, shared: number): number => (sd * sd) / (sd * sd + shared * shared);
  const axes = part(seen.rim.axesSdPx, RIM_MARK_SD_PX);
  const parts = [{ noise: 1, shared: 0 }, { noise: 1, shared: 0 }, ...[0, 1, 2].map((shared) => ({ noise: axes, shared }))];
  const alongRad = seen.near && seen.far ? Math.atan2(seen.far.y - seen.near.y, seen.far.x - seen.near.x) : null;
  const across = (mark: TracedPoint): number => (alongRad === null ? anyWaySdPx(mark) : acrossSdPx(mark, alongRad));
  if (seen.near) parts.push({ noise: part(across(seen.near), HORN_MARK_SD_PX), shared: 3 });
  if (seen.far) {
    const noise = part(seen.farMm ? anyWaySdPx(seen.far) : across(seen.far), HORN_MARK_SD_PX);
    parts.push({ noise, shared: 4 });
    if (seen.farMm) parts.push({ noise, shared: 5 }, { noise: 0, shared: 6 });
  }
  return [...parts, { noise: 0, shared: 7 }, { noise: 0, shared: 8 }];
}

/** The positive square root of a symmetric 2 × 2 matrix: for an ellipse, semi-axes in place of their squares. */
function rootOf(xx: number, xy: number, yy: number): { readonly xx: number; readonly xy: number; readonly yy: number } {
  const product = Math.sqrt(Math.max(0, xx * yy - xy * xy));
  const sum = Math.sqrt(xx + yy + 2 * product);
  return { xx: (xx + product) / sum, xy: xy / sum, yy: (yy + product) / sum };
}

function settle(camera: CameraSpec, radiusMm: number, seen: HornSeen, start: State): Settled | null {
  let state = start;
  let rows = residuals(camera, radiusMm, seen, state);
  if (!rows) return null;
  let damping = 1e-3;
  for (let iterations = 1; iterations <= MOST_STEPS; iterations++) {
    const { normal, slope, unknowns } = equations(camera, radiusMm, seen, state, rows);
    for (let j = 0; j < unknowns; j++) normal[j * unknowns + j]! *= 1 + damping;
    if (!factor(normal, unknowns)) return null;
    solveFactored(normal, unknowns, slope);
    const next = moved(state, slope);
    const after = residuals(camera, radiusMm, seen, next);
    const step = Math.hypot(...slope);
    if (after && squares(after) <= squares(rows)) {
      state = next;
      rows = after;
      damping *= 0.1;
    } else damping *= 10;
    if (step < STEP_ENOUGH || damping > 1e9) return { state, chi2: squares(rows), iterations };
  }
  return null;
}

const squares = (rows: readonly number[]): number => rows.reduce((sum, each) => sum + each * each, 0);

/** Expected values' derivatives by the unknowns, in deviations: one row for each residual. */
function derivatives(camera: CameraSpec, radiusMm: number, seen: HornSeen, state: State, rows: readonly number[]): number[][] | null {
  const unknowns = unknownsOf(seen);
  const columns: number[][] = [];
  for (let j = 0; j < unknowns; j++) {
    const step = new Float64Array(unknowns);
    step[j] = DIFFERENCE;
    const beside = residuals(camera, radiusMm, seen, moved(state, step));
    if (!beside) return null;
    columns.push(beside.map((each, i) => (rows[i]! - each) / DIFFERENCE));
  }
  return rows.map((_, i) => columns.map((column) => column[i]!));
}

function equations(camera: CameraSpec, radiusMm: number, seen: HornSeen, state: State, rows: readonly number[]): {
  normal: Float64Array; slope: Float64Array; unknowns: number; jacobian: number[][];
} {
  const unknowns = unknownsOf(seen);
  const jacobian = derivatives(camera, radiusMm, seen, state, rows) ?? rows.map(() => new Array<number>(unknowns).fill(0));
  const normal = new Float64Array(unknowns * unknowns);
  const slope = new Float64Array(unknowns);
  jacobian.forEach((row, i) => {
    for (let j = 0; j < unknowns; j++) {
      slope[j]! += row[j]! * rows[i]!;
      for (let k = 0; k < unknowns; k++) normal[j * unknowns + k]! += row[j]! * row[k]!;
    }
  });
  return { normal, slope, unknowns, jacobian };
}

function moved({ centre, axis, farMm }: State, step: Float64Array): State {
  const [first, second] = acrossOf(axis);
  const depth = centre[2];
  return {
    axis: normalize(along(along(axis, first, step[0]!), second, step[1]!)),
    centre: [centre[0] + depth * step[2]!, centre[1] + depth * step[3]!, depth * (1 + step[4]!)],
    farMm: farMm * (1 + (step[5] ?? 0)),
  };
}

/** Two unit vectors across a unit vector, which change smoothly with it as long as it does not point to the picture's side. */
function acrossOf(axis: Vec3): readonly [Vec3, Vec3] {
  const first = normalize(cross(axis, Math.abs(axis[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0]));
  return [first, cross(axis, first)];
}

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

function withErrors(camera: CameraSpec, radiusMm: number, seen: HornSeen, { state, chi2, iterations }: Settled): FrontAxis | null {
  const rows = residuals(camera, radiusMm, seen, state);
  if (!rows) return null;
  const { normal, unknowns, jacobian } = equations(camera, radiusMm, seen, state, rows);
  const inverse = invertSymmetric(normal, unknowns);
  if (!inverse) return null;
  // How the axis follows each residual: the first two rows of N⁻¹Jᵀ.
  const follow = jacobian.map((row): readonly [number, number] => [0, 1].map((a) =>
    row.reduce((sum, each, k) => sum + inverse[a * unknowns + k]! * each, 0)) as [number, number]);
  const noise: [number, number, number] = [0, 0, 0];
  const shared = Array.from({ length: SHARED_HORN_ERRORS }, (): [number, number] => [0, 0]);
  errorParts(seen).forEach((part, i) => {
    const [a, b] = follow[i]!;
    noise[0] += part.noise * a * a;
    noise[1] += part.noise * a * b;
    noise[2] += part.noise * b * b;
    const rest = Math.sqrt(1 - part.noise);
    if (rest > 0) shared[part.shared] = [a * rest, b * rest];
  });
  const by = (beside: number[] | null): readonly [number, number] =>
    [0, 1].map((a) => (beside ? rows.reduce((sum, each, i) => sum + follow[i]![a]! * (beside[i]! - each), 0) / DIFFERENCE : 0)) as [number, number];
  return {
    kind: 'found',
    centre: state.centre,
    axis: state.axis,
    across: acrossOf(state.axis),
    noise,
    shared,
    byLogFocal: by(residuals({ ...camera, focalPx: camera.focalPx * (1 + DIFFERENCE) }, radiusMm, seen, state)),
    byLogDiameter: by(residuals(camera, radiusMm * (1 + DIFFERENCE), seen, state)),
    chi2,
    iterations,
  };
}
