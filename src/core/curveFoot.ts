/**
 * The closest point (foot) on a planar form: Newton on (p − c(u))·c′(u) = 0 from a warm or a searched start.
 * Exact to rounding for the curve as evaluated; a bracketed search takes over where Newton leaves its basin.
 */
import { CURVE_CIRCLE, CURVE_LINE, CURVE_OUT, CURVE_SEXTIC, CURVE_TABLE, FIRST, HIGH, LOW, type PlaneCurve, SECOND, SEEDS, curvatureOf, evaluateCurve } from './planarForm';

/** What a foot writes: signed distance (+ outside), outward normal (x, z), curvature at the foot, 1 if at an end of the form. */
export const FOOT_OUT = 5;

/** Newton stops when the foot moves less than this, mm; the distance is then right to its square. */
const FOOT_STEP_MM = 1e-10;
/** A last step shorter than this is taken by Taylor, mm, and put right by what is then left of the foot's condition. */
const TAYLOR_STEP_MM = 2e-3;
const NEWTON_STEPS = 12;
/** Below this value of 1 + distance·curvature the foot may not be the nearest one: search again. */
const RESEED_BELOW = 0.2;
/** Numbers a piece of a table. */
const PIECE_SIZE = 12;
/** Half width of a common arch, mm: only a cold start's first guess depends on it. */
const START_REACH_MM = 40;
/** The foot of a point in front of a common arch stands at about this part of the point's own x; likewise. */
const START_PART = 0.7;

/** Room for one curve's evaluations; one per solver, so that nothing is allocated in the hot loop. */
export type CurveScratch = Float64Array;
export const curveScratch = (): CurveScratch => new Float64Array(CURVE_OUT);

/** Places in the array that `footAt` works on: the point (x, z), and the parameter to start from (NaN for none), then the foot's. */
export const AT_X = 0;
export const AT_Z = 1;
export const AT_PARAMETER = 2;
export const AT_SIZE = 3;

/** Closest point of (x, z) on the curve: writes FOOT_OUT numbers to `out` and returns the foot's parameter u. `warm` may be NaN. */
export function footOnCurve(
  curve: PlaneCurve,
  x: number,
  z: number,
  warm: number,
  scratch: CurveScratch,
  out: Float64Array,
): number {
  const at = Float64Array.of(x, z, warm);
  footAt(curve, at, scratch, out);
  return at[AT_PARAMETER]!;
}

/**
 * The same with its numbers in arrays. A number handed to a function that is not inlined is put in a box on the heap; this is called
 * a thousand times for one seat, so none is.
 */
export function footAt(curve: PlaneCurve, at: Float64Array, scratch: CurveScratch, out: Float64Array): void {
  if (curve.kind === CURVE_SEXTIC) {
    if (footOnSextic(curve.numbers, at, out)) return;
  } else if (curve.kind === CURVE_LINE) {
    out[0] = at[AT_Z]!;
    out[1] = 0;
    out[2] = 1;
    out[3] = 0;
    out[4] = 0;
    at[AT_PARAMETER] = at[AT_X]!;
    return;
  } else if (curve.kind === CURVE_CIRCLE) {
    footOnCircle(curve, at, out);
    return;
  }
  // On a convex form any start finds the one foot of a point outside, so the last foot or a rough guess will do. Where a form is
  // hollow somewhere a point may have several: the nearest is looked for anew, so that no answer depends on the one before.
  const x = at[AT_X]!;
  const z = at[AT_Z]!;
  if (!curve.convex) at[AT_PARAMETER] = nearestSeed(curve, x, z);
  else if (!(at[AT_PARAMETER]! === at[AT_PARAMETER]!)) at[AT_PARAMETER] = startAcross(curve, x);
  if (curve.kind === CURVE_TABLE && footOnTable(curve, at, out)) return;
  if (newtonFoot(curve, at, scratch)) {
    writeFoot(curve, at, scratch, out);
    if (1 + out[0]! * out[3]! >= RESEED_BELOW) return;
  }
  at[AT_PARAMETER] = searchFoot(curve, x, z, scratch);
  writeFoot(curve, at, scratch, out);
}

/**
 * The form z = −(a·x⁶ + b·x²), in registers: Newton, and the last short step by Taylor to third order instead of another evaluation.
 * False where it strays.
 */
function footOnSextic(numbers: Float64Array, at: Float64Array, out: Float64Array): boolean {
  const low = numbers[LOW]!;
  const high = numbers[HIGH]!;
  const a = numbers[FIRST]!;
  const b2 = 2 * numbers[SECOND]!;
  const x = at[AT_X]!;
  const z = at[AT_Z]!;
  let u = at[AT_PARAMETER]!;
  if (!(u === u)) u = Math.min(Math.max(START_PART * x, low), high);
  for (let turn = 0; turn < NEWTON_STEPS; turn++) {
    const square = u * u;
    const fourth = a * square * square;
    const slopeZ = -u * (6 * fourth + b2);
    const bend = -(30 * fourth + b2);
    const px = x - u;
    const pz = z + square * (fourth + b2 / 2);
    const speed2 = 1 + slopeZ * slopeZ;
    const fall = speed2 - pz * bend;
    if (!(fall > 0.05 * speed2)) return false;
    const move = (px + pz * slopeZ) / fall;
    const third = -120 * a * u * square;
    u += move;
    if (!(u > low && u < high)) return false;
    if (move * move * speed2 < TAYLOR_STEP_MM * TAYLOR_STEP_MM) {
      const restX = px - move;
      const restZ = pz - move * (slopeZ + (move / 2) * (bend + (move / 3) * third));
      const endSlope = slopeZ + move * (bend + (move / 2) * third);
      const endBend = bend + move * third;
      const left = (restX + restZ * endSlope) / fall;
      at[AT_PARAMETER] = u + left;
      const slope = endSlope + left * endBend;
      const inverse = 1 / Math.sqrt(1 + slope * slope);
      const away = (restZ - left * endSlope - (restX - left) * slope) * inverse;
      const curvature = -endBend * inverse * inverse * inverse;
      out[0] = away;
      out[1] = -slope * inverse;
      out[2] = inverse;
      out[3] = curvature;
      out[4] = 0;
      return 1 + away * curvature >= RESEED_BELOW;
    }
  }
  return false;
}

/** The same for a tabulated form. A step that ends in the next piece does no harm: the pieces share two derivatives. */
function footOnTable(curve: PlaneCurve, at: Float64Array, out: Float64Array): boolean {
  const { numbers, table } = curve;
  const low = numbers[LOW]!;
  const high = numbers[HIGH]!;
  const scale = numbers[FIRST]!;
  const lastPiece = table.length / PIECE_SIZE - 1;
  const x = at[AT_X]!;
  const z = at[AT_Z]!;
  let u = at[AT_PARAMETER]!;
  for (let turn = 0; turn < NEWTON_STEPS; turn++) {
    const place = (u - low) * scale;
    const piece = Math.min(Math.max(Math.floor(place), 0), lastPiece);
    const f = place - piece;
    const from = piece * PIECE_SIZE;
    const x1 = table[from + 1]!;
    const x2 = table[from + 2]!;
    const x3 = table[from + 3]!;
    const x4 = table[from + 4]!;
    const x5 = table[from + 5]!;
    const z1 = table[from + 7]!;
    const z2 = table[from + 8]!;
    const z3 = table[from + 9]!;
    const z4 = table[from + 10]!;
    const z5 = table[from + 11]!;
    const px = x - (table[from]! + f * (x1 + f * (x2 + f * (x3 + f * (x4 + f * x5)))));
    const pz = z - (table[from + 6]! + f * (z1 + f * (z2 + f * (z3 + f * (z4 + f * z5)))));
    // Derivatives by the place within the piece.
    const dx = x1 + f * (2 * x2 + f * (3 * x3 + f * (4 * x4 + f * 5 * x5)));
    const dz = z1 + f * (2 * z2 + f * (3 * z3 + f * (4 * z4 + f * 5 * z5)));
    const bendX = 2 * x2 + f * (6 * x3 + f * (12 * x4 + f * 20 * x5));
    const bendZ = 2 * z2 + f * (6 * z3 + f * (12 * z4 + f * 20 * z5));
    const speed2 = dx * dx + dz * dz;
    const fall = speed2 - px * bendX - pz * bendZ;
    if (!(fall > 0.05 * speed2)) return false;
    const move = (px * dx + pz * dz) / fall;
    u += move / scale;
    if (!(u > low && u < high)) return false;
    if (move * move * speed2 < TAYLOR_STEP_MM * TAYLOR_STEP_MM) {
      const thirdX = 6 * x3 + f * (24 * x4 + f * 60 * x5);
      const thirdZ = 6 * z3 + f * (24 * z4 + f * 60 * z5);
      const restX = px - move * (dx + (move / 2) * (bendX + (move / 3) * thirdX));
      const restZ = pz - move * (dz + (move / 2) * (bendZ + (move / 3) * thirdZ));
      const endX = dx + move * (bendX + (move / 2) * thirdX);
      const endZ = dz + move * (bendZ + (move / 2) * thirdZ);
      const endBendX = bendX + move * thirdX;
      const endBendZ = bendZ + move * thirdZ;
      const left = (restX * endX + restZ * endZ) / fall;
      at[AT_PARAMETER] = u + left / scale;
      const footX = endX + left * endBendX;
      const footZ = endZ + left * endBendZ;
      const inverse = 1 / Math.sqrt(footX * footX + footZ * footZ);
      const away = ((restZ - left * endZ) * footX - (restX - left * endX) * footZ) * inverse;
      const curvature = (footZ * endBendX - footX * endBendZ) * inverse * inverse * inverse;
      out[0] = away;
      out[1] = -footZ * inverse;
      out[2] = footX * inverse;
      out[3] = curvature;
      out[4] = 0;
      return 1 + away * curvature >= RESEED_BELOW;
    }
  }
  return false;
}

function nearestSeed(curve: PlaneCurve, x: number, z: number): number {
  const seeds = curve.seeds;
  let best = 0;
  let nearest = Infinity;
  for (let i = 0; i < seeds.length; i += 2) {
    const dx = x - seeds[i]!;
    const dz = z - seeds[i + 1]!;
    const distance = dx * dx + dz * dz;
    if (distance < nearest) {
      nearest = distance;
      best = i;
    }
  }
  return curve.low + ((curve.high - curve.low) * best) / (2 * SEEDS);
}

/** A rough parameter of the place on a symmetric convex form that lies over x. */
function startAcross(curve: PlaneCurve, x: number): number {
  const guess = curve.kind === CURVE_SEXTIC ? START_PART * x : (x / START_REACH_MM) * curve.high;
  return Math.min(Math.max(guess, curve.low), curve.high);
}

function footOnCircle(curve: PlaneCurve, at: Float64Array, out: Float64Array): void {
  const radius = curve.numbers[FIRST]!;
  const x = at[AT_X]!;
  const back = at[AT_Z]! + radius;
  const reach = Math.sqrt(x * x + back * back);
  out[0] = reach - radius;
  out[1] = reach > 0 ? x / reach : 0;
  out[2] = reach > 0 ? back / reach : 1;
  out[3] = 1 / radius;
  out[4] = 0;
  at[AT_PARAMETER] = radius * Math.atan2(x, back);
}

/** Newton from at[AT_PARAMETER], leaving the scratch evaluated at the foot; false where it strays. Ends of the form hold it back. */
function newtonFoot(curve: PlaneCurve, at: Float64Array, scratch: CurveScratch): boolean {
  const low = curve.numbers[LOW]!;
  const high = curve.numbers[HIGH]!;
  const x = at[AT_X]!;
  const z = at[AT_Z]!;
  let u = at[AT_PARAMETER]!;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    evaluateCurve(curve, u, scratch);
    const dx = scratch[2]!;
    const dz = scratch[3]!;
    const px = x - scratch[0]!;
    const pz = z - scratch[1]!;
    const speed2 = dx * dx + dz * dz;
    const slope = speed2 - px * scratch[4]! - pz * scratch[5]!;
    if (!(slope > 0.05 * speed2)) return false;
    const move = (px * dx + pz * dz) / slope;
    at[AT_PARAMETER] = u;
    if (move * move * speed2 < FOOT_STEP_MM * FOOT_STEP_MM) return true;
    const next = u + move;
    if (next <= low) {
      if (u === low) return true;
      u = low;
    } else if (next >= high) {
      if (u === high) return true;
      u = high;
    } else u = next;
  }
  return false;
}

function writeFoot(curve: PlaneCurve, at: Float64Array, scratch: CurveScratch, out: Float64Array): void {
  const u = at[AT_PARAMETER]!;
  const atEnd = u <= curve.low || u >= curve.high;
  if (atEnd) evaluateCurve(curve, u, scratch);
  const dx = scratch[2]!;
  const dz = scratch[3]!;
  const speed = Math.sqrt(dx * dx + dz * dz);
  const nx = -dz / speed;
  const nz = dx / speed;
  out[0] = (at[AT_X]! - scratch[0]!) * nx + (at[AT_Z]! - scratch[1]!) * nz;
  out[1] = nx;
  out[2] = nz;
  // Past its ends a form goes on straight, which keeps the energy smooth; a contact there is refused by the seat.
  out[3] = atEnd ? 0 : curvatureOf(scratch);
  out[4] = atEnd ? 1 : 0;
}

/** Nearest of evenly spaced seeds, then Newton kept inside a shrinking bracket of the foot condition. */
function searchFoot(curve: PlaneCurve, x: number, z: number, scratch: CurveScratch): number {
  const step = (curve.high - curve.low) / SEEDS;
  let best = curve.low;
  let nearest = Infinity;
  for (let seed = 0; seed <= SEEDS; seed++) {
    const u = seed === SEEDS ? curve.high : curve.low + seed * step;
    evaluateCurve(curve, u, scratch);
    const distance = (x - scratch[0]!) ** 2 + (z - scratch[1]!) ** 2;
    if (distance < nearest) {
      nearest = distance;
      best = u;
    }
  }
  let low = Math.max(curve.low, best - step);
  let high = Math.min(curve.high, best + step);
  let u = best;
  for (let turn = 0; turn < 80; turn++) {
    evaluateCurve(curve, u, scratch);
    const dx = scratch[2]!;
    const dz = scratch[3]!;
    const px = x - scratch[0]!;
    const pz = z - scratch[1]!;
    const along = px * dx + pz * dz;
    if (along > 0) low = u;
    else high = u;
    const speed2 = dx * dx + dz * dz;
    const slope = speed2 - px * scratch[4]! - pz * scratch[5]!;
    const move = slope > 0 ? along / slope : Infinity;
    if (move * move * speed2 < FOOT_STEP_MM * FOOT_STEP_MM) return u;
    const newton = u + move;
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (next === u) return u;
    u = next;
    if (high - low < 1e-14 * (1 + Math.abs(u))) break;
  }
  evaluateCurve(curve, u, scratch);
  return u;
}
