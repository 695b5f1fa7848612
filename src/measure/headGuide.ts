/**
 * Where a head's points should be, by those of them that are held: what each has moved by since the last marked frame, as an even function of
 * its place in the picture and of how far before the others it lies on a generic head. That is a turned head as a distant camera sees it, so
 * nothing adds up from frame to frame; a point that was lost for seconds is expected where it is, and one that has slipped is seen.
 */
import { GENERIC_HEAD } from './headShape';
import { addRow, createNormalEquations, medianOf, solveNormal, startNormal, tukey } from './leastSquares';
import type { LandmarkName } from './marks';
import type { PatchPose } from './patchTracker';
import type { Point } from './picture';

export interface GuidePoint {
  readonly name: LandmarkName;
  /** Where it was in the last marked frame, px. */
  readonly marked: Point;
  readonly now: Point;
  readonly sdPx: number;
}

export interface HeadGuide {
  /** Where this landmark should be, with its growth and turn since the marked frame, and one deviation of the place in each direction, px. */
  expect(name: LandmarkName, marked: Point): PatchPose & { readonly sdPx: number };
}

/** Of fewer points nothing is expected; what two leave open is in the deviation. */
const FEWEST_GUIDES = 2;
/** What a person's head and perspective leave of a point's way, mm on the face: landmarks lie some 4 mm off the generic ones, and turn by some 5°. */
const OWN_WAY_MM = 0.5;
const LEAST_OWN_WAY_PX = 0.7;
/** How much a head grows, leans and turns through a film, one deviation as a part (0.1 is 6°). */
const TURN_SD = 0.1;
const ROUNDS = 5;
/** A point this many deviations off is no guide. */
const REACH = 4;

const equations = [createNormalEquations(4), createNormalEquations(4)] as const;
const row = new Float64Array(4);

/** null of too few points. `pxPerMm`: on the face. */
export function headGuide(points: readonly GuidePoint[], pxPerMm: number): HeadGuide | null {
  if (points.length < FEWEST_GUIDES) return null;
  const ownPx = Math.max(LEAST_OWN_WAY_PX, OWN_WAY_MM * pxPerMm);
  const middleOf = (valueOf: (point: GuidePoint) => number): number => medianOf(Float64Array.from(points, valueOf), points.length);
  const about = { x: middleOf(({ marked }) => marked.x), y: middleOf(({ marked }) => marked.y), z: middleOf(({ name }) => depthPx(name, pxPerMm)) };
  const fill = (name: LandmarkName, { x, y }: Point): void => row.set([1, x - about.x, y - about.y, depthPx(name, pxPerMm) - about.z]);
  const shifts = [middleOf(({ marked, now }) => now.x - marked.x), middleOf(({ marked, now }) => now.y - marked.y)] as const;
  const prior = 1 / TURN_SD ** 2;
  equations.forEach(({ answer }, side) => answer.set([shifts[side]!, 0, 0, 0]));
  for (let round = 0; round < ROUNDS; round++) {
    const [right, down] = [Float64Array.from(equations[0].answer), Float64Array.from(equations[1].answer)];
    for (const each of equations) startNormal(each, [WEAK, prior, prior, prior]);
    for (const { name, marked, now, sdPx } of points) {
      fill(name, marked);
      const [stepX, stepY] = [now.x - marked.x, now.y - marked.y];
      const sd = Math.hypot(sdPx, ownPx);
      // The middle shift alone explains little of a turned head: the first round takes all that is not wild.
      const weight = tukey(Math.hypot(stepX - dot(right), stepY - dot(down)) / sd, round === 0 ? FIRST_REACH : REACH) / sd ** 2;
      if (weight === 0) continue;
      addRow(equations[0], row, stepX, weight);
      addRow(equations[1], row, stepY, weight);
    }
    if (!equations.every((each) => solveNormal(each))) return null;
  }
  const [right, down, inverse] = [Float64Array.from(equations[0].answer), Float64Array.from(equations[1].answer), Float64Array.from(equations[0].inverse)];
  return {
    expect(name, marked) {
      fill(name, marked);
      let variance = ownPx ** 2;
      for (let i = 0; i < 4; i++) for (let j = 0; j < 4; j++) variance += row[i]! * inverse[4 * i + j]! * row[j]!;
      return {
        x: marked.x + dot(right),
        y: marked.y + dot(down),
        a: 1 + (right[1]! + down[2]!) / 2,
        b: (down[1]! - right[2]!) / 2,
        sdPx: Math.sqrt(variance),
      };
    },
  };
}

const FIRST_REACH = 30;
/** Keeps the equations solvable where every point is an outlier. */
const WEAK = 1e-9;

const dot = (coefficients: Float64Array): number => row[0]! * coefficients[0]! + row[1]! * coefficients[1]! + row[2]! * coefficients[2]! + row[3]! * coefficients[3]!;
const depthPx = (name: LandmarkName, pxPerMm: number): number => GENERIC_HEAD[name].placeMm[2] * pxPerMm;
