/**
 * Planar arch forms: horizontal curves z(x) through the origin that open backward, in millimetres.
 * A curve is walked by a parameter u that grows toward the player's left. Formulas and sources: docs/numerics.md §1.
 */
import { tooTight } from './formChecks';
import { parametricSpline } from './planarSpline';
import type { FormSpec } from './specs';
import { sayCore } from '../words/core';
import { saidNumber } from '../words/numbers';

/** How a curve is evaluated in the hot loop. */
export const CURVE_LINE = 0;
export const CURVE_CIRCLE = 1;
export const CURVE_SEXTIC = 2;
export const CURVE_TABLE = 3;

/** Numbers a curve evaluation writes: x, z, x′, z′, x″, z″ (derivatives by u). */
export const CURVE_OUT = 6;

/** Places in `PlaneCurve.numbers`. */
export const LOW = 0;
export const HIGH = 1;
export const FIRST = 2;
export const SECOND = 3;

export interface PlaneCurve {
  /** low, high, first, second as typed numbers, for the hot loop. */
  readonly numbers: Float64Array;
  readonly kind: typeof CURVE_LINE | typeof CURVE_CIRCLE | typeof CURVE_SEXTIC | typeof CURVE_TABLE;
  /** Range of the parameter u. */
  readonly low: number;
  readonly high: number;
  /** Circle: radius. Sextic: a. Table: pieces per unit of u. Line: unused (0). */
  readonly first: number;
  /** Sextic: b. Otherwise unused (0). */
  readonly second: number;
  /** Table: quintic coefficients, 12 a piece (x₀…x₅, z₀…z₅ in the piece's own 0…1). */
  readonly table: Float64Array;
  readonly pieces: number;
  /** True where the form bulges outward all along: then a point outside has one foot, and any start finds it. */
  readonly convex: boolean;
  /** Of a form that is not convex: evenly spaced points (x, z) to begin a search for the nearest foot from; else empty. */
  readonly seeds: Float64Array;
  /** The closed form itself, for tests, tables and drawing: writes CURVE_OUT numbers. */
  exact(u: number, out: Float64Array): void;
}

/** Pieces of a tabulated form: with 160 the quintic stays within 1e-9 mm of the closed form (tests/unit/planarForm.test.ts). */
const TABLE_PIECES = 160;
/** The power family's slope grows without bound toward the molars unless it is an ellipse: it is used to this part of the half width. */
const POWER_USED_PART = 0.985;
/** Forms without an end of their own end here, sideways and backward, mm: further than any mouth. */
const REACH_MM = 70;
/** Stretches between the seeds of a search for the nearest foot. */
export const SEEDS = 96;
const EMPTY = new Float64Array(0);

/** Builds the curve of a form. Throws RangeError where the numbers make no arch. */
export function buildCurve(spec: FormSpec): PlaneCurve {
  switch (spec.kind) {
    case 'line':
      return closed(CURVE_LINE, -10 * REACH_MM, 10 * REACH_MM, 0, 0, (u, out) => {
        write(out, u, 0, 1, 0, 0, 0);
      });
    case 'circle': {
      const radius = positive('form.radiusMm', spec.radiusMm);
      const end = Math.PI * 0.95 * radius;
      return closed(CURVE_CIRCLE, -end, end, radius, 0, (u, out) => {
        const sine = Math.sin(u / radius);
        const cosine = Math.cos(u / radius);
        write(out, radius * sine, radius * (cosine - 1), cosine, -sine, -sine / radius, -cosine / radius);
      });
    }
    case 'sextic':
      return sextic(spec.a, spec.b);
    case 'catenary':
      return catenary(positive('form.widthMm', spec.widthMm), positive('form.depthMm', spec.depthMm));
    case 'power':
      return power(
        positive('form.widthMm', spec.widthMm),
        positive('form.depthMm', spec.depthMm),
        positive('form.exponent', spec.exponent),
      );
    case 'points': {
      const spline = parametricSpline(spec.points);
      return tabulateCurve(spline.low, spline.high, false, spline.evaluate);
    }
  }
}

/** Evaluates a curve at u the way the hot loop does: position and first two derivatives. */
export function evaluateCurve(curve: PlaneCurve, u: number, out: Float64Array): void {
  if (curve.kind === CURVE_SEXTIC) {
    const square = u * u;
    const fourth = square * square;
    const a = curve.numbers[FIRST]!;
    const b = curve.numbers[SECOND]!;
    out[0] = u;
    out[1] = -square * (a * fourth + b);
    out[2] = 1;
    out[3] = -u * (6 * a * fourth + 2 * b);
    out[4] = 0;
    out[5] = -(30 * a * fourth + 2 * b);
  } else if (curve.kind === CURVE_TABLE) {
    evaluateTable(curve, u, out);
  } else {
    curve.exact(u, out);
  }
}

/** Curvature from derivatives, 1/mm, positive where the arch is convex outward. */
export function curvatureOf(out: Float64Array): number {
  const dx = out[2]!;
  const dz = out[3]!;
  const speed2 = dx * dx + dz * dz;
  return (dz * out[4]! - dx * out[5]!) / (speed2 * Math.sqrt(speed2));
}

/** The catenary's parameter a with a(cosh(W/2a) − 1) = D, by Newton on the logarithm of a. */
export function catenaryParameter(widthMm: number, depthMm: number): number {
  const half = widthMm / 2;
  const depthAt = (a: number): number => 2 * a * Math.sinh(half / (2 * a)) ** 2;
  let low = half / 700;
  let high = (half * half) / depthMm + half;
  for (let step = 0; step < 200; step++) {
    const middle = Math.sqrt(low * high);
    if (depthAt(middle) > depthMm) low = middle;
    else high = middle;
    if (high - low <= 1e-15 * high) break;
  }
  return Math.sqrt(low * high);
}

function sextic(a: number, b: number): PlaneCurve {
  if (!(a >= 0 && b >= 0)) throw tooTight('form.a, form.b', `${saidNumber(a)}, ${saidNumber(b)}`, sayCore('bothFromZero'));
  let end = REACH_MM;
  while (end * end * (a * end ** 4 + b) > REACH_MM) end *= 0.97;
  return closed(CURVE_SEXTIC, -end, end, a, b, (u, out) => {
    const fourth = u ** 4;
    write(out, u, -u * u * (a * fourth + b), 1, -u * (6 * a * fourth + 2 * b), 0, -(30 * a * fourth + 2 * b));
  });
}

function catenary(widthMm: number, depthMm: number): PlaneCurve {
  const a = catenaryParameter(widthMm, depthMm);
  // Walked by arc length s = a·sinh(x/a): x = a·asinh(s/a), z = a − √(a² + s²), so that steep forms stay evenly sampled.
  const end = a * Math.sinh(widthMm / 2 / a);
  return tabulateCurve(-end, end, true, (s, out) => {
    const root = Math.sqrt(a * a + s * s);
    const cube = root * root * root;
    write(out, a * Math.asinh(s / a), a - root, a / root, -s / root, (-a * s) / cube, (-a * a) / cube);
  });
}

function power(widthMm: number, depthMm: number, exponent: number): PlaneCurve {
  const half = widthMm / 2;
  const end = exponent === 0.5 ? Math.PI / 2 : Math.asin(POWER_USED_PART);
  const q = 2 * exponent;
  // x = (W/2)·sin τ turns D(1 − (2x/W)²)^e into D·cos^{2e} τ.
  return tabulateCurve(-end, end, true, (t, out) => {
    const sine = Math.sin(t);
    const cosine = Math.cos(t);
    const secondPower = q === 1 ? -cosine : q * ((q - 1) * cosine ** (q - 2) * sine * sine - cosine ** q);
    write(
      out,
      half * sine,
      depthMm * (cosine ** q - 1),
      half * cosine,
      -depthMm * q * cosine ** (q - 1) * sine,
      -half * sine,
      depthMm * secondPower,
    );
  });
}

type Exact = (u: number, out: Float64Array) => void;

function closed(
  kind: PlaneCurve['kind'],
  low: number,
  high: number,
  first: number,
  second: number,
  exact: Exact,
): PlaneCurve {
  return { numbers: Float64Array.of(low, high, first, second), kind, low, high, first, second, table: EMPTY, pieces: 0, convex: true, seeds: EMPTY, exact };
}

/** A form by quintic pieces that share position and two derivatives at their ends: the fast stand-in for powers and roots. */
export function tabulateCurve(low: number, high: number, convex: boolean, exact: Exact): PlaneCurve {
  const pieces = TABLE_PIECES;
  const table = new Float64Array(pieces * 12);
  const step = (high - low) / pieces;
  let left = new Float64Array(CURVE_OUT);
  let right = new Float64Array(CURVE_OUT);
  exact(low, left);
  for (let piece = 0; piece < pieces; piece++) {
    exact(piece === pieces - 1 ? high : low + step * (piece + 1), right);
    for (let axis = 0; axis < 2; axis++) {
      const p0 = left[axis]!;
      const v0 = left[axis + 2]! * step;
      const a0 = left[axis + 4]! * step * step;
      const jump = right[axis]! - p0 - v0 - a0 / 2;
      const slope = right[axis + 2]! * step - v0 - a0;
      const bend = right[axis + 4]! * step * step - a0;
      const at = piece * 12 + axis * 6;
      table[at] = p0;
      table[at + 1] = v0;
      table[at + 2] = a0 / 2;
      table[at + 3] = 10 * jump - 4 * slope + bend / 2;
      table[at + 4] = -15 * jump + 7 * slope - bend;
      table[at + 5] = 6 * jump - 3 * slope + bend / 2;
    }
    const swap = left;
    left = right;
    right = swap;
  }
  const seeds = new Float64Array(convex ? 0 : 2 * (SEEDS + 1));
  for (let seed = 0; 2 * seed < seeds.length; seed++) {
    exact(seed === SEEDS ? high : low + ((high - low) * seed) / SEEDS, left);
    seeds[2 * seed] = left[0]!;
    seeds[2 * seed + 1] = left[1]!;
  }
  return { numbers: Float64Array.of(low, high, 1 / step, 0), kind: CURVE_TABLE, low, high, first: 1 / step, second: 0, table, pieces, convex, seeds, exact };
}

function evaluateTable(curve: PlaneCurve, u: number, out: Float64Array): void {
  const scale = curve.numbers[FIRST]!;
  const place = (u - curve.numbers[LOW]!) * scale;
  let piece = Math.floor(place);
  if (piece < 0) piece = 0;
  else if (piece >= curve.pieces) piece = curve.pieces - 1;
  const f = place - piece;
  const table = curve.table;
  for (let axis = 0; axis < 2; axis++) {
    const at = piece * 12 + axis * 6;
    const c2 = table[at + 2]!;
    const c3 = table[at + 3]!;
    const c4 = table[at + 4]!;
    const c5 = table[at + 5]!;
    out[axis] = table[at]! + f * (table[at + 1]! + f * (c2 + f * (c3 + f * (c4 + f * c5))));
    out[axis + 2] = (table[at + 1]! + f * (2 * c2 + f * (3 * c3 + f * (4 * c4 + f * 5 * c5)))) * scale;
    out[axis + 4] = (2 * c2 + f * (6 * c3 + f * (12 * c4 + f * 20 * c5))) * scale * scale;
  }
}

function write(out: Float64Array, x: number, z: number, dx: number, dz: number, ddx: number, ddz: number): void {
  out[0] = x;
  out[1] = z;
  out[2] = dx;
  out[3] = dz;
  out[4] = ddx;
  out[5] = ddz;
}

function positive(field: string, value: number): number {
  if (!(value > 0 && Number.isFinite(value))) throw tooTight(field, saidNumber(value), sayCore('lengthMm'));
  return value;
}
