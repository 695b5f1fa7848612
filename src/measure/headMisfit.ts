/** What a fit over a film tells of itself: which landmark lies wrong, how large the errors are, whether it is a head at all. */
import { residualsOf, sharedSize, type FrameSeen, type FrameState, type SharedState } from './frameEquations';
import { AS_COUNTED, differenceOf, informationOf, type Bundle, type SharedPrior } from './headBundle';
import { ROBUST_WIDTH } from './headPose';
import type { HeadSpots } from './markedAgain';
import type { LandmarkName } from './marks';
import { median } from './median';
import { turn } from './rotation';
import { invertSymmetric, sandwich } from './symmetricSolver';

/** Of the squared length of two standard normals. */
const MEDIAN_OF_TWO = 2 * Math.LN2;
/** Of the square of one. */
const MEDIAN_OF_ONE = 0.45494;
/** The judgement of how well a hand finds a spot again weighs as much as this many numbers that the film tells of it. */
const HAND_COUNTS = 1;
/**
 * A head that lies further from what heads are than this, in squared deviations a number, is none: a slipped landmark has drawn the fit to where a rim
 * lies behind the teeth or the head is inside out. Films with known truth had 2.1 and less, such fits 13 and more.
 */
const NO_HEAD_SQUARES = 6;
/**
 * Asked only of a fit that took more steps than this. What settles sooner is believed as it stands: with a lens unlike the one expected a right
 * fit lies as far from what was expected (a test film of 4 seconds, lens not told).
 */
const SLOW_STEPS = 100;

/** The landmark that usually misses by the most, and by how many times what it and the others should. */
export function worstOne(seen: readonly FrameSeen[], bundle: Bundle, { spots }: HeadSpots): { readonly name: LandmarkName; readonly times: number } {
  const squares = squaresByLandmark(seen, bundle);
  const names = [...new Set(spots.map(({ name }) => name))];
  const usual = names.map((one) => Math.sqrt(median(squares.filter((_, spot) => spots[spot]!.name === one).flat()) / MEDIAN_OF_TWO));
  const worst = usual.indexOf(Math.max(...usual));
  const others = median(usual.filter((_, i) => i !== worst));
  return { name: names[worst]!, times: usual[worst]! / Math.max(1, others) };
}

export function noiseTimesOf(seen: readonly FrameSeen[], bundle: Bundle): number {
  const all = squaresByLandmark(seen, bundle).flat();
  // Each frame's pose takes six of its numbers for itself.
  const left = 1 - Math.min(0.9, (6 * seen.length) / (2 * all.length));
  return Math.max(1, Math.sqrt(median(all) / (MEDIAN_OF_TWO * left)));
}

/** Landmarks that lie where the head has them, within what the robust weight counts as more than half: of fewer than four the pose is anywhere. */
export function agreeing(seen: FrameSeen, state: FrameState, shared: SharedState): number {
  return residualsOf(seen, state, shared).filter(({ x, y }, k) => Math.hypot(x, y) < ROBUST_WIDTH * seen.marks[k]!.sdPx).length;
}

/**
 * How many times larger than told the rim's size errs. Where the rim rests its distance is known to some tenths of a millimetre, and by how much the
 * size tells another is error; the fit leaves of that the part which the two deviations share out. 1 where no notes are known.
 */
export function rimTimesOf(seen: readonly FrameSeen[], bundle: Bundle): number {
  const squares = seen.flatMap(({ rim, rest }, i) => {
    if (!rest) return [];
    const { rotation, shift, rim: place } = bundle.frames[i]!;
    const depth = turn(rotation, place)[2] + shift[2];
    const radiusPx = (bundle.shared.focalPx * bundle.shared.radiiMm[rim.radius]!) / depth;
    const told = rim.radiusSdPx ** 2;
    const ofRest = ((rest.sdMm * radiusPx) / depth) ** 2;
    return [(((rim.radiusPx - radiusPx) * (told + ofRest)) / told) ** 2 / told];
  });
  return squares.length === 0 ? 1 : Math.sqrt(median(squares) / MEDIAN_OF_ONE);
}

export function isNoHead(prior: SharedPrior, { shared, iterations }: Bundle, { spots }: HeadSpots): boolean {
  if (iterations <= SLOW_STEPS) return false;
  const off = Float64Array.from(differenceOf(prior.mean, shared));
  return sandwich(off, 1, prior.information, prior.size)[0]! > NO_HEAD_SQUARES * sharedSize(spots.length, shared.radiiMm.length);
}

/**
 * How far from the same spot the hand has put the marks of landmarks that were marked several times, mm: a step toward where that is most
 * likely (the evidence, MacKay 1992, Bayesian interpolation, value from memory), the first judgement counting as HAND_COUNTS numbers. With K the
 * prior's information, V what is left unsure and u = K·(found − expected), h² becomes h⁴·Σu² over h²·Σ(K − K·V·K)ᵢᵢ, the sums over the
 * coordinates of such landmarks. null where none was marked again.
 */
export function handMmOf(prior: SharedPrior, seen: readonly FrameSeen[], bundle: Bundle, { spots }: HeadSpots, { nowMm, firstMm }: { readonly nowMm: number; readonly firstMm: number }): number | null {
  if (!spots.some(({ again }) => again)) return null;
  const information = informationOf(prior, seen, bundle, AS_COUNTED);
  const unsure = information && invertSymmetric(information.map((each, i) => each + prior.information[i]!), prior.size);
  if (!unsure) return null;
  const { size, information: known } = prior;
  const off = differenceOf(bundle.shared, prior.mean);
  let squares = 0;
  let told = 0;
  spots.forEach(({ again }, spot) => {
    if (!again) return;
    for (let j = 3 * spot; j < 3 * spot + 3; j++) {
      const row = known.subarray(j * size, (j + 1) * size);
      squares += row.reduce((sum, each, k) => sum + each * off[k]!, 0) ** 2;
      told += row[j]! - sandwich(row, 1, unsure, size)[0]!;
    }
  });
  return Math.sqrt((HAND_COUNTS * firstMm ** 2 + nowMm ** 4 * squares) / (HAND_COUNTS + nowMm ** 2 * Math.max(0, told)));
}

/** Squared landmark residuals in deviations, for each spot by itself. */
function squaresByLandmark(seen: readonly FrameSeen[], bundle: Bundle): number[][] {
  const squares: number[][] = bundle.shared.shape.map(() => []);
  seen.forEach((frame, i) => {
    residualsOf(frame, bundle.frames[i]!, bundle.shared).forEach(({ x, y }, k) => {
      const mark = frame.marks[k]!;
      squares[mark.landmark]!.push((x * x + y * y) / mark.sdPx ** 2);
    });
  });
  return squares;
}
