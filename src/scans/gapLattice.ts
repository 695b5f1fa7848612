/**
 * The lattice under a field of gaps: distances from a scan, measured when first needed, and the splines' coefficients made of them.
 */
import type { Box } from './mesh';
import type { Progress } from './progress';
import type { SignedDistance } from './signedDistance';

export interface FieldChoices {
  /** Distance of neighbouring lattice points, mm. */
  readonly stepMm: number;
  /** Further than this from the scan the gap is the plain distance, mm: no lip is thicker. */
  readonly reachMm: number;
}

export interface GapLattice {
  readonly coefficients: Float32Array;
  /** From a place in `coefficients` to the next in y and in z; in x it is the next one. */
  readonly alongY: number;
  readonly alongZ: number;
  /** The cell last found: the place of its near corner in `coefficients`, and the parts of the cell at which the place lies. */
  readonly cell: { index: number; tx: number; ty: number; tz: number };
  /** Finds a place's cell and measures what it lacks; false beyond the field's reach. */
  locate(x: number, y: number, z: number): boolean;
  /** Whether the closest point lies on the scan's border, by the lattice point nearest to the place last found. */
  readonly onBorder: () => boolean;
  prepare(x: number, y: number, aroundMm: number, gapsMm: readonly [number, number], progress?: Progress): void;
  readonly measured: () => number;
  /** A copy of what has been measured, to be taken up by `createGapLattice` with the same scan and choices. */
  parts(): LatticeParts;
}

export interface LatticeParts {
  readonly distances: Float32Array;
  readonly coefficients: Float32Array;
  readonly border: Uint8Array;
  readonly ready: Uint8Array;
}

/** A spline's coefficient from the lattice's distances, one direction: exact for cubics (de Boor & Fix 1973, value from memory). */
const BESIDE = -1 / 6;
const AT = 8 / 6;

/** Where a rim can get to in front of a scanned jaw, mm from its incisal edge at the midline: sideways, up and down, backward, forward. */
const SIDEWAYS_MM = 34;
const UP_AND_DOWN_MM = 34;
const BACKWARD_MM = 16;
const FORWARD_MM = 20;

/** `scanned` holds the scan, in its jaw's frame, mm. */
export function createGapLattice(distance: SignedDistance, scanned: Box, choices: FieldChoices, from?: LatticeParts): GapLattice {
  const { stepMm: step, reachMm } = choices;
  const box: Box = {
    low: [-SIDEWAYS_MM, -UP_AND_DOWN_MM, -BACKWARD_MM],
    high: [SIDEWAYS_MM, UP_AND_DOWN_MM, Math.min(Math.max(scanned.high[2], 0), FORWARD_MM) + reachMm],
  };
  const size = [0, 1, 2].map((axis) => Math.ceil((box.high[axis]! - box.low[axis]!) / step) + 6);
  const [nx, ny, nz] = size as [number, number, number];
  const [ox, oy, oz] = [0, 1, 2].map((axis) => box.low[axis]! - 3 * step) as [number, number, number];
  const { distances, coefficients, border, ready } = from ?? emptyParts(nx * ny * nz);
  let measured = 0;
  const [alongY, alongZ] = [nx, nx * ny];
  const cell = { index: 0, tx: 0, ty: 0, tz: 0 };

  function measure(index: number, i: number, j: number, k: number, near: number): number {
    const known = distances[index]!;
    if (known === known) return known;
    measured++;
    const found = distance.at(ox + i * step, oy + j * step, oz + k * step, near);
    border[index] = distance.onBorder() ? 1 : 0;
    return (distances[index] = found);
  }

  /** Makes a cell's 64 coefficients; false where the place in it lies beyond the field's reach. */
  function makeReadyAt(index: number, x: number, y: number, z: number): boolean {
    const here = distance.at(x, y, z);
    if (!(here < reachMm)) return false;
    makeReady(index, Math.abs(here));
    return true;
  }

  /** Makes a cell's 64 coefficients, of which some place has this distance, mm. */
  function makeReady(index: number, distanceMm: number): void {
    // No lattice point asked below is further than this from there, and distances change no faster than places.
    const near = distanceMm + 6 * step * Math.sqrt(3) + step;
    const ci = index % nx;
    const cj = Math.floor(index / nx) % ny;
    const ck = Math.floor(index / alongZ);
    for (let k = ck - 1; k <= ck + 2; k++) {
      for (let j = cj - 1; j <= cj + 2; j++) {
        for (let i = ci - 1; i <= ci + 2; i++) {
          const at = i + alongY * j + alongZ * k;
          if (coefficients[at] === coefficients[at]) continue;
          let sum = 0;
          for (let dk = -1; dk <= 1; dk++) {
            for (let dj = -1; dj <= 1; dj++) {
              for (let di = -1; di <= 1; di++) {
                const weight = (di === 0 ? AT : BESIDE) * (dj === 0 ? AT : BESIDE) * (dk === 0 ? AT : BESIDE);
                sum += weight * measure(at + di + alongY * dj + alongZ * dk, i + di, j + dj, k + dk, near);
              }
            }
          }
          coefficients[at] = sum;
        }
      }
    }
    ready[index] = 1;
  }

  /** Finds the place's cell and makes it ready; false where there is none. */
  function locate(x: number, y: number, z: number): boolean {
    const u = (x - ox) / step;
    const v = (y - oy) / step;
    const w = (z - oz) / step;
    const i = Math.floor(u);
    const j = Math.floor(v);
    const k = Math.floor(w);
    if (!(i >= 2 && j >= 2 && k >= 2 && i < nx - 3 && j < ny - 3 && k < nz - 3)) return false;
    cell.tx = u - i;
    cell.ty = v - j;
    cell.tz = w - k;
    cell.index = i + alongY * j + alongZ * k;
    return ready[cell.index] === 1 || makeReadyAt(cell.index, x, y, z);
  }

  /** From in front backward until the gap is too small; a gap changes no faster than its place, so what is too far off is stepped over. */
  function prepareColumn(i: number, j: number, least: number, most: number): void {
    for (let k = nz - 4; k >= 2; ) {
      const index = i + alongY * j + alongZ * k;
      const gap = measure(index, i, j, k, Infinity);
      if (gap < least) return;
      if (gap > most) {
        k -= Math.max(1, Math.floor((gap - most) / step));
        continue;
      }
      if (ready[index] === 0) makeReady(index, gap);
      k--;
    }
  }

  return {
    coefficients,
    alongY,
    alongZ,
    cell,
    locate,
    onBorder() {
      const { index, tx, ty, tz } = cell;
      return border[index + (tx < 0.5 ? 0 : 1) + alongY * (ty < 0.5 ? 0 : 1) + alongZ * (tz < 0.5 ? 0 : 1)] === 1;
    },
    prepare(x, y, aroundMm, [least, most], progress) {
      const reach = Math.ceil(aroundMm / step);
      const [ci, cj] = [Math.round((x - ox) / step), Math.round((y - oy) / step)];
      for (let j = Math.max(2, cj - reach); j <= Math.min(ny - 4, cj + reach); j++) {
        progress?.((j - cj + reach) / (2 * reach + 1));
        for (let i = Math.max(2, ci - reach); i <= Math.min(nx - 4, ci + reach); i++) {
          if (Math.hypot(i - ci, j - cj) <= reach) prepareColumn(i, j, least, most);
        }
      }
    },
    measured: () => measured,
    parts: () => ({ distances: distances.slice(), coefficients: coefficients.slice(), border: border.slice(), ready: ready.slice() }),
  };
}

const emptyParts = (count: number): LatticeParts => ({
  distances: new Float32Array(count).fill(NaN),
  coefficients: new Float32Array(count).fill(NaN),
  border: new Uint8Array(count),
  ready: new Uint8Array(count),
});
