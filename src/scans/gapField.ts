/**
 * The distance from a scan as a smooth function: distances to its triangles on a lattice, joined by cubic B-splines. A seat needs a gap
 * with two steady derivatives, and the distance from flat triangles has none where a foot crosses from one to the next. Off the surface
 * that distance is itself smooth over the lattice's step, and the spline takes it up to fourth order: docs/numerics.md, "Scans".
 * Lattice points are measured when first needed, and only within `reachMm` of the scan.
 */
import { type FieldChoices, type LatticeParts, createGapLattice } from './gapLattice';
import type { Box } from './mesh';
import type { Progress } from './progress';
import type { SignedDistance } from './signedDistance';

export interface GapField {
  /** Holds the whole scan. */
  readonly scanned: Box;
  /** The gap of a place, mm. */
  gapAt(x: number, y: number, z: number): number;
  /** Whether the scan's closest point to the place last given to `gapAt` lies on its border, by the nearest lattice point. */
  readonly onBorder: () => boolean;
  /** Gradient of `gapAt` (three numbers) and its second derivatives xx, xy, xz, yy, yz, zz, read-only and good until the next call. */
  slopesAt(x: number, y: number, z: number): FieldSlopes;
  /**
   * Measures beforehand what a rim will need that gets to `aroundMm` sideways, up and down of a frontal place, with gaps between these two, mm:
   * a second or so for what one hand reaches, after which no seat waits for a measurement.
   */
  prepare(x: number, y: number, aroundMm: number, gapsMm: readonly [number, number], progress?: Progress): void;
  /** How many lattice points have been measured. */
  readonly measured: () => number;
  /** A copy of its lattice, to be taken up by `createGapField` with the same scan and choices. */
  parts(): LatticeParts;
}

export interface FieldSlopes {
  readonly gradient: Float64Array;
  readonly bends: Float64Array;
}

/** Fine enough for 0.01° of a seat on the ready-made arches, coarse enough to be measured in a second or so. */
export const FIELD_CHOICES: FieldChoices = { stepMm: 0.8, reachMm: 18 };

/** `scanned` holds the scan, in its jaw's frame, mm. Where no rim gets to, the gap is the plain distance. */
export function createGapField(distance: SignedDistance, scanned: Box, choices: FieldChoices = FIELD_CHOICES, from?: LatticeParts): GapField {
  const { stepMm: step } = choices;
  const lattice = createGapLattice(distance, scanned, choices, from);
  const { coefficients, alongY, alongZ, cell, locate } = lattice;
  /** Weights of the cell's coefficients in each direction, and their first and second derivatives by a part of the cell. */
  const weights = new Float64Array(12);
  const slopes = new Float64Array(12);
  const bends = new Float64Array(12);
  const found = { gradient: new Float64Array(3), bends: new Float64Array(6) };
  const last = { x: NaN, y: NaN, z: NaN, onBorder: false };

  function gapInCell(): number {
    const { index } = cell;
    let total = 0;
    for (let k = 0; k < 4; k++) {
      let layer = 0;
      for (let j = 0; j < 4; j++) {
        const row = index - 1 + alongY * (j - 1) + alongZ * (k - 1);
        layer +=
          weights[4 + j]! *
          (weights[0]! * coefficients[row]! + weights[1]! * coefficients[row + 1]! +
            weights[2]! * coefficients[row + 2]! + weights[3]! * coefficients[row + 3]!);
      }
      total += weights[8 + k]! * layer;
    }
    return total;
  }

  /** All nine derivatives in one walk: each row, then each layer, is summed once for every derivative that needs it. */
  function slopesInCell(): void {
    const { index } = cell;
    const { gradient, bends: second } = found;
    gradient.fill(0);
    second.fill(0);
    for (let k = 0; k < 4; k++) {
      let [plain, x, xx, y, xy, yy] = [0, 0, 0, 0, 0, 0];
      for (let j = 0; j < 4; j++) {
        const row = index - 1 + alongY * (j - 1) + alongZ * (k - 1);
        const a = coefficients[row]!;
        const b = coefficients[row + 1]!;
        const c = coefficients[row + 2]!;
        const d = coefficients[row + 3]!;
        const rowPlain = weights[0]! * a + weights[1]! * b + weights[2]! * c + weights[3]! * d;
        const rowX = slopes[0]! * a + slopes[1]! * b + slopes[2]! * c + slopes[3]! * d;
        plain += weights[4 + j]! * rowPlain;
        x += weights[4 + j]! * rowX;
        xx += weights[4 + j]! * (bends[0]! * a + bends[1]! * b + bends[2]! * c + bends[3]! * d);
        y += slopes[4 + j]! * rowPlain;
        xy += slopes[4 + j]! * rowX;
        yy += bends[4 + j]! * rowPlain;
      }
      const weight = weights[8 + k]!;
      const slope = slopes[8 + k]!;
      gradient[0]! += weight * x;
      gradient[1]! += weight * y;
      gradient[2]! += slope * plain;
      second[0]! += weight * xx;
      second[1]! += weight * xy;
      second[2]! += slope * x;
      second[3]! += weight * yy;
      second[4]! += slope * y;
      second[5]! += bends[8 + k]! * plain;
    }
    for (let i = 0; i < 3; i++) gradient[i]! /= step;
    for (let i = 0; i < 6; i++) second[i]! /= step * step;
  }

  /** Where the gap is the plain distance: along the way from the closest point, and as if the scan were flat there. */
  function slopesOutside(x: number, y: number, z: number): void {
    const far = distance.at(x, y, z);
    const { foot } = distance;
    found.gradient[0] = (x - foot[0]!) / far;
    found.gradient[1] = (y - foot[1]!) / far;
    found.gradient[2] = (z - foot[2]!) / far;
    found.bends.fill(0);
  }

  return {
    scanned,
    gapAt(x, y, z) {
      if (!locate(x, y, z)) {
        const far = distance.at(x, y, z);
        last.onBorder = distance.onBorder();
        return far;
      }
      last.onBorder = lattice.onBorder();
      writeWeights(cell.tx, weights, 0);
      writeWeights(cell.ty, weights, 4);
      writeWeights(cell.tz, weights, 8);
      return gapInCell();
    },
    onBorder: () => last.onBorder,
    slopesAt(x, y, z) {
      if (x === last.x && y === last.y && z === last.z) return found;
      last.x = x;
      last.y = y;
      last.z = z;
      if (!locate(x, y, z)) {
        slopesOutside(x, y, z);
        return found;
      }
      for (let axis = 0; axis < 3; axis++) {
        const t = axis === 0 ? cell.tx : axis === 1 ? cell.ty : cell.tz;
        writeWeights(t, weights, 4 * axis);
        writeSlopes(t, slopes, bends, 4 * axis);
      }
      slopesInCell();
      return found;
    },
    prepare: lattice.prepare,
    measured: lattice.measured,
    parts: lattice.parts,
  };
}

/** The four cubic B-splines that cover a cell, at a part t of it. */
function writeWeights(t: number, out: Float64Array, from: number): void {
  const rest = 1 - t;
  const square = t * t;
  const cube = square * t;
  out[from] = (rest * rest * rest) / 6;
  out[from + 1] = 0.5 * cube - square + 2 / 3;
  out[from + 2] = -0.5 * cube + 0.5 * square + 0.5 * t + 1 / 6;
  out[from + 3] = cube / 6;
}

function writeSlopes(t: number, slopes: Float64Array, bends: Float64Array, from: number): void {
  const rest = 1 - t;
  slopes[from] = -(rest * rest) / 2;
  slopes[from + 1] = 1.5 * t * t - 2 * t;
  slopes[from + 2] = -1.5 * t * t + t + 0.5;
  slopes[from + 3] = (t * t) / 2;
  bends[from] = rest;
  bends[from + 1] = 3 * t - 2;
  bends[from + 2] = 1 - 3 * t;
  bends[from + 3] = t;
}
