/**
 * What the marks of pictures say of rim and horn: millimetres and degrees with one standard deviation each, or why not. Pictures from the
 * front by one lens are solved together, as frames of a film are: head, lens and rim are the same in all, and travel is between two of them.
 */
import type { RimSpec } from '../core/specs';
import { type EllipseFit, type EllipseRefusal, fitEllipse } from './ellipseFit';
import { FEWEST_ON_GENERIC_SHAPE, findHeadPose } from './headPose';
import { type HeadFrame, MEASURED } from './headFrame';
import { type HeadFilm, type NoHeadFilm, headFromFilm } from './headFromFilm';
import { HAND_SD_PX, SPOT_SD_MM } from './headShape';
import type { AngleRefusal } from './hornAngles';
import { LANDMARK_NAMES, type CameraSpec, type PictureMarks, type ViewFrom } from './marks';
import { type SharesRefusal, sharesSeen } from './placementSeen';
import type { Point } from './picture';
import { readPlace } from './rimPlaces';
import { angleSeen } from './squareLines';
import type { TracedFrame, TracedPoint, TracedRim } from './traces';

export interface MarkedPicture {
  readonly view: ViewFrom;
  readonly marks: PictureMarks;
  readonly camera: CameraSpec;
}

export interface KnownAngle {
  readonly deg: number;
  readonly sdDeg: number;
}

/** The upper lip's part, in each of the share's three meanings. */
export interface KnownShare {
  readonly diameter: { readonly value: number; readonly sd: number };
  readonly arc: { readonly value: number; readonly sd: number };
  readonly area: { readonly value: number; readonly sd: number };
}

/** From the home picture's rim to this one's, people's signs. */
export interface PictureTravel {
  readonly upMm: number;
  readonly rightMm: number;
  /** Of `upMm`. */
  readonly sdMm: number;
  readonly rightSdMm: number;
}

export type PictureProblem =
  | { readonly kind: 'rim-points'; readonly have: number; readonly need: number }
  | { readonly kind: 'rim'; readonly reason: EllipseRefusal['reason'] }
  | { readonly kind: 'head-points'; readonly have: number; readonly need: number }
  | { readonly kind: 'head'; readonly reason: 'sides-exchanged' | 'not-settled' }
  | { readonly kind: 'line-missing'; readonly line: 'horn' | 'level' }
  | { readonly kind: 'angle'; readonly reason: AngleRefusal['reason'] | 'two-fold' }
  | { readonly kind: 'share'; readonly reason: SharesRefusal['reason'] }
  /** The home picture was taken by another lens, in another size, or its own place is not known. */
  | { readonly kind: 'home-apart' };

export interface PictureResult {
  readonly ellipse: TracedRim | null;
  readonly share: KnownShare | null;
  readonly elevation: KnownAngle | null;
  readonly lateral: KnownAngle | null;
  /** null also where no picture is home. */
  readonly travel: PictureTravel | null;
  readonly problems: readonly PictureProblem[];
}

export type MeasuredRim = Pick<RimSpec, 'outerDiameterMm' | 'innerDiameterMm'>;

/** `home`: which of the pictures travel is counted from; null: none. What is missing or cannot be told stands in `problems`; throws only for numbers that are none. */
export function resultsOf(pictures: readonly MarkedPicture[], rim: MeasuredRim, home: number | null): readonly PictureResult[] {
  const fits = pictures.map(({ marks: { rim: points = [] } }) => (points.length < RIM_POINTS_NEEDED ? null : fitEllipse(points)));
  const heads = solvedTogether(pictures, fits, rim);
  return pictures.map((picture, index): PictureResult => {
    const fit = fits[index] ?? null;
    const ellipse = fit?.kind === 'fitted' ? tracedRim(fit) : null;
    const share = shareOf(picture, fit, rim);
    const base = { ellipse, ...share };
    if (picture.view === 'front') return withFront(base, picture, fit, heads[index] ?? null, home === null ? null : (heads[home] ?? null));
    return withSideLines(base, picture.view, picture);
  });
}

/** The rim's ellipse alone, quick enough for every step of a hand; null where the points tell none. */
export function rimEllipse({ rim = [] }: Pick<PictureMarks, 'rim'>): TracedRim | null {
  const fit = rim.length < RIM_POINTS_NEEDED ? null : fitEllipse(rim);
  return fit?.kind === 'fitted' ? tracedRim(fit) : null;
}

export const NOTHING_KNOWN: PictureResult = { ellipse: null, share: null, elevation: null, lateral: null, travel: null, problems: [] };

const RIM_POINTS_NEEDED = 5;
/** How well a rim's outer diameter is known, mm: a caliper's reading, or a maker's figure, rounded. */
export const DIAMETER_SD_MM = 0.1;

type Fit = ReturnType<typeof fitEllipse> | null;
type Base = Pick<PictureResult, 'ellipse' | 'share' | 'problems'>;

interface SolvedHead {
  readonly film: HeadFilm | NoHeadFilm;
  /** Which of the film's frames the picture is. */
  readonly at: number;
  /** Whether its landmarks lie as a head's do: a pose goes by the few that happen to fit where the others are anywhere. */
  readonly isHead: boolean;
}

/** For each picture the head it was solved with; null where it has no rim to solve for, or is not from the front. */
function solvedTogether(pictures: readonly MarkedPicture[], fits: readonly Fit[], rim: MeasuredRim): readonly (SolvedHead | null)[] {
  const groups = new Map<string, number[]>();
  pictures.forEach((picture, index) => {
    if (picture.view !== 'front' || fits[index]?.kind !== 'fitted' || landmarkCount(picture) === 0) return;
    const key = JSON.stringify([picture.camera, picture.marks.hornMarkMm ?? null]);
    groups.set(key, [...(groups.get(key) ?? []), index]);
  });
  const heads: (SolvedHead | null)[] = pictures.map(() => null);
  for (const indices of groups.values()) {
    const { camera, marks } = pictures[indices[0]!]!;
    const frames = indices.map((index, at) => frameOf(pictures[index]!, tracedRim(fits[index] as EllipseFit), at, rim));
    const film = headFromFilm({
      trace: { view: 'front', frames },
      camera,
      rimDiameterMm: { value: rim.outerDiameterMm, sd: DIAMETER_SD_MM },
      hornMarkMm: marks.hornMarkMm,
    });
    indices.forEach((index, at) => (heads[index] = { film, at, isHead: lieAsOnHead(camera, frames[at]!) }));
  }
  return heads;
}

/** Sum of the weights of landmarks that lie as a head's do: *measured* 3.9 or more on 160 drawn heads turned by 5° SD, 3.41 or less for 160 times as many places anywhere. */
const LEAST_TOGETHER = 3.65;

function lieAsOnHead(camera: CameraSpec, { points }: TracedFrame): boolean {
  const pose = findHeadPose(camera, points);
  return pose.kind === 'found' && Object.values(pose.weights).reduce((sum, weight) => sum + weight, 0) >= LEAST_TOGETHER;
}

function frameOf({ marks }: MarkedPicture, rim: TracedRim, at: number, { outerDiameterMm }: MeasuredRim): TracedFrame {
  const landmarkSdPx = Math.hypot(HAND_SD_PX, (SPOT_SD_MM * 2 * rim.semiMajorPx) / outerDiameterMm);
  const point = (place: Point, sdPx: number): TracedPoint => ({ x: place.x, y: place.y, sdPx });
  const points: TracedFrame['points'] = {
    ...Object.fromEntries(Object.entries(marks.landmarks).map(([name, place]) => [name, point(place, landmarkSdPx)])),
    ...(marks.horn !== undefined && { 'horn-near': point(marks.horn.from, HAND_SD_PX), 'horn-far': point(marks.horn.to, HAND_SD_PX) }),
  };
  return { timeS: at, rim, points };
}

function withFront(base: Base, picture: MarkedPicture, fit: Fit, head: SolvedHead | null, home: SolvedHead | null): PictureResult {
  const problems: PictureProblem[] = [...base.problems];
  const nothing = { ...base, elevation: null, lateral: null, travel: null };
  if (fit === null) problems.push({ kind: 'rim-points', have: picture.marks.rim?.length ?? 0, need: RIM_POINTS_NEEDED });
  else if (fit.kind === 'refused') problems.push({ kind: 'rim', reason: fit.reason });
  const have = landmarkCount(picture);
  if (have < FEWEST_ON_GENERIC_SHAPE) problems.push({ kind: 'head-points', have, need: FEWEST_ON_GENERIC_SHAPE });
  if (head === null) return { ...nothing, problems };
  const { film, at } = head;
  if (film.kind === 'not-found') {
    // Enough were marked: those that go together as a head's are too few.
    if (film.reason !== 'too-few-landmarks') problems.push({ kind: 'head', reason: film.reason });
    else if (have >= FEWEST_ON_GENERIC_SHAPE) problems.push({ kind: 'head', reason: 'not-settled' });
    return { ...nothing, problems };
  }
  const frame = film.frames[at] ?? null;
  if (frame === null || !head.isHead) {
    if (have >= FEWEST_ON_GENERIC_SHAPE) problems.push({ kind: 'head', reason: 'not-settled' });
    return { ...nothing, problems };
  }
  const own = readPlace(film, [at], [[at]]);
  const elevation = own.kind === 'read' ? own.elevation : null;
  const lateral = own.kind === 'read' ? own.lateral : null;
  if (picture.marks.horn === undefined) problems.push({ kind: 'line-missing', line: 'horn' });
  else if (elevation === null) problems.push({ kind: 'angle', reason: 'two-fold' });
  const travel = home === null ? null : travelFrom(home, head, frame);
  if (home !== null && travel === null) problems.push({ kind: 'home-apart' });
  return { ...base, elevation, lateral, travel, problems };
}

function travelFrom(home: SolvedHead, { film, at }: SolvedHead, frame: HeadFrame): PictureTravel | null {
  if (home.film !== film || film.kind === 'not-found' || !home.isHead) return null;
  // Home itself has no travel, by what home means; its own marks are as unsure as any other's.
  const ownSd = (k: number): number => Math.sqrt(frame.noise[k * (MEASURED + 1)]! + frame.rimNoise[k * (MEASURED + 1)]!);
  if (home.at === at) return { upMm: 0, rightMm: 0, sdMm: ownSd(1), rightSdMm: ownSd(0) };
  const read = readPlace(film, [at], [[home.at]]);
  if (read.kind === 'not-read') return null;
  const { upMm, rightMm, upSdMm, rightSdMm } = read.travel;
  return { upMm, rightMm, sdMm: upSdMm, rightSdMm };
}

function withSideLines(base: Base, view: Exclude<ViewFrom, 'front'>, { camera, marks: { horn, level } }: MarkedPicture): PictureResult {
  const nothing = { ...base, elevation: null, lateral: null, travel: null };
  const missing: PictureProblem[] = [
    ...(horn === undefined ? [{ kind: 'line-missing', line: 'horn' } as const] : []),
    ...(level === undefined ? [{ kind: 'line-missing', line: 'level' } as const] : []),
  ];
  if (horn === undefined || level === undefined) return { ...nothing, problems: [...base.problems, ...missing] };
  const seen = angleSeen(horn, level, view, camera);
  if (seen.kind === 'refused') return { ...nothing, problems: [...base.problems, { kind: 'angle', reason: seen.reason }] };
  return { ...nothing, [seen.angle]: { deg: seen.deg, sdDeg: seen.sdDeg } };
}

function shareOf({ marks: { lipLine, landmarks } }: MarkedPicture, fit: Fit, rim: MeasuredRim): Pick<PictureResult, 'share' | 'problems'> {
  if (lipLine === undefined || fit?.kind !== 'fitted') return { share: null, problems: [] };
  const shares = sharesSeen(fit.ellipse, lipLine, rim, { covariance: fit.formCovariance, landmarks });
  if (shares.kind === 'refused') return { share: null, problems: [{ kind: 'share', reason: shares.reason }] };
  const { diameter, arc, area } = shares;
  return { share: { diameter, arc, area }, problems: [] };
}

const landmarkCount = ({ marks: { landmarks } }: MarkedPicture): number => LANDMARK_NAMES.filter((name) => landmarks[name] !== undefined).length;

/** One deviation for both directions of the centre and one for both axes: the larger of each. */
function tracedRim({ ellipse, covariance }: EllipseFit): TracedRim {
  const sd = (index: number): number => Math.sqrt(covariance[index]![index]!);
  return { ...ellipse, centreSdPx: Math.max(sd(0), sd(1)), axesSdPx: Math.max(sd(2), sd(3)) };
}
