/**
 * The closest point (foot) on a planar form: Newton on (p − c(u))·c′(u) = 0 from a warm or a searched start.
 * Exact to rounding for the curve as evaluated; a bracketed search takes over where Newton leaves its basin.
 */
import { CURVE_CIRCLE, CURVE_LINE, CURVE_OUT, type PlaneCurve, curvatureOf, evaluateCurve } from './planarForm';

/** What a foot writes: signed distance (+ outside), outward normal (x, z), curvature at the foot, 1 if at an end of the form. */
export const FOOT_OUT = 5;

/** Newton stops when the foot moves less than this, mm; the distance is then right to its square. */
const FOOT_STEP_MM = 1e-10;
const NEWTON_STEPS = 12;
/** Below this value of 1 + distance·curvature the foot may not be the nearest one: search again. */
const RESEED_BELOW = 0.2;
const SEEDS = 96;

/** Room for one curve's evaluations; one per solver, so that nothing is allocated in the hot loop. */
export type CurveScratch = Float64Array;
export const curveScratch = (): CurveScratch => new Float64Array(CURVE_OUT);

/**
 * Closest point of (x, z) on the curve. `warm` is a parameter to start from, or NaN.
 * Writes FOOT_OUT numbers to `out` and returns the foot's parameter u.
 */
export function footOnCurve(
  curve: PlaneCurve,
  x: number,
  z: number,
  warm: number,
  scratch: CurveScratch,
  out: Float64Array,
): number {
  if (curve.kind === CURVE_LINE) {
    out[0] = z;
    out[1] = 0;
    out[2] = 1;
    out[3] = 0;
    out[4] = 0;
    return x;
  }
  if (curve.kind === CURVE_CIRCLE) return footOnCircle(curve, x, z, out);
  let u = warm;
  if (u === u) {
    u = newtonFoot(curve, x, z, u, scratch);
    if (u === u) {
      writeFoot(curve, x, z, u, scratch, out);
      if (1 + out[0]! * out[3]! >= RESEED_BELOW) return u;
    }
  }
  u = searchFoot(curve, x, z, scratch);
  writeFoot(curve, x, z, u, scratch, out);
  return u;
}

function footOnCircle(curve: PlaneCurve, x: number, z: number, out: Float64Array): number {
  const radius = curve.first;
  const back = z + radius;
  const reach = Math.sqrt(x * x + back * back);
  out[0] = reach - radius;
  out[1] = reach > 0 ? x / reach : 0;
  out[2] = reach > 0 ? back / reach : 1;
  out[3] = 1 / radius;
  out[4] = 0;
  return radius * Math.atan2(x, back);
}

/** Newton from u, leaving the scratch evaluated at the answer; NaN where it strays. Ends of the form hold it back. */
function newtonFoot(curve: PlaneCurve, x: number, z: number, start: number, scratch: CurveScratch): number {
  let u = start;
  for (let step = 0; step < NEWTON_STEPS; step++) {
    evaluateCurve(curve, u, scratch);
    const dx = scratch[2]!;
    const dz = scratch[3]!;
    const px = x - scratch[0]!;
    const pz = z - scratch[1]!;
    const speed2 = dx * dx + dz * dz;
    const slope = speed2 - px * scratch[4]! - pz * scratch[5]!;
    if (!(slope > 0.05 * speed2)) return NaN;
    const move = (px * dx + pz * dz) / slope;
    if (move * move * speed2 < FOOT_STEP_MM * FOOT_STEP_MM) return u;
    const next = u + move;
    if (next <= curve.low) {
      if (u === curve.low) return u;
      u = curve.low;
    } else if (next >= curve.high) {
      if (u === curve.high) return u;
      u = curve.high;
    } else u = next;
  }
  return NaN;
}

function writeFoot(
  curve: PlaneCurve,
  x: number,
  z: number,
  u: number,
  scratch: CurveScratch,
  out: Float64Array,
): void {
  if (u <= curve.low || u >= curve.high) evaluateCurve(curve, u, scratch);
  const dx = scratch[2]!;
  const dz = scratch[3]!;
  const speed = Math.sqrt(dx * dx + dz * dz);
  const nx = -dz / speed;
  const nz = dx / speed;
  const px = x - scratch[0]!;
  const pz = z - scratch[1]!;
  out[1] = nx;
  out[2] = nz;
  out[0] = px * nx + pz * nz;
  // Past its ends a form goes on straight, which keeps the energy smooth; a contact there is refused by the seat.
  const atEnd = u <= curve.low || u >= curve.high;
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
