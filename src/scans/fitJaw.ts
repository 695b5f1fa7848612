/**
 * A jaw's arch form and labial profile fitted to a scan's points: least squares of their distances from the moulding surface, by
 * Gauss–Newton with damping (Levenberg 1944, Marquardt 1963). Where the frame is not sure, the fit may shift the points as well; what they say
 * nothing of stays as is usual.
 */
import { buildCurve } from '../core/planarForm';
import { buildProfile } from '../core/profile';
import { placeJaw } from '../core/jawGap';
import { ANSWER_GAP, gapRoom } from '../core/gapFace';
import { solveSymmetric } from '../core/smallSystem';
import type { JawArchSpec } from '../core/specs';

/** One number of a jaw that is to be found. */
export interface FreeNumber {
  readonly name: string;
  readonly read: (spec: JawArchSpec) => number;
  readonly write: (spec: JawArchSpec, value: number) => JawArchSpec;
  /** A step that changes little, in the number's own unit. */
  readonly step: number;
  /** What is usual, for a number that the points may say nothing of; absent, they alone decide. */
  readonly usual?: { readonly mean: number; readonly sd: number } | undefined;
}

/** Points of one tooth err together: all together they count as this many that err by themselves, four a tooth from first molar to first molar. Our judgement. */
export const INDEPENDENT_POINTS = 48;
/** A scan is no better than this, mm: below it forms that lie on it cannot be told apart. */
export const LEAST_RESIDUAL_MM = 0.005;

/** The ways in which points may be moved within their frame. */
export type Shift = 'x' | 'y' | 'z';
export const ALL_WAYS: readonly Shift[] = ['x', 'y', 'z'];

export interface JawFitted {
  readonly kind: 'fitted';
  readonly spec: JawArchSpec;
  /** How far the points had to be moved within their frame to lie on it, mm. */
  readonly shiftMm: readonly [number, number, number];
  /** Values and standard deviations in the order of the free numbers, then of the shifts asked for; the deviations hold where neighbouring points err by themselves. */
  readonly values: readonly number[];
  readonly deviations: readonly number[];
  readonly residualMm: number;
  readonly iterations: number;
}

export interface JawNotFitted {
  readonly kind: 'missed';
  readonly reason: 'too-few-points' | 'undetermined' | 'not-converged' | 'impossible-start';
  readonly iterations: number;
}

const MOST_STEPS = 60;
/** A step shorter than this part of every number's own step ends the search. */
const SHORT_PART = 1e-3;
/** So does one that makes the squares less by no more than this part of themselves, or of those of the best scan. */
const LITTLE_PART = 1e-5;
const FIRST_DAMPING = 1e-3;
const MOST_DAMPING = 1e9;
const SHIFT_STEP_MM = 0.01;

/** `points` three numbers each in the jaw's own frame, mm; `gumward` 1 for an upper jaw or a single surface, −1 for a lower one. */
export function fitJaw(
  points: Float64Array, start: JawArchSpec, free: readonly FreeNumber[], gumward: 1 | -1, twoSided = false, shifts: readonly Shift[] = ALL_WAYS,
): JawFitted | JawNotFitted {
  const count = points.length / 3;
  const steps = [...free.map((each) => each.step), ...shifts.map(() => SHIFT_STEP_MM)];
  const unknowns = steps.length;
  if (count <= unknowns) return { kind: 'missed', reason: 'too-few-points', iterations: 0 };
  const feet = new Float64Array(count);
  const room = gapRoom();
  const specOf = (values: readonly number[]): JawArchSpec => free.reduce((spec, each, index) => each.write(spec, values[index]!), start);
  const shiftOf = (values: readonly number[]): [number, number, number] => {
    const by = (way: Shift): number => (shifts.includes(way) ? values[free.length + shifts.indexOf(way)]! : 0);
    return [by('x'), by('y'), by('z')];
  };
  /** Distances of all points, or null where there is no such jaw. */
  const missesAt = (values: readonly number[]): Float64Array | null => {
    const face = faceOf(specOf(values), gumward, twoSided);
    if (face === null) return null;
    const [dx, dy, dz] = shiftOf(values);
    feet.fill(NaN);
    return Float64Array.from({ length: count }, (_, index) => {
      room.point[0] = points[3 * index]! + dx;
      room.point[1] = points[3 * index + 1]! + dy;
      room.point[2] = points[3 * index + 2]! + dz;
      face.ask(feet, index, room);
      return room.answer[ANSWER_GAP]!;
    });
  };
  let values = [...free.map((each) => each.read(start)), ...shifts.map(() => 0)];
  let misses = missesAt(values);
  if (misses === null) return { kind: 'missed', reason: 'impossible-start', iterations: 0 };
  let damping = FIRST_DAMPING;
  /** How far a number lies from what is usual, in deviations; 0 where nothing is. */
  const unusual = (of: readonly number[], which: number): number => {
    const usual = free[which]?.usual;
    return usual === undefined ? 0 : (of[which]! - usual.mean) / usual.sd;
  };
  for (let iterations = 1; iterations <= MOST_STEPS; iterations++) {
    // Each unknown counts in its own steps: a sextic's a is a hundred-millionth, a width is 50.
    const slopes = steps.map((step, which) => slopeBy(which, step));
    if (slopes.includes(null)) return { kind: 'missed', reason: 'impossible-start', iterations };
    const squares = product(misses, misses);
    // What is usual counts as one point more that errs by itself.
    const weight = Math.max(squares / count, LEAST_RESIDUAL_MM ** 2) * Math.max(1, count / INDEPENDENT_POINTS);
    const perStep = free.map(({ usual, step }) => (usual === undefined ? 0 : step / usual.sd));
    const matrix = slopes.map((one, k) => slopes.map((two, column) => product(one!, two!) + (k === column ? weight * (perStep[k] ?? 0) ** 2 : 0)));
    const right = slopes.map((one, k) => -product(one!, misses!) - weight * unusual(values, k) * (perStep[k] ?? 0));
    const costOf = (of: readonly number[], left: Float64Array): number => product(left, left) + weight * free.reduce((sum, _, k) => sum + unusual(of, k) ** 2, 0);
    const before = costOf(values, misses);
    for (;;) {
      const step = solveSymmetric(matrix.map((row, k) => row.map((entry, column) => (k === column ? entry * (1 + damping) : entry))), right);
      if (step === null) return { kind: 'missed', reason: 'undetermined', iterations };
      const short = step.every((value) => Math.abs(value) < SHORT_PART);
      const next = values.map((value, k) => value + step[k]! * steps[k]!);
      const there = missesAt(next);
      let settled = short;
      const cost = there === null ? Infinity : costOf(next, there);
      if (there !== null && cost <= before) {
        settled ||= before - cost <= LITTLE_PART * Math.max(cost, count * LEAST_RESIDUAL_MM ** 2);
        values = next;
        misses = there;
        damping = Math.max(damping / 10, 1e-12);
      } else if (!short) {
        damping *= 10;
        if (damping > MOST_DAMPING) return { kind: 'missed', reason: 'not-converged', iterations };
        continue;
      }
      if (!settled) break;
      const left = product(misses, misses);
      const variance = Math.max(left / (count - unknowns), LEAST_RESIDUAL_MM ** 2);
      const deviations = steps.map((_, which) => {
        const column = solveSymmetric(matrix, steps.map((__, k) => (k === which ? 1 : 0)));
        return column === null ? NaN : steps[which]! * Math.sqrt(variance * column[which]!);
      });
      const [dx, dy, dz] = shiftOf(values);
      return {
        kind: 'fitted', spec: specOf(values), shiftMm: [dx, dy, dz], values, deviations,
        residualMm: Math.sqrt(left / count), iterations,
      };
    }
  }
  return { kind: 'missed', reason: 'not-converged', iterations: MOST_STEPS };

  function slopeBy(which: number, step: number): Float64Array | null {
    const there = (by: number): Float64Array | null => missesAt(values.map((value, k) => (k === which ? value + by : value)));
    const after = there(step);
    const before = there(-step);
    return after && before ? after.map((value, index) => (value - before[index]!) / 2) : null;
  }
}

const product = (one: Float64Array, two: Float64Array): number => one.reduce((sum, value, index) => sum + value * two[index]!, 0);

/** The jaw in its own frame; null where these numbers make none. */
function faceOf(spec: JawArchSpec, gumward: 1 | -1, twoSided: boolean) {
  try {
    const curve = buildCurve(spec.form);
    const profile = buildProfile(spec.profile, twoSided, 'profile');
    return placeJaw(curve, profile, gumward, { openingMm: 0, forwardMm: 0, hinge: 0, armMm: 0 });
  } catch (trouble) {
    if (trouble instanceof RangeError) return null;
    throw trouble;
  }
}
