/**
 * A front film's trace to the rim's place and the horn's angles in the head's frame, frame by frame.
 *
 * The generic head is not the person's. Over a film the head turns, and how the landmarks move against each other then tells where
 * they lie, so the shape, the rim's usual depth, the focal length and the rim's diameter are fitted together over some chosen frames
 * (headBundle.ts), with what is known before as prior; every frame is then solved by them. A landmark marked a little off the right spot is
 * another spot of the same head that moves with it as rigidly: it goes into the shape, and travel does not see it. Marked again in another
 * frame it is one more spot of the head, as near to the first as a hand puts it; how near, the film tells itself (handMmOf).
 */
import { checkCamera, middleOf } from './camera';
import { residualsOf, sharedSize, type FrameSeen, type FrameState, type SharedState } from './frameEquations';
import { fitBundle, fitFrame, informationOf, priorOf, type Bundle, type NoBundle, type SharedPrior, type TimesAlike } from './headBundle';
import { blocksOf, depthsAlike, marksScatter } from './framesAlike';
import { headFrame, type HeadFrame } from './headFrame';
import { agreeing, handMmOf, isNoHead, noiseTimesOf, rimTimesOf, worstOne } from './headMisfit';
import { frameSeen, type Optics, type Seeing } from './frameSeen';
import { FEWEST_LANDMARKS, FEWEST_ON_GENERIC_SHAPE, findHeadPose } from './headPose';
import { GENERIC_HEAD, HAND_SD_PX, SPOT_SD_MM } from './headShape';
import { RIM_MARK_SD_PX, hornFromFront, type FrontAxis } from './hornFromFront';
import { headSpots, hornErrorAt, hornErrors, marksOf, type HeadSpots } from './markedAgain';
import { LANDMARK_NAMES, type CameraSpec, type LandmarkName } from './marks';
import { median } from './median';
import { FIRST_STIR, STIR_MOVED, countedStir, restsOf, stirOf, timesAlike } from './rimRests';
import { turnBack } from './rotation';
import { invertSymmetric } from './symmetricSolver';
import type { FilmTrace, TracedFrame, TracedRim } from './traces';

/** Frames the shape is fitted over; more would hardly say more, for neighbours err alike. */
const MOST_CHOSEN = 90;
/** As many tell which landmark has drawn a fit away. */
const FEW_CHOSEN = 30;
/** A landmark belongs to the shape when it is seen in this part of the frames. */
const SEEN_ENOUGH = 0.2;
/** Landmarks without which nothing is told, where held notes show how the rim lies before the head: one fewer than on a generic shape by itself. */
const FEWEST_WITH_NOTES = 5;
/** A landmark whose usual residual is so many times what it and the others should have has slipped or is no part of the skull. */
const SLIPPED_TIMES = 3;
/** In the fit a rim's size counts as erring no less and no more than so many times what was told, and no less than the last is told: judgements. */
const LEAST_RIM_TIMES = 0.25;
const MOST_RIM_TIMES = 4;
const LEAST_TOLD_RIM_TIMES = 0.05;

export interface FrontFilm {
  readonly trace: FilmTrace;
  readonly camera: CameraSpec;
  /** Outer diameter of the rim where it was marked, mm. */
  readonly rimDiameterMm: { readonly value: number; readonly sd: number };
  readonly hornMarkMm?: { readonly value: number; readonly sd: number } | undefined;
  /**
   * Frames of each note's steady part. While a note is held the rim rests on the head, so what it seems to move as the head turns tells
   * how far before the landmarks it lies; without notes that hangs on the prior alone, and travel is the less exact the more the head turns.
   */
  readonly steady?: readonly (readonly number[])[] | undefined;
}

export interface HeadFilm {
  readonly kind: 'found';
  /** As the trace's frames; null: rim lost or fewer than four landmarks. */
  readonly frames: readonly (HeadFrame | null)[];
  /** Of what all frames share: the fit's shared unknowns, then the marks' own errors as hornFromFront orders them, then those of marks put again. */
  readonly covariance: Float64Array;
  readonly sharedErrors: number;
  /** How like the errors of a frame and the next are, 0 to 1, from the landmarks' residuals, and of the rim's size from its distances. */
  readonly alike: number;
  readonly rimAlike: number;
  /** How many times larger than their sums say the variance of what is found by the landmarks is, from their residuals. */
  readonly marksTimes: number;
  readonly landmarks: readonly LandmarkName[];
  /** Landmarks that did not move with the others and were left out. */
  readonly setAside: readonly LandmarkName[];
  /** How many times larger than told the deviations of landmarks and of the rim's size turned out. */
  readonly noiseTimes: number;
  readonly rimTimes: number;
  /** How far apart a landmark marked again lies from where it was, one deviation of each mark, mm; null where none was. */
  readonly handMm: number | null;
  /** Root mean square landmark residual over the chosen frames, px. */
  readonly residualPx: number;
  readonly iterations: number;
  readonly fitted: SharedState;
}

export interface NoHeadFilm {
  readonly kind: 'not-found';
  /** too-few-landmarks: no frame shows the rim with six landmarks, or five where notes are known. */
  readonly reason: 'too-few-landmarks' | 'sides-exchanged' | 'not-settled';
}

export function headFromFilm(film: FrontFilm): HeadFilm | NoHeadFilm {
  check(film);
  const setAside: LandmarkName[] = [];
  let names = landmarksOf(film.trace.frames);
  let noiseTimes = 1;
  let rimTimes = 1;
  let optics: Optics = { camera: film.camera, radiusMm: film.rimDiameterMm.value / 2 };
  let axes = axesOf(film, optics);
  let stir = FIRST_STIR;
  let lastRounds = MOST_ROUNDS;
  const firstHandMm = handMmAtFirst(film);
  let handMm = firstHandMm;
  const fewest = (film.steady ?? []).filter((note) => note.length > 1).length > 1 ? FEWEST_WITH_NOTES : FEWEST_ON_GENERIC_SHAPE;
  const fitBy = (used: readonly LandmarkName[], most = MOST_CHOSEN): Attempt | NoHeadFilm => {
    const chosen = choose(film.trace.frames, used, fewest, most);
    if (chosen.length === 0) return { kind: 'not-found', reason: 'too-few-landmarks' };
    const spots = headSpots(film.trace, used);
    const started = startOf(film, used, chosen);
    if (started.kind === 'not-found') return started;
    const rests = restsOf(film.steady, started.indices, stir);
    const seeing: Seeing = { names: used, spots, optics, axes, handMm, noiseTimes, rimTimes };
    const seen = started.indices.map((index) => ({ ...frameSeen(film.trace, index, seeing), rest: rests.of.get(index) }));
    const prior = priorOf(
      spots.spots,
      handMm,
      { px: film.camera.focalPx, relativeSd: Math.max(film.camera.focalRelativeSd, 1e-6) },
      { mm: film.rimDiameterMm.value / 2, ...radiusSds(film), marked: marksOf(film.trace, 'rim') },
      rests.count,
    );
    return { kind: 'tried', spots, indices: started.indices, seen, prior, bundle: fitBundle(prior, seen, started.states) };
  };
  for (;;) {
    const tried = fitBy(names);
    if (tried.kind === 'not-found') return tried;
    const { spots, seen, prior, bundle } = tried;
    if (bundle.kind === 'not-fitted' || isNoHead(prior, bundle, spots)) {
      if (names.length <= fewest) return { kind: 'not-found', reason: 'not-settled' };
      const wrong = drawnAwayBy(names, fitBy) ?? leastSeen(film.trace.frames, names);
      setAside.push(wrong);
      names = names.filter((name) => name !== wrong);
      continue;
    }
    const worst = worstOne(seen, bundle, spots);
    if (worst.times > SLIPPED_TIMES && names.length > fewest) {
      setAside.push(worst.name);
      names = names.filter((name) => name !== worst.name);
      continue;
    }
    const times = noiseTimesOf(seen, bundle) * noiseTimes;
    const toldRimTimes = Math.min(MOST_RIM_TIMES, Math.max(LEAST_TOLD_RIM_TIMES, rimTimesOf(seen, bundle) * rimTimes));
    const timesOfRim = Math.max(LEAST_RIM_TIMES, toldRimTimes);
    const fitted: Optics = { camera: { ...film.camera, focalPx: bundle.shared.focalPx }, radiusMm: bundle.shared.radiiMm[0]! };
    const toldStir = stirOf(seen, bundle) ?? stir;
    const stirred = countedStir(toldStir);
    const hand = handMmOf(prior, seen, bundle, spots, { nowMm: handMm, firstMm: firstHandMm }) ?? handMm;
    const stirTimes = (stirred.sdMm * timesAlike(stirred)) / (stir.sdMm * timesAlike(stir));
    // The ellipse's small corrections follow the optics, the robust weights the noise, the rests the stir: once more, if one has moved.
    const moved =
      Math.abs(Math.log(fitted.camera.focalPx / optics.camera.focalPx)) > OPTICS_MOVED ||
      times > NOISE_MOVED * noiseTimes || Math.abs(Math.log(hand / handMm)) > Math.log(HAND_MOVED) || Math.abs(Math.log(timesOfRim / rimTimes)) > Math.log(STIR_MOVED) || Math.abs(Math.log(stirTimes)) > Math.log(STIR_MOVED);
    if (moved && --lastRounds > 0) {
      optics = fitted;
      noiseTimes = times;
      rimTimes = timesOfRim;
      handMm = hand;
      stir = stirred;
      axes = axesOf(film, optics);
      continue;
    }
    const toldTimes = { radius: toldRimTimes / rimTimes, rest: (toldStir.sdMm * timesAlike(toldStir)) / (stir.sdMm * timesAlike(stir)) };
    return solveAll(film, { names, spots, handMm, setAside, noiseTimes, rimTimes, toldTimes, optics, axes, seen, bundle, prior, indices: tried.indices });
  }
}

/** One fit, by some of the landmarks. */
interface Attempt {
  readonly kind: 'tried';
  readonly spots: HeadSpots;
  readonly indices: readonly number[];
  readonly seen: readonly FrameSeen[];
  readonly prior: SharedPrior;
  readonly bundle: Bundle | NoBundle;
}

/**
 * The landmark without which the others agree best: one that jumped far draws the fit after it, so that what fits worst in it may be any other. null where
 * no head is found without any one of them: then what is lost for long is most likely somewhere else when it is found.
 */
function drawnAwayBy(names: readonly LandmarkName[], fitBy: (used: readonly LandmarkName[], most: number) => Attempt | NoHeadFilm): LandmarkName | null {
  let wrong: LandmarkName | null = null;
  let least = Infinity;
  for (const name of names) {
    const without = fitBy(names.filter((other) => other !== name), FEW_CHOSEN);
    if (without.kind === 'not-found' || without.bundle.kind === 'not-fitted' || isNoHead(without.prior, without.bundle, without.spots)) continue;
    const cost = without.bundle.cost / without.seen.reduce((sum, { marks }) => sum + marks.length, 0);
    if (cost >= least) continue;
    least = cost;
    wrong = name;
  }
  return wrong;
}

/** Rounds in which optics, noise and stir are put right; they settle in two or three. */
const MOST_ROUNDS = 4;
/** Part by which a focal length or a noise may still move without a further round. */
const OPTICS_MOVED = 0.01;
const NOISE_MOVED = 1.05;
const HAND_MOVED = 1.1;

function check({ trace, camera, rimDiameterMm, hornMarkMm }: FrontFilm): void {
  checkCamera(camera);
  if (trace.view !== 'front') throw new RangeError(`trace.view ${trace.view}: allowed is front`);
  if (!(rimDiameterMm.value > 0 && rimDiameterMm.sd >= 0)) {
    throw new RangeError(`rimDiameterMm ${rimDiameterMm.value} ± ${rimDiameterMm.sd}: allowed is a value above 0, a deviation of 0 or more`);
  }
  if (hornMarkMm && !(hornMarkMm.value > 0 && hornMarkMm.sd > 0)) {
    throw new RangeError(`hornMarkMm ${hornMarkMm.value} ± ${hornMarkMm.sd}: allowed is above 0, both`);
  }
}

/** The diameter's own deviation and that of marking it, as parts: both make every frame's rim too large by the same factor, until it is marked again. */
function radiusSds(film: FrontFilm): { readonly relativeSd: number; readonly markSd: number } {
  return { relativeSd: film.rimDiameterMm.sd / film.rimDiameterMm.value, markSd: Math.max(1e-6, RIM_MARK_SD_PX / rimPxOf(film)) };
}

/** The rim's usual larger semi-axis, px. */
function rimPxOf({ trace }: FrontFilm): number {
  return Math.max(1, median(trace.frames.flatMap(({ rim }) => (rim ? [rim.semiMajorPx] : []))));
}

function handMmAtFirst(film: FrontFilm): number {
  return Math.hypot(SPOT_SD_MM, (HAND_SD_PX * film.rimDiameterMm.value) / 2 / rimPxOf(film));
}

/** The axis of each frame, found when first asked for: the rounds need the chosen frames' only. */
function axesOf({ trace, hornMarkMm }: FrontFilm, { camera, radiusMm }: Optics): (index: number) => FrontAxis | null {
  const known = new Map<number, FrontAxis | null>();
  return (index) => {
    const before = known.get(index);
    if (before !== undefined) return before;
    const { rim, points } = trace.frames[index]!;
    const found = rim && hornFromFront(camera, radiusMm, { rim, near: points['horn-near'], far: points['horn-far'], farMm: hornMarkMm });
    const axis = found?.kind === 'found' ? found : null;
    known.set(index, axis);
    return axis;
  };
}

function landmarksOf(frames: readonly TracedFrame[]): LandmarkName[] {
  const withRim = frames.filter(({ rim }) => rim);
  return LANDMARK_NAMES.filter((name) => withRim.filter(({ points }) => points[name]).length > SEEN_ENOUGH * withRim.length);
}

function leastSeen(frames: readonly TracedFrame[], names: readonly LandmarkName[]): LandmarkName {
  const seen = names.map((name) => frames.filter(({ points }) => points[name]).length);
  return names[seen.indexOf(Math.min(...seen))]!;
}

/** Evenly over the frames that show the rim and enough landmarks. */
function choose(frames: readonly TracedFrame[], names: readonly LandmarkName[], fewest: number, most: number): number[] {
  const usable = frames.flatMap(({ rim, points }, i) => (rim && names.filter((name) => points[name]).length >= fewest ? [i] : []));
  if (usable.length <= most) return usable;
  return Array.from({ length: most }, (_, k) => usable[Math.round((k * (usable.length - 1)) / (most - 1))]!);
}

type Started = { readonly kind: 'found'; readonly indices: number[]; readonly states: FrameState[] };

function startOf(film: FrontFilm, names: readonly LandmarkName[], chosen: readonly number[]): Started | NoHeadFilm {
  const indices: number[] = [];
  const states: FrameState[] = [];
  let exchanged = 0;
  for (const index of chosen) {
    const frame = film.trace.frames[index]!;
    const pose = findHeadPose(film.camera, only(frame, names), GENERIC_HEAD);
    if (pose.kind === 'not-found') {
      if (pose.reason === 'sides-exchanged') exchanged++;
      continue;
    }
    indices.push(index);
    states.push(withRim(pose, frame.rim!, film.camera, film.rimDiameterMm.value / 2));
  }
  if (states.length > 0) return { kind: 'found', indices, states };
  return { kind: 'not-found', reason: exchanged > 0 ? 'sides-exchanged' : 'not-settled' };
}

const only = ({ points }: TracedFrame, names: readonly LandmarkName[]): TracedFrame['points'] =>
  Object.fromEntries(names.flatMap((name) => (points[name] ? [[name, points[name]]] : [])));

function withRim({ rotation, shift }: Pick<FrameState, 'rotation' | 'shift'>, rim: TracedRim, camera: CameraSpec, radiusMm: number): FrameState {
  const middle = middleOf(camera);
  const depth = (camera.focalPx * radiusMm) / rim.semiMajorPx;
  const x = ((rim.centre.x - middle.x) * depth) / camera.focalPx;
  const y = ((rim.centre.y - middle.y) * depth) / camera.focalPx;
  return { rotation, shift, rim: turnBack(rotation, [x - shift[0], y - shift[1], depth - shift[2]]) };
}

interface Fitted extends Seeing {
  readonly setAside: readonly LandmarkName[];
  /** By how much the rim's size and its rests are more or less exact than they count in the fit. */
  readonly toldTimes: Pick<TimesAlike, 'radius' | 'rest'>;
  readonly seen: readonly FrameSeen[];
  readonly bundle: Bundle;
  readonly prior: SharedPrior;
  readonly indices: readonly number[];
}

function solveAll(film: FrontFilm, fitted: Fitted): HeadFilm | NoHeadFilm {
  const { bundle, prior, names } = fitted;
  // The rests have done their part: frame by frame the rim is where it is seen.
  const shared: SharedState = { ...bundle.shared, rests: [] };
  const traced = film.trace.frames;
  const states: (FrameState | null)[] = [];
  const seenOf: (FrameSeen | null)[] = [];
  let last: FrameState = bundle.frames[0]!;
  for (const [i, frame] of traced.entries()) {
    const counted = names.filter((name) => frame.points[name]).length;
    const seen = frame.rim && counted >= FEWEST_LANDMARKS ? frameSeen(film.trace, i, fitted) : null;
    const fit = seen ? fitFrame(seen, last, shared) : null;
    if (fit) last = fit;
    const state = seen && fit && agreeing(seen, fit, shared) >= FEWEST_LANDMARKS ? fit : null;
    states.push(state);
    seenOf.push(state ? seen : null);
  }
  const blocks = blocksOf(film.steady, traced.length);
  const { times: marksTimes, alike } = marksScatter(seenOf, states, shared, blocks);
  const rimAlike = depthsAlike(states, film.steady ?? []);
  const spacing = Math.max(1, (fitted.indices.at(-1)! - fitted.indices[0]!) / Math.max(1, fitted.indices.length - 1));
  const longRun = (each: number): number => (1 + each ** spacing) / (1 - each ** spacing);
  const information = informationOf(prior, fitted.seen, bundle, { marks: Math.sqrt(marksTimes * longRun(alike)), rim: Math.sqrt(longRun(rimAlike)), ...fitted.toldTimes });
  const unknowns = sharedSize(fitted.spots.spots.length, shared.radiiMm.length);
  const sharedErrors = unknowns + hornErrors(film.trace);
  const covariance = information && sharedCovariance(prior, information, unknowns, sharedErrors);
  if (!covariance) return { kind: 'not-found', reason: 'not-settled' };
  const squares = fitted.seen.flatMap((frame, i) => residualsOf(frame, bundle.frames[i]!, shared).map(({ x, y }) => x * x + y * y));
  return {
    kind: 'found',
    frames: states.map((state, i) => (state ? headFrame(seenOf[i]!, state, shared, fitted.axes(i), {
      unknowns, sharedErrors, marksTimes, radiusTimes: fitted.toldTimes.radius, hornErrorAt: (error) => hornErrorAt(film.trace, error, traced[i]!.timeS),
    }) : null)),
    covariance,
    sharedErrors,
    alike,
    marksTimes,
    rimAlike,
    landmarks: names,
    setAside: fitted.setAside,
    noiseTimes: fitted.noiseTimes,
    rimTimes: fitted.rimTimes,
    handMm: fitted.spots.spots.some(({ again }) => again) ? fitted.handMm : null,
    residualPx: Math.sqrt(squares.reduce((sum, each) => sum + each, 0) / squares.length),
    iterations: bundle.iterations,
    fitted: shared,
  };
}

/** Of the shared unknowns the first `size`, with the marks' own errors up to `whole`, which are told in deviations already. */
function sharedCovariance(prior: SharedPrior, information: Float64Array, size: number, whole: number): Float64Array | null {
  const inverse = invertSymmetric(information.map((each, i) => each + prior.information[i]!), prior.size);
  if (!inverse) return null;
  const covariance = new Float64Array(whole * whole);
  for (let j = 0; j < size; j++) for (let k = 0; k < size; k++) covariance[j * whole + k] = inverse[j * prior.size + k]!;
  for (let j = size; j < whole; j++) covariance[j * (whole + 1)] = 1;
  return covariance;
}
