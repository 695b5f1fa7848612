/**
 * A C2 parametric cubic spline through measured points [x, z], player's right to left, moved by nothing: the points already
 * stand in the player's frame. Natural ends, chord-length parameter (de Boor, A Practical Guide to Splines, ch. IV; value from memory).
 */
import { tooTight } from './formChecks';
import { sayCore } from '../words/core';

export interface ParametricSpline {
  readonly low: number;
  readonly high: number;
  evaluate(u: number, out: Float64Array): void;
}

const FEWEST_POINTS = 4;
/** Two measured points nearer than this cannot be told apart, mm. */
const NEAREST_POINTS_MM = 0.05;

/** Throws RangeError for fewer than four points, points that coincide, or points that do not run from right to left. */
export function parametricSpline(points: readonly (readonly [number, number])[]): ParametricSpline {
  const count = points.length;
  if (count < FEWEST_POINTS) throw tooTight('form.points', sayCore('points', { count }), sayCore('pointsAtLeast', { fewest: FEWEST_POINTS }));
  const xs = new Float64Array(count);
  const zs = new Float64Array(count);
  const knots = new Float64Array(count);
  points.forEach((point, index) => {
    xs[index] = point[0];
    zs[index] = point[1];
    if (index === 0) return;
    const chord = Math.hypot(point[0] - xs[index - 1]!, point[1] - zs[index - 1]!);
    if (!(chord >= NEAREST_POINTS_MM)) {
      throw tooTight(`form.points[${index}]`, `(${point.join(', ')})`, sayCore('pointsApart', { least: NEAREST_POINTS_MM }));
    }
    knots[index] = knots[index - 1]! + chord;
  });
  if (!(xs[0]! < 0 && xs[count - 1]! > 0)) {
    throw tooTight('form.points', sayCore('xFromTo', { from: xs[0]!, to: xs[count - 1]! }), sayCore('rightToLeft'));
  }
  const bendX = naturalSecondDerivatives(knots, xs);
  const bendZ = naturalSecondDerivatives(knots, zs);
  return {
    low: 0,
    high: knots[count - 1]!,
    evaluate(u, out) {
      let left = 0;
      let right = count - 1;
      while (right - left > 1) {
        const middle = (left + right) >> 1;
        if (knots[middle]! <= u) left = middle;
        else right = middle;
      }
      evaluatePiece(knots, xs, bendX, left, u, out, 0);
      evaluatePiece(knots, zs, bendZ, left, u, out, 1);
    },
  };
}

function evaluatePiece(
  knots: Float64Array,
  values: Float64Array,
  bends: Float64Array,
  left: number,
  u: number,
  out: Float64Array,
  axis: number,
): void {
  const width = knots[left + 1]! - knots[left]!;
  const b = (u - knots[left]!) / width;
  const a = 1 - b;
  const m0 = bends[left]!;
  const m1 = bends[left + 1]!;
  out[axis] = a * values[left]! + b * values[left + 1]! + (((a * a * a - a) * m0 + (b * b * b - b) * m1) * width * width) / 6;
  out[axis + 2] =
    (values[left + 1]! - values[left]!) / width + ((-(3 * a * a - 1) * m0 + (3 * b * b - 1) * m1) * width) / 6;
  out[axis + 4] = a * m0 + b * m1;
}

function naturalSecondDerivatives(knots: Float64Array, values: Float64Array): Float64Array {
  const count = knots.length;
  const second = new Float64Array(count);
  const factor = new Float64Array(count);
  for (let i = 1; i < count - 1; i++) {
    const before = knots[i]! - knots[i - 1]!;
    const after = knots[i + 1]! - knots[i]!;
    const share = before / (before + after);
    const pivot = share * second[i - 1]! + 2;
    second[i] = (share - 1) / pivot;
    const turn = (values[i + 1]! - values[i]!) / after - (values[i]! - values[i - 1]!) / before;
    factor[i] = ((6 * turn) / (before + after) - share * factor[i - 1]!) / pivot;
  }
  second[count - 1] = 0;
  for (let i = count - 2; i >= 0; i--) second[i] = second[i]! * second[i + 1]! + factor[i]!;
  return second;
}
