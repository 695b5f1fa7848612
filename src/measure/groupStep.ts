/** How points that belong together moved from one frame to the next, for those among them that were lost. */
import { addRow, createNormalEquations, medianOf, solveNormal, startNormal, tukey } from './leastSquares';
import type { PatchPose } from './patchTracker';

/** (x, y) goes to (x + …) : shift, growth and turn about `aboutX`, `aboutY`. */
export interface GroupStep {
  readonly aboutX: number;
  readonly aboutY: number;
  readonly shiftX: number;
  readonly shiftY: number;
  readonly a: number;
  readonly b: number;
}

export const NO_STEP: GroupStep = { aboutX: 0, aboutY: 0, shiftX: 0, shiftY: 0, a: 1, b: 0 };

export interface Pair {
  readonly before: PatchPose;
  readonly after: PatchPose;
}

/** A point's own way from the group's, px: a head that turns moves its points apart by this between frames. */
const OWN_WAY_PX = 1;
/** Growth and turn between frames, one deviation: few points cannot tell them from their own ways. */
const STEP_SHAPE_SD = 0.01;
const ROUNDS = 4;
const REACH = 5;

const equations = createNormalEquations(4);
const row = new Float64Array(4);

/** The step most pairs agree on; `NO_STEP` of none. */
export function stepOf(pairs: readonly Pair[]): GroupStep {
  if (pairs.length === 0) return NO_STEP;
  const aboutX = pairs.reduce((sum, { before }) => sum + before.x, 0) / pairs.length;
  const aboutY = pairs.reduce((sum, { before }) => sum + before.y, 0) / pairs.length;
  const { answer } = equations;
  const prior = 1 / STEP_SHAPE_SD ** 2;
  // From the middle one of all steps, so that one wild point among three is seen as such.
  answer.fill(0);
  answer[0] = middle(pairs.map(({ before, after }) => after.x - before.x));
  answer[1] = middle(pairs.map(({ before, after }) => after.y - before.y));
  for (let round = 0; round < ROUNDS; round++) {
    startNormal(equations, [WEAK, WEAK, prior, prior]);
    const [shiftX, shiftY, growth, turn] = [answer[0], answer[1], answer[2]!, answer[3]!];
    for (const { before, after } of pairs) {
      const u = before.x - aboutX;
      const v = before.y - aboutY;
      const stepX = after.x - before.x;
      const stepY = after.y - before.y;
      const left = Math.hypot(stepX - shiftX - growth * u + turn * v, stepY - shiftY - growth * v - turn * u);
      const weight = tukey(left, REACH * OWN_WAY_PX) / OWN_WAY_PX ** 2;
      if (weight === 0) continue;
      row.set([1, 0, u, -v]);
      addRow(equations, row, stepX, weight);
      row.set([0, 1, v, u]);
      addRow(equations, row, stepY, weight);
    }
    if (!solveNormal(equations)) break;
  }
  return { aboutX, aboutY, shiftX: answer[0], shiftY: answer[1], a: 1 + answer[2]!, b: answer[3]! };
}

/** Of a rim or anything that has a pose before and after. */
export function stepBetween({ before, after }: Pair): GroupStep {
  const size = before.a ** 2 + before.b ** 2;
  const a = (after.a * before.a + after.b * before.b) / size;
  const b = (after.b * before.a - after.a * before.b) / size;
  return { aboutX: before.x, aboutY: before.y, shiftX: after.x - before.x, shiftY: after.y - before.y, a, b };
}

export function stepped(pose: PatchPose, { aboutX, aboutY, shiftX, shiftY, a, b }: GroupStep): PatchPose {
  const u = pose.x - aboutX;
  const v = pose.y - aboutY;
  return { x: aboutX + shiftX + a * u - b * v, y: aboutY + shiftY + b * u + a * v, a: a * pose.a - b * pose.b, b: b * pose.a + a * pose.b };
}

/** The middle one of some numbers. */
export function middle(values: readonly number[]): number {
  return medianOf(Float64Array.from(values), values.length);
}

/** Keeps the equations solvable where every pair was an outlier. */
const WEAK = 1e-9;
