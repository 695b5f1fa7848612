/** How densely a face is cut into columns and rows: a chord of length L stands L²κ/8 off a curve of curvature κ. */
import { profileAt } from '../core/profile';
import type { JawSurface } from '../core/surface';
import type { JawReach } from './jawReach';

/** What one direction of the mesh may err by at first, mm; the mesh as a whole is measured afterwards. */
const SAG_MM = 0.006;
/** Columns and rows are never further apart than this, nor nearer, mm. */
const WIDEST_MM = 2;
const NARROWEST_MM = 0.1;
/** Step in which the density is summed up, mm. */
const STEP_MM = 0.05;

/** x of the columns from `low` to `high`, dense enough for every jaw; `finer` of 2 halves the distances. */
export function columnsAcross(reaches: readonly JawReach[], low: number, high: number, finer: number): Float64Array {
  const next = reaches.map(() => 0);
  return evenly(low, high, (x) => {
    let step = WIDEST_MM;
    reaches.forEach(({ walk }, jaw) => {
      while (next[jaw]! + 1 < walk.length && walk[next[jaw]! + 1]!.x <= x) next[jaw]! += 1;
      const { forward, radiusMm } = walk[next[jaw]!]!;
      step = Math.min(step, forward * Math.sqrt(8 * SAG_MM * radiusMm));
    });
    return finer / Math.max(NARROWEST_MM, step);
  });
}

/** Heights of the rows, rising. */
export function rowHeights(surface: JawSurface, { heights: [low, high] }: JawReach, finer: number): Float64Array {
  return evenly(low, high, (height) => {
    const { curvature, slope } = profileAt(surface.placed.profile, height);
    const step = Math.cos(slope) * Math.sqrt((8 * SAG_MM) / Math.abs(curvature));
    return finer / Math.min(WIDEST_MM, Math.max(NARROWEST_MM, step));
  });
}

/** Places from `low` to `high` with `density` of them a mm. */
function evenly(low: number, high: number, density: (at: number) => number): Float64Array {
  const steps = Math.max(1, Math.ceil((high - low) / STEP_MM));
  const width = (high - low) / steps;
  const summed = new Float64Array(steps + 1);
  for (let step = 0; step < steps; step++) summed[step + 1] = summed[step]! + density(low + (step + 0.5) * width) * width;
  const count = Math.max(FEWEST, Math.ceil(summed[steps]!));
  const places = new Float64Array(count + 1);
  let step = 0;
  for (let place = 0; place <= count; place++) {
    const wanted = (summed[steps]! * place) / count;
    while (step + 1 < steps && summed[step + 1]! < wanted) step += 1;
    places[place] = low + (step + (wanted - summed[step]!) / (summed[step + 1]! - summed[step]!)) * width;
  }
  places[0] = low;
  places[count] = high;
  return places;
}

const FEWEST = 4;
