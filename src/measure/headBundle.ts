/**
 * Bundle adjustment: what all frames share (where the landmarks lie, the rim's usual depth, focal length, rim diameter) and every
 * frame's pose and rim place at once, by damped Gauss–Newton. The frames' own unknowns are eliminated frame by frame (Schur
 * complement), so that only the shared ones, some thirty, are solved together. Triggs et al., Bundle adjustment – a modern synthesis,
 * 2000, section 6 (value from memory).
 */
import { toRadians } from '../core/frame';
import type { Vec3 } from '../core/vector';
import { GENERIC_HEAD, HEAD_LEVEL_SD_DEG, HEAD_SIZE_SD, RIM_DEPTH_MM, shapeCovariance } from './headShape';
import {
  OWN, OWN_DEPTH_SD_MM, createFrameSums, sharedSize, stepFrame, stepTurned, sumFrame, type FrameSeen, type FrameState, type SharedState, type SharedSums,
} from './frameEquations';
import { ROBUST_GAIN, ROBUST_WIDTH } from './headPose';
import type { HeadSpot } from './markedAgain';
import { factor, invertSymmetric, solveFactored } from './symmetricSolver';

/** From the generic head it is a long way down a curved valley where six landmarks are all there are: films were seen to need 150. */
const MOST_STEPS = 300;
/** The fit has settled when no shared unknown moves by more than this part of its prior deviation, */
const STEP_ENOUGH = 1e-3;
/** or when a step takes less than this off the cost, in squared deviations: nothing measured hangs on so little. */
const GAIN_ENOUGH = 1e-3;
/**
 * On the generic shape landmarks lie tens of deviations from where they are seen, and a robust cost would take them all for wrong. So the
 * first rounds count plain squares (Cauchy's weight this wide, in deviations), and the robust ones start from there.
 */
const PLAIN_WIDTH = 1e3;
const DAMPING = { first: 1e-4, less: 0.1, more: 10, most: 1e9 } as const;
const FOLLOWING_STEPS = 2;
/** Where a note's rim may rest over the teeth before anything is known, across and up, mm: so wide that it says nothing. */
const REST_SD_MM = 30;
/** Steps of one frame by itself, and when that has settled: radians and mm, or what is left to gain, in squared deviations. */
const MOST_FRAME_STEPS = 100;
const FRAME_STEP_ENOUGH = 1e-7;
const FRAME_GAIN_ENOUGH = 1e-7;

/** What is known before the film is looked at: a mean and the inverse of its covariance. */
export interface SharedPrior {
  readonly mean: SharedState;
  readonly information: Float64Array;
  readonly size: number;
}

export interface Bundle {
  readonly kind: 'fitted';
  readonly shared: SharedState;
  readonly frames: readonly FrameState[];
  readonly cost: number;
  readonly iterations: number;
}

export interface NoBundle {
  readonly kind: 'not-fitted';
  readonly reason: 'not-settled' | 'not-determined';
}

/**
 * @param handMm how far from the same spot a hand puts the mark of a landmark that was marked several times, one deviation.
 * @param radius of the rim, with what every mark of it has in common (`relativeSd`) and what each has by itself (`markSd`), as parts.
 * @param rests how many notes the rim rests at.
 */
export function priorOf(
  spots: readonly HeadSpot[], handMm: number, focal: { readonly px: number; readonly relativeSd: number },
  radius: { readonly mm: number; readonly relativeSd: number; readonly markSd: number; readonly marked: number }, rests: number,
): SharedPrior {
  const size = sharedSize(spots.length, radius.marked, rests);
  const shape = spots.map(({ name }) => GENERIC_HEAD[name].placeMm);
  const covariance = new Float64Array(size * size);
  const flat = shape.flat();
  spots.forEach(({ name, again }, i) => spots.forEach((other, j) => {
    // Marked several times, it is several spots of the head, as near to each other as the hand finds the same one again.
    const hand = again && i === j ? handMm ** 2 : 0;
    for (const k of [0, 1, 2] as const) covariance[(3 * i + k) * size + 3 * j + k] = shapeCovariance(name, other.name, k) + hand;
  }));
  // One factor for the whole head: all landmarks move together along their own places.
  flat.forEach((a, j) => flat.forEach((b, k) => (covariance[j * size + k]! += HEAD_SIZE_SD ** 2 * a * b)));
  // And one nod: all of them turn together about the line from side to side.
  const nod = shape.flatMap(([, y, z]) => [0, -z, y]);
  nod.forEach((a, j) => nod.forEach((b, k) => (covariance[j * size + k]! += toRadians(HEAD_LEVEL_SD_DEG) ** 2 * a * b)));
  const last = 3 * spots.length;
  covariance[last * (size + 1)] = RIM_DEPTH_MM.sd ** 2;
  covariance[(last + 1) * (size + 1)] = focal.relativeSd ** 2;
  for (let one = 0; one < radius.marked; one++) {
    for (let other = 0; other < radius.marked; other++) covariance[(last + 2 + one) * size + last + 2 + other] = radius.relativeSd ** 2 + (one === other ? radius.markSd ** 2 : 0);
  }
  for (let rest = 0; rest < rests; rest++) {
    const at = sharedSize(spots.length, radius.marked, rest);
    covariance[at * (size + 1)] = REST_SD_MM ** 2;
    covariance[(at + 1) * (size + 1)] = REST_SD_MM ** 2;
    // Each rest lies near the usual depth, whatever that is.
    covariance[last * size + at + 2] = RIM_DEPTH_MM.sd ** 2;
    covariance[(at + 2) * size + last] = RIM_DEPTH_MM.sd ** 2;
    for (let other = 0; other < rests; other++) covariance[(at + 2) * size + sharedSize(spots.length, radius.marked, other) + 2] = RIM_DEPTH_MM.sd ** 2;
    covariance[(at + 2) * (size + 1)]! += OWN_DEPTH_SD_MM ** 2;
  }
  const information = invertSymmetric(covariance, size);
  if (!information) throw new RangeError('priorOf: deviations allowed are above 0');
  const mean: SharedState = {
    shape, rimDepthMm: RIM_DEPTH_MM.value, focalPx: focal.px, radiiMm: new Array<number>(radius.marked).fill(radius.mm),
    rests: Array.from({ length: rests }, () => [0, 0, RIM_DEPTH_MM.value] as const),
  };
  return { mean, information, size };
}

/** Factors of deviations: of landmarks, of the whole rim, of its size beside that, and of how far it stirs about its rests. */
export interface TimesAlike {
  readonly marks: number;
  readonly rim: number;
  readonly radius: number;
  readonly rest: number;
}
export const AS_COUNTED: TimesAlike = { marks: 1, rim: 1, radius: 1, rest: 1 };

export function fitBundle(prior: SharedPrior, seen: readonly FrameSeen[], start: readonly FrameState[]): Bundle | NoBundle {
  const plain = descend(prior, seen, start, prior.mean, PLAIN_WIDTH);
  if (plain.kind === 'not-fitted') return plain;
  const robust = descend(prior, seen, plain.frames, plain.shared, ROBUST_WIDTH);
  return robust.kind === 'fitted' ? { ...robust, iterations: plain.iterations + robust.iterations } : robust;
}

/**
 * What the film says of the shared unknowns, the frames' own taken out and the prior left out; null where a frame is not determined.
 * `timesAlike`: by how much marks and rim count as less exact because neighbouring chosen frames err alike, or worse than told.
 */
export function informationOf(prior: SharedPrior, seen: readonly FrameSeen[], bundle: Bundle, timesAlike: TimesAlike): Float64Array | null {
  const { size } = prior;
  const all: SharedSums = { normal: new Float64Array(size * size), slope: new Float64Array(size) };
  const sums = createFrameSums(size);
  for (const [i, frame] of seen.entries()) {
    const told = toldOf(frame, timesAlike);
    sumFrame(told.seen, bundle.frames[i]!, bundle.shared, sums, all, told.marksWidth, told.restWidth);
    const back = sums.mixed.slice();
    if (!factor(sums.own, OWN)) return null;
    solveFactored(sums.own, OWN, back, size);
    takeOut(all.normal, sums.mixed, back, size);
  }
  return all.normal;
}

/** A frame with the deviations that its sums must be told for a covariance: robust weights of landmarks the same, the loss made up (ROBUST_GAIN). */
export function toldOf(frame: FrameSeen, timesAlike: TimesAlike): { readonly seen: FrameSeen; readonly marksWidth: number; readonly restWidth: number } {
  const gain = Math.sqrt(ROBUST_GAIN);
  const times = timesAlike.marks / gain;
  const rim = { ...frame.rim, sdPx: frame.rim.sdPx * timesAlike.rim, radiusSdPx: frame.rim.radiusSdPx * timesAlike.rim * timesAlike.radius };
  const rest = frame.rest && { ...frame.rest, sdMm: (frame.rest.sdMm * timesAlike.rest) / gain };
  const marks = frame.marks.map((mark) => ({ ...mark, sdPx: mark.sdPx * times }));
  return { seen: { ...frame, rim, rest, marks }, marksWidth: ROBUST_WIDTH / times, restWidth: ROBUST_WIDTH * gain };
}

/** A frame's own unknowns with the shared ones held; null where they do not settle. */
export function fitFrame(seen: FrameSeen, start: FrameState, shared: SharedState): FrameState | null {
  const sums = createFrameSums(sharedSize(shared.shape.length, shared.radiiMm.length, shared.rests.length));
  let state = start;
  let damping: number = DAMPING.first;
  let cost = sumFrame(seen, state, shared, sums, null);
  for (let steps = 0; steps < MOST_FRAME_STEPS; steps++) {
    const normal = sums.own.slice();
    const step = sums.ownSlope.slice();
    for (let j = 0; j < OWN; j++) normal[j * (OWN + 1)]! *= 1 + damping;
    if (!factor(normal, OWN)) return null;
    solveFactored(normal, OWN, step);
    const next = stepFrame(state, step);
    const nextCost = sumFrame(seen, next, shared, null, null);
    const gain = cost - nextCost;
    if (gain >= 0) {
      state = next;
      cost = sumFrame(seen, state, shared, sums, null);
      damping *= DAMPING.less;
    } else damping *= DAMPING.more;
    if ((gain >= 0 && gain < FRAME_GAIN_ENOUGH) || Math.hypot(...step) < FRAME_STEP_ENOUGH || damping > DAMPING.most) return state;
  }
  return null;
}

function descend(
  prior: SharedPrior, seen: readonly FrameSeen[], startFrames: readonly FrameState[], startShared: SharedState, width: number,
): Bundle | NoBundle {
  const { size } = prior;
  let shared = startShared;
  let frames = startFrames;
  let damping: number = DAMPING.first;
  let cost = costOf(prior, seen, frames, shared, width);
  const sums = seen.map(() => createFrameSums(size));
  const scratch = createFrameSums(size);
  const all: SharedSums = { normal: new Float64Array(size * size), slope: new Float64Array(size) };
  for (let iterations = 1; iterations <= MOST_STEPS; iterations++) {
    all.normal.fill(0);
    all.slope.fill(0);
    seen.forEach((frame, i) => sumFrame(frame, frames[i]!, shared, sums[i]!, all, width));
    const off = differenceOf(prior.mean, shared);
    for (let j = 0; j < size; j++) {
      for (let k = 0; k < size; k++) {
        all.normal[j * size + k]! += prior.information[j * size + k]!;
        all.slope[j]! += prior.information[j * size + k]! * off[k]!;
      }
    }
    let settled = false;
    for (;;) {
      const step = schurStep(all, sums, size, damping);
      if (!step) return { kind: 'not-fitted', reason: 'not-determined' };
      const turned = turnOf(shared, step.shared);
      const nextShared = stepShared(shared, step.shared, turned);
      const nextFrames = frames.map((frame, i) => followShared(seen[i]!, stepFrame(frame, step.frames[i]!, turned), nextShared, scratch, width));
      const nextCost = costOf(prior, seen, nextFrames, nextShared, width);
      settled = step.shared.every((each, j) => Math.abs(each) * Math.sqrt(prior.information[j * (size + 1)]!) < STEP_ENOUGH);
      if (nextCost <= cost) {
        settled ||= cost - nextCost < GAIN_ENOUGH;
        shared = nextShared;
        frames = nextFrames;
        cost = nextCost;
        damping *= DAMPING.less;
        break;
      }
      damping *= DAMPING.more;
      if (settled || damping > DAMPING.most) {
        settled = true;
        break;
      }
    }
    if (!settled) continue;
    return { kind: 'fitted', shared, frames, cost, iterations };
  }
  return { kind: 'not-fitted', reason: 'not-settled' };
}

function costOf(prior: SharedPrior, seen: readonly FrameSeen[], frames: readonly FrameState[], shared: SharedState, width: number): number {
  const off = differenceOf(prior.mean, shared);
  let cost = 0;
  for (let j = 0; j < prior.size; j++) for (let k = 0; k < prior.size; k++) cost += off[j]! * prior.information[j * prior.size + k]! * off[k]!;
  seen.forEach((frame, i) => (cost += sumFrame(frame, frames[i]!, shared, null, null, width)));
  return cost;
}

/** What to add to `from` to come to `to`, in the order of the unknowns. */
export function differenceOf(to: SharedState, from: SharedState): number[] {
  return [
    ...to.shape.flatMap((place, i) => place.map((each, k) => each - from.shape[i]![k]!)),
    to.rimDepthMm - from.rimDepthMm,
    Math.log(to.focalPx / from.focalPx),
    ...to.radiiMm.map((radius, i) => Math.log(radius / from.radiiMm[i]!)),
    ...to.rests.flatMap((rest, i) => rest.map((each, k) => each - from.rests[i]![k]!)),
  ];
}

/**
 * A frame's own unknowns brought after the shared ones: the step is right to first order only, and the way to the best answer is a curved
 * valley along which the frames must keep up. Steps that do not help are not taken.
 */
function followShared(seen: FrameSeen, start: FrameState, shared: SharedState, sums: Sums, width: number): FrameState {
  let state = start;
  let cost = sumFrame(seen, state, shared, sums, null, width);
  for (let k = 0; k < FOLLOWING_STEPS; k++) {
    if (!factor(sums.own, OWN)) return state;
    solveFactored(sums.own, OWN, sums.ownSlope);
    const next = stepFrame(state, sums.ownSlope);
    const nextCost = sumFrame(seen, next, shared, sums, null, width);
    if (!(nextCost < cost)) return state;
    state = next;
    cost = nextCost;
  }
  return state;
}

/**
 * The turn of the whole head that is in a step of its shape, by least squares. Turning the shape and every pose against it changes no
 * picture, so this is where the fit may go far; taken to first order only, such a step would stretch the head.
 */
function turnOf({ shape }: SharedState, step: Float64Array): Vec3 {
  const inertia = new Float64Array(9);
  const moment = new Float64Array(3);
  shape.forEach((place, i) => {
    const [x, y, z] = place;
    const [a, b, c] = [step[3 * i]!, step[3 * i + 1]!, step[3 * i + 2]!];
    const square = x * x + y * y + z * z;
    for (let j = 0; j < 3; j++) {
      inertia[4 * j]! += square;
      for (let k = 0; k < 3; k++) inertia[3 * j + k]! -= place[j]! * place[k]!;
    }
    moment[0]! += y * c - z * b;
    moment[1]! += z * a - x * c;
    moment[2]! += x * b - y * a;
  });
  if (!factor(inertia, 3)) return [0, 0, 0];
  solveFactored(inertia, 3, moment);
  return [moment[0]!, moment[1]!, moment[2]!];
}

function stepShared(shared: SharedState, step: Float64Array, turned: Vec3): SharedState {
  const last = 3 * shared.shape.length;
  return {
    shape: shared.shape.map((place, i) => stepTurned(place, [step[3 * i]!, step[3 * i + 1]!, step[3 * i + 2]!], turned)),
    rimDepthMm: shared.rimDepthMm + step[last]!,
    focalPx: shared.focalPx * Math.exp(step[last + 1]!),
    radiiMm: shared.radiiMm.map((radius, i) => radius * Math.exp(step[last + 2 + i]!)),
    rests: shared.rests.map((rest, i) => {
      const at = sharedSize(shared.shape.length, shared.radiiMm.length, i);
      return stepTurned(rest, [step[at]!, step[at + 1]!, step[at + 2]!], turned);
    }),
  };
}

type Sums = ReturnType<typeof createFrameSums>;

function schurStep(all: SharedSums, sums: readonly Sums[], size: number, damping: number): { shared: Float64Array; frames: Float64Array[] } | null {
  const normal = all.normal.slice();
  const shared = all.slope.slice();
  for (let j = 0; j < size; j++) normal[j * (size + 1)]! *= 1 + damping;
  const solved = sums.map((frame) => {
    const own = frame.own.slice();
    for (let j = 0; j < OWN; j++) own[j * (OWN + 1)]! *= 1 + damping;
    const back = frame.mixed.slice();
    const slope = frame.ownSlope.slice();
    if (!factor(own, OWN)) return null;
    solveFactored(own, OWN, back, size);
    solveFactored(own, OWN, slope);
    takeOut(normal, frame.mixed, back, size);
    for (let k = 0; k < OWN; k++) for (let j = 0; j < size; j++) shared[j]! -= frame.mixed[k * size + j]! * slope[k]!;
    return { back, slope };
  });
  if (!factor(normal, size)) return null;
  solveFactored(normal, size, shared);
  const frames: Float64Array[] = [];
  for (const each of solved) {
    if (!each) return null;
    const step = each.slope;
    for (let k = 0; k < OWN; k++) for (let j = 0; j < size; j++) step[k]! -= each.back[k * size + j]! * shared[j]!;
    frames.push(step);
  }
  return { shared, frames };
}

/** normal −= mixedᵀ·back, what the frame's own unknowns take from what it says of the shared ones. */
function takeOut(normal: Float64Array, mixed: Float64Array, back: Float64Array, size: number): void {
  for (let k = 0; k < OWN; k++) {
    for (let i = 0; i < size; i++) {
      const each = mixed[k * size + i]!;
      if (each === 0) continue;
      for (let j = 0; j < size; j++) normal[i * size + j]! -= each * back[k * size + j]!;
    }
  }
}
