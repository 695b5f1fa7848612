/**
 * The lips at rest: along each level ray out of the arch, the distances at which the gap equals the upper lip's thickness, the
 * lower lip's thickness, and (inside) just clears the teeth. Tabled once per arch and lips; the frame loop only interpolates.
 */
import type { Arch } from '../core/arch';
import type { LipsSpec } from '../core/specs';

export interface LipRest {
  readonly columns: number;
  readonly rows: number;
  readonly firstArcMm: number;
  readonly firstHeightMm: number;
  /** Foot of each column's ray (x, z) and its level direction (x, z). */
  readonly rayX: Float64Array;
  readonly rayZ: Float64Array;
  readonly rayNx: Float64Array;
  readonly rayNz: Float64Array;
  /** Distances along the rays, column by column, mm. */
  readonly outerUpper: Float64Array;
  readonly outerLower: Float64Array;
  readonly inner: Float64Array;
  /** Arc length on the lips' outside per arc length on the arch, at the midline. */
  readonly stretch: number;
}

export const REST_STEP_MM = 2;
const REST_ARC_MM = 34;
const REST_HEIGHT_MM = 28;
/** Clearance of the drawn inner side from teeth and gums, mm. */
const INNER_CLEARANCE_MM = 0.4;
/** Between the edges the inner side may sink this far behind the upper edge, mm. */
const INNER_DEEPEST_MM = -2.5;
/** Good enough to look at; the drawn dent comes from the seat, not from this table. */
const GAP_TOLERANCE_MM = 0.01;

export function restLips(arch: Arch, lips: LipsSpec): LipRest {
  const arcLimit = Math.min(-arch.upper.arcRange[0], arch.upper.arcRange[1]) * 0.97;
  const reach = Math.min(REST_ARC_MM, arcLimit);
  const half = Math.max(3, Math.floor(reach / REST_STEP_MM));
  const columns = 2 * half + 1;
  const rows = 2 * Math.round(REST_HEIGHT_MM / REST_STEP_MM) + 1;
  const table = {
    columns,
    rows,
    firstArcMm: -half * REST_STEP_MM,
    firstHeightMm: -REST_HEIGHT_MM,
    rayX: new Float64Array(columns),
    rayZ: new Float64Array(columns),
    rayNx: new Float64Array(columns),
    rayNz: new Float64Array(columns),
    outerUpper: new Float64Array(columns * rows),
    outerLower: new Float64Array(columns * rows),
    inner: new Float64Array(columns * rows),
  };
  const alike = lips.upper.thicknessMm === lips.lower.thicknessMm;
  for (let column = 0; column < columns; column++) {
    const arc = table.firstArcMm + column * REST_STEP_MM;
    const foot = arch.upper.pointAt(arc, 0);
    const normal = arch.upper.normalAt(arc, 0);
    const size = Math.hypot(normal[0], normal[2]) || 1;
    table.rayX[column] = foot[0];
    table.rayZ[column] = foot[2];
    table.rayNx[column] = normal[0] / size;
    table.rayNz[column] = normal[2] / size;
    const along = (target: number, start: number, row: number): number =>
      distanceAt(arch, table.rayX[column]!, table.firstHeightMm + row * REST_STEP_MM, table.rayZ[column]!, table.rayNx[column]!, table.rayNz[column]!, target, start);
    for (let row = 0; row < rows; row++) {
      const at = column * rows + row;
      const before = (values: Float64Array, first: number): number => (row > 0 ? values[at - 1]! : first);
      table.outerUpper[at] = along(lips.upper.thicknessMm, before(table.outerUpper, lips.upper.thicknessMm), row);
      table.outerLower[at] = alike
        ? table.outerUpper[at]
        : along(lips.lower.thicknessMm, before(table.outerLower, lips.lower.thicknessMm), row);
      table.inner[at] = along(INNER_CLEARANCE_MM, Math.max(0, before(table.inner, 0)), row);
    }
  }
  const middle = half * rows + (rows - 1) / 2;
  const outX = (column: number): number => table.rayX[half + column]! + table.rayNx[half + column]! * table.outerUpper[middle + column * rows]!;
  return { ...table, stretch: (outX(1) - outX(-1)) / (2 * REST_STEP_MM) };
}

/** Distance along a level ray at which the gap to the teeth is `target`; clamped where there is none. */
function distanceAt(arch: Arch, x: number, y: number, z: number, nx: number, nz: number, target: number, start: number): number {
  let distance = start;
  for (let step = 0; step < 14; step++) {
    const miss = target - arch.gapAt([x + nx * distance, y, z + nz * distance]);
    distance += miss;
    if (distance < INNER_DEEPEST_MM) return INNER_DEEPEST_MM;
    if (Math.abs(miss) < GAP_TOLERANCE_MM) break;
  }
  return Math.min(distance, 60);
}

/** Smooth (Catmull–Rom) value of a table at an arc length and height; held at the borders. No allocation. */
export function restAt(rest: LipRest, table: Float64Array, arcMm: number, heightMm: number): number {
  const u = clampTo((arcMm - rest.firstArcMm) / REST_STEP_MM, rest.columns - 1);
  const v = clampTo((heightMm - rest.firstHeightMm) / REST_STEP_MM, rest.rows - 1);
  const column = Math.min(rest.columns - 2, Math.floor(u));
  const row = Math.min(rest.rows - 2, Math.floor(v));
  const a = u - column;
  const b = v - row;
  let sum = 0;
  for (let i = -1; i <= 2; i++) {
    const weight = catmullRom(a, i);
    const start = clampTo(column + i, rest.columns - 1) * rest.rows;
    for (let j = -1; j <= 2; j++) sum += weight * catmullRom(b, j) * table[start + clampTo(row + j, rest.rows - 1)]!;
  }
  return sum;
}

/** A whole column of a table at an arc length, padded by one row below and two above: `out` has rows + 3 numbers. No allocation. */
export function columnProfile(rest: LipRest, table: Float64Array, arcMm: number, out: Float64Array): void {
  const u = clampTo((arcMm - rest.firstArcMm) / REST_STEP_MM, rest.columns - 1);
  const column = Math.min(rest.columns - 2, Math.floor(u));
  const { rows } = rest;
  const last = rest.columns - 1;
  const t = u - column;
  const w0 = catmullRom(t, -1);
  const w1 = catmullRom(t, 0);
  const w2 = catmullRom(t, 1);
  const w3 = catmullRom(t, 2);
  const c0 = clampTo(column - 1, last) * rows;
  const c1 = column * rows;
  const c2 = clampTo(column + 1, last) * rows;
  const c3 = clampTo(column + 2, last) * rows;
  for (let row = 0; row < rows; row++) {
    out[row + 1] = w0 * table[c0 + row]! + w1 * table[c1 + row]! + w2 * table[c2 + row]! + w3 * table[c3 + row]!;
  }
  out[0] = out[1]!;
  out[rows + 1] = out[rows]!;
  out[rows + 2] = out[rows]!;
}

/** Where in a padded column a height lies, and its four weights, written at `place`. */
export function tapsAt(rest: LipRest, heightMm: number, start: Int32Array, taps: Float64Array, place: number): void {
  const v = clampTo((heightMm - rest.firstHeightMm) / REST_STEP_MM, rest.rows - 1);
  const row = Math.min(rest.rows - 2, Math.floor(v));
  start[place] = row;
  for (let tap = 0; tap < 4; tap++) taps[place * 4 + tap] = catmullRom(v - row, tap - 1);
}

/** The value of a padded column at taps made by `tapsAt`. */
export function tapped(column: Float64Array, start: Int32Array, taps: Float64Array, place: number): number {
  const from = start[place]!;
  const at = place * 4;
  return (
    taps[at]! * column[from]! + taps[at + 1]! * column[from + 1]! + taps[at + 2]! * column[from + 2]! + taps[at + 3]! * column[from + 3]!
  );
}

/** Smooth value of one of the rays' columns at an arc length. */
export function rayAt(rest: LipRest, values: Float64Array, arcMm: number): number {
  const u = clampTo((arcMm - rest.firstArcMm) / REST_STEP_MM, rest.columns - 1);
  const column = Math.min(rest.columns - 2, Math.floor(u));
  let sum = 0;
  for (let i = -1; i <= 2; i++) sum += catmullRom(u - column, i) * values[clampTo(column + i, rest.columns - 1)]!;
  return sum;
}

/** Arc length of the ray that passes through x on the lips' outside at a height. */
export function arcUnder(rest: LipRest, x: number, heightMm: number): number {
  const row = clampTo(Math.round((heightMm - rest.firstHeightMm) / REST_STEP_MM), rest.rows - 1);
  let before = outsideX(rest, 0, row);
  for (let column = 1; column < rest.columns; column++) {
    const here = outsideX(rest, column, row);
    if (here >= x || column === rest.columns - 1) {
      return rest.firstArcMm + REST_STEP_MM * (column - 1 + clampTo((x - before) / (here - before), 1));
    }
    before = here;
  }
  return 0;
}

const outsideX = (rest: LipRest, column: number, row: number): number =>
  rest.rayX[column]! + rest.rayNx[column]! * rest.outerUpper[column * rest.rows + row]!;

const clampTo = (value: number, last: number): number => (value < 0 ? 0 : value > last ? last : value);

function catmullRom(t: number, offset: number): number {
  switch (offset) {
    case -1:
      return t * (-0.5 + t * (1 - 0.5 * t));
    case 0:
      return 1 + t * t * (-2.5 + 1.5 * t);
    case 1:
      return t * (0.5 + t * (2 - 1.5 * t));
    default:
      return t * t * (-0.5 + 0.5 * t);
  }
}
