/**
 * The lips' outside as it stands under the rim: at rest the lips' thickness over the teeth, dented to the rim's underside where
 * the seat presses, with the lip line (a soft furrow) where the share puts it. Grid and buffers are made once; `moveLips` only writes.
 */
import type { RimSpec } from '../core/specs';
import { type LipRest, arcUnder, columnProfile, rayAt, restAt, tapped, tapsAt } from './lipRest';

export const LIP_COLUMNS = 97;
export const LIP_ROWS = 65;
/** Half width of the sheet on the lips' outside, mm. */
const HALF_WIDTH_MM = 42;
/** Least height of the sheet above and below the lip line, and how far it reaches beyond the rim, mm. */
const LEAST_HEIGHT_MM = 18;
const BEYOND_RIM_MM = 4;
/** Half width of the mouth (corner to corner), mm: between the published means of men and women, 56 and 52. */
const MOUTH_HALF_MM = 27;
/** Height of the red of each lip, mm (13.4 to 13.8 with the lips at rest; drawn in as they are when playing). */
const RED_UPPER_MM = 7.5;
const RED_LOWER_MM = 8.5;
const FURROW_MM = 1.9;
/** Contour of the rim is tabled at this many radii for the frame loop. */
const CONTOUR_STEPS = 48;
/** This far outside the rim its flare (`rimLimit`) stands 25 mm in front of it: no lip reaches that. */
const UNTOUCHED_BEYOND_MM = 8;

export interface LipSheet {
  readonly rest: LipRest;
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** Inner side of the middle column, x y z a row: for the section. */
  readonly innerLine: Float32Array;
  readonly index: Uint32Array;
  /** Upper and lower end of the sheet: inside and outside at the top, then at the bottom, for each column. */
  readonly lids: Float32Array;
  readonly innerRadiusMm: number;
  readonly outerRadiusMm: number;
  readonly contour: Float64Array;
  /** Height of each grid row above the lip line, mm. */
  readonly rowMm: Float64Array;
  readonly scratch: LipScratch;
}

/** What the frame loop works with: fixed once per row or column, or overwritten for each. */
interface LipScratch {
  readonly columnMm: Float64Array;
  /** How much of the upper lip's thickness a row has; the furrow's share of its depth there. */
  readonly upperPart: Float64Array;
  readonly furrow: Float64Array;
  readonly rowStart: Int32Array;
  readonly rowTaps: Float64Array;
  /** The same for the lower lip, which goes along with the jaw. */
  readonly lowerStart: Int32Array;
  readonly lowerTaps: Float64Array;
  readonly upper: Float64Array;
  readonly lower: Float64Array;
}

/** Where the rim is, as plain numbers that the frame loop overwrites. */
export interface RimStand {
  readonly centre: Float64Array;
  /** Unit vectors: across (to the player's left), up, axis (mouth to bell), 9 numbers. */
  readonly directions: Float64Array;
}

export function createLipSheet(rest: LipRest, rim: RimSpec, contourOf: (radiusMm: number) => number, lipLineMm: number): LipSheet {
  const innerRadiusMm = rim.innerDiameterMm / 2;
  const outerRadiusMm = rim.outerDiameterMm / 2;
  const contour = Float64Array.from({ length: CONTOUR_STEPS + 1 }, (_, step) =>
    contourOf(innerRadiusMm + ((outerRadiusMm - innerRadiusMm) * step) / CONTOUR_STEPS),
  );
  const count = LIP_COLUMNS * LIP_ROWS;
  const rows = rowHeights(
    Math.max(LEAST_HEIGHT_MM, outerRadiusMm - lipLineMm + BEYOND_RIM_MM),
    Math.max(LEAST_HEIGHT_MM, outerRadiusMm + lipLineMm + BEYOND_RIM_MM),
  );
  return {
    rest,
    positions: new Float32Array(count * 3),
    normals: new Float32Array(count * 3),
    innerLine: new Float32Array(LIP_ROWS * 3),
    index: sheetIndex(),
    lids: new Float32Array(LIP_COLUMNS * 4 * 3),
    innerRadiusMm,
    outerRadiusMm,
    contour,
    rowMm: rows,
    scratch: {
      columnMm: Float64Array.from({ length: LIP_COLUMNS }, (_, column) => columnMm(column)),
      upperPart: rows.map((up) => smooth(up / 3 + 0.5)),
      furrow: rows.map((up) => Math.exp(-((up / 1.5) ** 2))),
      rowStart: new Int32Array(LIP_ROWS),
      rowTaps: new Float64Array(LIP_ROWS * 4),
      lowerStart: new Int32Array(LIP_ROWS),
      lowerTaps: new Float64Array(LIP_ROWS * 4),
      upper: new Float64Array(rest.rows + 3),
      lower: new Float64Array(rest.rows + 3),
    },
  };
}

/** Distance of a grid column from the middle, mm on the lips' outside, + to the player's left. */
export const columnMm = (column: number): number => ((2 * column) / (LIP_COLUMNS - 1) - 1) * HALF_WIDTH_MM;

/** How red (1) or skin (0) the lips are, and how much of them is drawn: fades out at the borders. `left`, `up` in mm. */
export function lipTint(left: number, up: number): { readonly red: number; readonly shown: number; readonly line: number } {
  const across = Math.min(1, Math.abs(left) / MOUTH_HALF_MM);
  const taper = 1 - across ** 2.4;
  const bow = up > 0 ? 1 - 0.16 * Math.exp(-((left / 3) ** 2)) + 0.05 * Math.exp(-((Math.abs(left) - 6) ** 2) / 10) : 1;
  const border = (up > 0 ? RED_UPPER_MM : RED_LOWER_MM) * taper * bow;
  const red = across >= 1 ? 0 : smooth((border - Math.abs(up)) / (1.1 + 1.6 * across) + 0.5);
  const edge = smooth((HALF_WIDTH_MM - Math.abs(left)) / 12);
  const line = across >= 1 ? 0 : Math.exp(-((up / 0.45) ** 2)) * smooth((1 - across) * 5);
  return { red, shown: edge, line };
}

/** How far the lower front teeth stand from where they stood when the rest was tabled, mm. */
export interface LowerShift {
  readonly upMm: number;
  readonly forwardMm: number;
}

const NO_SHIFT: LowerShift = { upMm: 0, forwardMm: 0 };

/**
 * Writes positions and normals for a rim that stands at `stand`; `lipLineMm` above its centre in its plane. A jaw that has moved takes
 * the lower lip along as one piece: right but for the hinge's turn, until a new rest is tabled. No allocation.
 */
export function moveLips(sheet: LipSheet, stand: RimStand, lipLineMm: number, shift: LowerShift = NO_SHIFT): void {
  const { rest, positions, scratch, rowMm } = sheet;
  const { centre, directions } = stand;
  const cx = centre[0]!;
  const cy = centre[1]!;
  const cz = centre[2]!;
  const ax = directions[6]!;
  const ay = directions[7]!;
  const az = directions[8]!;
  const lineY = cy + lipLineMm * directions[4]!;
  const middleArc = arcUnder(rest, cx, cy);
  const perMm = 1 / rest.stretch;
  const ringMiddle = (sheet.innerRadiusMm + sheet.outerRadiusMm) / 2;
  const ringHalf = (sheet.outerRadiusMm - sheet.innerRadiusMm) / 2;
  const untouched2 = (sheet.outerRadiusMm + UNTOUCHED_BEYOND_MM) ** 2;
  // Rows stand at the same heights in every column, so their weights are worked out once.
  for (let row = 0; row < LIP_ROWS; row++) {
    const y = lineY + rowMm[row]!;
    tapsAt(rest, y, scratch.rowStart, scratch.rowTaps, row);
    tapsAt(rest, y - shift.upMm, scratch.lowerStart, scratch.lowerTaps, row);
  }
  for (let column = 0; column < LIP_COLUMNS; column++) {
    const left = scratch.columnMm[column]!;
    const arc = middleArc + left * perMm;
    const footX = rayAt(rest, rest.rayX, arc);
    const footZ = rayAt(rest, rest.rayZ, arc);
    const nx = rayAt(rest, rest.rayNx, arc);
    const nz = rayAt(rest, rest.rayNz, arc);
    columnProfile(rest, rest.outerUpper, arc, scratch.upper);
    columnProfile(rest, rest.outerLower, arc, scratch.lower);
    const forward = nz * shift.forwardMm;
    const corner = FURROW_MM * smooth((MOUTH_HALF_MM + 1 - Math.abs(left)) / 6);
    for (let row = 0; row < LIP_ROWS; row++) {
      const y = lineY + rowMm[row]!;
      const upperPart = scratch.upperPart[row]!;
      let out = upperPart > 0 ? upperPart * tapped(scratch.upper, scratch.rowStart, scratch.rowTaps, row) : 0;
      if (upperPart < 1) out += (1 - upperPart) * (forward + tapped(scratch.lower, scratch.lowerStart, scratch.lowerTaps, row));
      const flatX = footX + nx * out - cx;
      const flatY = y - cy;
      const flatZ = footZ + nz * out - cz;
      const depth = flatX * ax + flatY * ay + flatZ * az;
      const radius2 = flatX * flatX + flatY * flatY + flatZ * flatZ - depth * depth;
      let furrow = corner * scratch.furrow[row]!;
      let back = 0;
      if (radius2 < untouched2) {
        const radius = Math.sqrt(Math.max(0, radius2));
        // The furrow closes where the rim presses the lips together.
        furrow *= smooth((Math.abs(radius - ringMiddle) - ringHalf) / 2.5);
        back = depth - softMinimum(depth, rimLimit(sheet, radius));
      }
      const at = (column * LIP_ROWS + row) * 3;
      positions[at] = cx + flatX - ax * back - nx * furrow;
      positions[at + 1] = y - ay * back;
      positions[at + 2] = cz + flatZ - az * back - nz * furrow;
    }
    writeInside(sheet, column, lineY, arc, footX, footZ, nx, nz, shift);
  }
  writeNormals(sheet);
}

/** The lids at both ends of a column and, in the middle column, the inner line of the section. */
function writeInside(
  sheet: LipSheet,
  column: number,
  lineY: number,
  arc: number,
  footX: number,
  footZ: number,
  nx: number,
  nz: number,
  shift: LowerShift,
): void {
  const { rest, lids, innerLine, positions, scratch, rowMm } = sheet;
  for (let end = 0; end < 2; end++) {
    const row = end === 0 ? LIP_ROWS - 1 : 0;
    const y = lineY + rowMm[row]!;
    const inside = end === 0 ? restAt(rest, rest.inner, arc, y) : restAt(rest, rest.inner, arc, y - shift.upMm) + nz * shift.forwardMm;
    const at = (column * 4 + end * 2) * 3;
    const outside = (column * LIP_ROWS + row) * 3;
    lids[at] = footX + nx * inside;
    lids[at + 1] = y;
    lids[at + 2] = footZ + nz * inside;
    lids[at + 3] = positions[outside]!;
    lids[at + 4] = positions[outside + 1]!;
    lids[at + 5] = positions[outside + 2]!;
  }
  if (column !== (LIP_COLUMNS - 1) / 2) return;
  columnProfile(rest, rest.inner, arc, scratch.upper);
  for (let row = 0; row < LIP_ROWS; row++) {
    const ofUpper = tapped(scratch.upper, scratch.rowStart, scratch.rowTaps, row);
    const ofLower = tapped(scratch.upper, scratch.lowerStart, scratch.lowerTaps, row) + nz * shift.forwardMm;
    const inside = ofLower + (ofUpper - ofLower) * scratch.upperPart[row]!;
    innerLine[row * 3] = footX + nx * inside;
    innerLine[row * 3 + 1] = lineY + rowMm[row]!;
    innerLine[row * 3 + 2] = footZ + nz * inside;
  }
}

/** How far toward the bell a lip may reach at a radius from the rim's axis: the contour, and a steep flare beyond both edges. */
function rimLimit(sheet: LipSheet, radius: number): number {
  const { innerRadiusMm, outerRadiusMm, contour } = sheet;
  if (radius > outerRadiusMm) {
    const away = radius - outerRadiusMm;
    return contour[CONTOUR_STEPS]! + away * (0.8 + 0.3 * away);
  }
  if (radius < innerRadiusMm) {
    const away = innerRadiusMm - radius;
    return contour[0]! + away * (0.7 + 0.25 * away);
  }
  const place = ((radius - innerRadiusMm) / (outerRadiusMm - innerRadiusMm)) * CONTOUR_STEPS;
  const step = Math.min(CONTOUR_STEPS - 1, Math.floor(place));
  return contour[step]! + (place - step) * (contour[step + 1]! - contour[step]!);
}

/** Rounds the corner between rest and dent over SOFT_MM; equal to the smaller outside it. */
const SOFT_MM = 0.5;
function softMinimum(a: number, b: number): number {
  const mix = Math.max(0, SOFT_MM - Math.abs(a - b)) / SOFT_MM;
  return Math.min(a, b) - (mix * mix * SOFT_MM) / 4;
}

const smooth = (t: number): number => (t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t));

/** Normals by central differences on the grid, outward. */
function writeNormals(sheet: LipSheet): void {
  const { positions, normals } = sheet;
  for (let column = 0; column < LIP_COLUMNS; column++) {
    const west = (column > 0 ? column - 1 : column) * LIP_ROWS;
    const east = (column < LIP_COLUMNS - 1 ? column + 1 : column) * LIP_ROWS;
    for (let row = 0; row < LIP_ROWS; row++) {
      const below = (column * LIP_ROWS + (row > 0 ? row - 1 : row)) * 3;
      const above = (column * LIP_ROWS + (row < LIP_ROWS - 1 ? row + 1 : row)) * 3;
      const w = (west + row) * 3;
      const e = (east + row) * 3;
      const ux = positions[e]! - positions[w]!;
      const uy = positions[e + 1]! - positions[w + 1]!;
      const uz = positions[e + 2]! - positions[w + 2]!;
      const vx = positions[above]! - positions[below]!;
      const vy = positions[above + 1]! - positions[below + 1]!;
      const vz = positions[above + 2]! - positions[below + 2]!;
      const nx = uy * vz - uz * vy;
      const ny = uz * vx - ux * vz;
      const nz = ux * vy - uy * vx;
      const size = Math.sqrt(nx * nx + ny * ny + nz * nz) || 1;
      const at = (column * LIP_ROWS + row) * 3;
      normals[at] = nx / size;
      normals[at + 1] = ny / size;
      normals[at + 2] = nz / size;
    }
  }
}

/** Heights of the rows above the lip line, which is the middle row; closer together near it. */
function rowHeights(aboveMm: number, belowMm: number): Float64Array {
  return Float64Array.from({ length: LIP_ROWS }, (_, row) => {
    const t = (2 * row) / (LIP_ROWS - 1) - 1;
    return (t > 0 ? aboveMm : belowMm) * (0.72 * t + 0.28 * t * t * t);
  });
}

function sheetIndex(): Uint32Array {
  const index = new Uint32Array((LIP_COLUMNS - 1) * (LIP_ROWS - 1) * 6);
  let at = 0;
  for (let column = 0; column + 1 < LIP_COLUMNS; column++) {
    for (let row = 0; row + 1 < LIP_ROWS; row++) {
      const a = column * LIP_ROWS + row;
      const b = a + LIP_ROWS;
      index.set([a, b, a + 1, b, b + 1, a + 1], at);
      at += 6;
    }
  }
  return index;
}
