/**
 * Follows everything a person marked through a film: the head's landmarks, the rim, the horn. Frames come once, in the film's order, from
 * the first marked frame on; what lies before that comes afterwards in blocks, turned round. Each frame is compared with the nearest
 * marked frame before it (before the first: with the first), never with its neighbour, so that nothing drifts.
 */
import { type FollowedPoint, followPoint, isLoose, LARGER, roomFor, seekLost, seekPoint, settlePoint, tracedPoint } from './followedPoint';
import { type GroupStep, type Pair, middle, stepBetween, stepOf, stepped } from './groupStep';
import { type GuidePoint, type HeadGuide, headGuide } from './headGuide';
import { markedEllipse, markedPlaces, SAME_TIME_S } from './markedAgain';
import { type LandmarkName, LANDMARK_NAMES, type PictureMarks, type ViewFrom } from './marks';
import type { PatchAnswer, PatchPose } from './patchTracker';
import type { GreyPicture, Point } from './picture';
import { createPyramid, fillPyramid, type Region } from './pyramid';
import { type RimAnswer, type RimSize, type RimTemplate, cutRim, isOpen, searchRim, trackRim } from './rimTracker';
import { type RidingRim, riddenTo, rideOn } from './ridingRim';
import type { RimEllipse, TracedFrame, TracedName, TracedPoint } from './traces';

export interface FilmAnchor {
  /** The marked frame's own time, s: the first frame that is not earlier (to `SAME_TIME_S`) is taken for it. */
  readonly timeS: number;
  /** Marks that are absent go on from the anchor before. */
  readonly marks: PictureMarks;
}

export interface FilmTrackerSettings {
  readonly view: ViewFrom;
  /** One or more, in any order. */
  readonly anchors: readonly FilmAnchor[];
  readonly rim: RimSize;
}

export interface TimedFrame {
  readonly frame: GreyPicture;
  readonly timeS: number;
}

export interface FilmTracker {
  readonly view: ViewFrom;
  readonly firstAnchorS: number;
  /** Marked, but not to be followed: too near the picture's edge, all of one brightness, or no ellipse. Filled as the anchors' frames come by. */
  readonly notFollowed: readonly (TracedName | 'rim')[];
  /** Frames in the order of their times. null before the first anchor: they come by `followBlockBackward`. Throws RangeError for a time that does not rise. */
  followForward(frame: GreyPicture, timeS: number): TracedFrame | null;
  /**
   * Frames before the first anchor, latest first; the next call goes on where this one ended. Answers in the order given. Only after the
   * first anchor's frame has come by `followForward`. A film is decoded forward only: decode, say, 30 frames that end at the
   * first anchor, hand them over turned round, then the 30 before. Throws RangeError for a time that does not fall.
   */
  followBlockBackward(block: readonly TimedFrame[]): TracedFrame[];
}

/** Throws RangeError without an anchor, for two anchors at one time, a time that is not a number, or a rim that has no metal. */
export function createFilmTracker({ view, anchors, rim }: FilmTrackerSettings): FilmTracker {
  const waiting = checkAnchors(anchors);
  if (!(rim.innerDiameterMm > 0 && rim.innerDiameterMm < rim.outerDiameterMm)) {
    throw new RangeError(`createFilmTracker: rim.innerDiameterMm ${rim.innerDiameterMm}; allowed: over 0, below outerDiameterMm ${rim.outerDiameterMm}`);
  }
  const firstAnchorS = waiting[0]!.timeS;
  const notFollowed: (TracedName | 'rim')[] = [];
  const frames = createPyramid(LEVELS);
  const forward: Followed = { points: [], rim: null, riding: null, pxPerMm: null };
  let backward: Followed | null = null;
  let backwardS = Infinity;
  let forwardS = -Infinity;

  return {
    view,
    firstAnchorS,
    notFollowed,
    followForward(frame, timeS) {
      if (!(timeS > forwardS)) throw new RangeError(`followForward: timeS ${timeS}; allowed: over the last frame's ${forwardS}`);
      forwardS = timeS;
      if (timeS < firstAnchorS - SAME_TIME_S) return null;
      while (waiting.length > 0 && timeS >= waiting[0]!.timeS - SAME_TIME_S) {
        markAgain(forward, waiting.shift()!.marks, frame, { rim, view }, notFollowed);
        if (!backward) {
          backward = startAgain(forward);
          backwardS = timeS;
        }
      }
      return followFrame(forward, frames, frame, timeS);
    },
    followBlockBackward(block) {
      if (!backward) throw new RangeError('followBlockBackward: no anchor yet; allowed: after followForward was given the first anchor\'s frame');
      const followed = backward;
      return block.map(({ frame, timeS }) => {
        if (!(timeS < backwardS)) throw new RangeError(`followBlockBackward: timeS ${timeS}; allowed: under the frame's before it, ${backwardS}`);
        backwardS = timeS;
        return followFrame(followed, frames, frame, timeS);
      });
    },
  };
}

/** Full size to an eighth. */
const LEVELS = 4;
/** Half a side of a point's patch: a part of the rim's semi-major axis, or of the picture's height where no rim is marked; and its bounds, px. */
const HALF_OF_RIM = 0.11;
const HALF_OF_HEIGHT = 1 / 60;
const LEAST_HALF_PX = 8;
const MOST_HALF_PX = 24;
/**
 * A mark on the horn is held by the outline of what is marked (a tube, a ring, a bead), wider than what is marked of a face: this many halves, or the next that fit into the picture.
 * From the front, where the horn points at the camera, only the whole outline holds still; along a tube seen from the side a wide patch would hold on to its rings.
 */
const HORN_HALVES = { front: [2.4, 1.8], other: [2.7, 1.8] } as const;
/**
 * How far a marked place is off by its own relief, parts of a half side, measured on films with known truth (docs/numerics.md §19): most where
 * the horn points at the camera, and more where the patch had to be narrower than it should.
 */
const RELIEF = {
  head: { part: 0.012, unlike: 16 },
  horn: { part: 0.045, unlike: 16 },
  hornFront: { part: 0.2, unlike: 30 },
} as const;
/** A wide patch is only taken where it can still move before it leaves the picture, in half sides to the picture's edge. */
const ROOM_TO_MOVE = 1.5;
/** A point that leaves the way of the others by this much from one frame to the next is not itself (a lid, a finger), half sides of a patch. */
const ASTRAY_HALVES = 0.25;
/** A point so many deviations from where the others take it has slipped. */
const UNLIKELY_TIMES = 4;
/** How far a lost rim is searched, parts of its semi-major axis. */
const RIM_SEARCH = { first: 0.3, perFrame: 0.05, most: 1 } as const;
const HEAD_NAMES: readonly TracedName[] = [...LANDMARK_NAMES, 'level-back', 'level-front'];

interface FollowedRim {
  readonly template: RimTemplate;
  pose: PatchPose;
  stepX: number;
  stepY: number;
  lostFrames: number;
  answer: (RimAnswer & { found: true }) | null;
}

interface Followed {
  points: FollowedPoint[];
  rim: FollowedRim | null;
  /** Instead of `rim`, where it is seen from its edge. */
  riding: RidingRim | null;
  /** On the face, from the front: by the marked rim. */
  pxPerMm: number | null;
}

function checkAnchors(anchors: readonly FilmAnchor[]): FilmAnchor[] {
  if (anchors.length === 0) throw new RangeError('createFilmTracker: anchors is empty; allowed: one marked frame or more');
  for (const { timeS } of anchors) {
    if (!Number.isFinite(timeS)) throw new RangeError(`createFilmTracker: anchor at ${timeS} s; allowed: a finite time`);
  }
  const sorted = anchors.toSorted((one, other) => one.timeS - other.timeS);
  const twice = sorted.find(({ timeS }, place) => place > 0 && timeS - sorted[place - 1]!.timeS < SAME_TIME_S);
  if (twice) throw new RangeError(`createFilmTracker: two anchors at ${twice.timeS} s; allowed: one a frame`);
  return sorted;
}

/** What was marked in this frame is followed from here on by its looks in it. */
function markAgain(followed: Followed, marks: PictureMarks, frame: GreyPicture, { rim: size, view }: Pick<FilmTrackerSettings, 'rim' | 'view'>, notFollowed: (TracedName | 'rim')[]): void {
  const ellipse = markedEllipse(marks);
  // Too few points to begin with; where it is followed already they change nothing, and it goes on.
  if (marks.rim && !ellipse && !followed.rim && !followed.riding) notFollowed.push('rim');
  const rimPx = ellipse?.semiMajorPx ?? followed.rim?.template.whole.radiusPx;
  const halfPx = Math.round(Math.max(LEAST_HALF_PX, Math.min(MOST_HALF_PX, rimPx ? HALF_OF_RIM * rimPx : HALF_OF_HEIGHT * frame.height)));
  const hornHalves = view === 'front' ? HORN_HALVES.front : HORN_HALVES.other;
  const places = markedPlaces(marks);
  const marked = createPyramid(LEVELS);
  fillPyramid(marked, frame, regionAround([...places.values()], ellipse, roomFor(Math.max(hornHalves[0], LARGER.at(-1)!) * halfPx)));
  if (ellipse && view === 'front') followed.pxPerMm = (2 * ellipse.semiMajorPx) / size.outerDiameterMm;
  for (const point of followed.points) point.anchored = point.pose;
  for (const [name, place] of places) {
    followed.points = followed.points.filter((point) => point.name !== name);
    const edgePx = Math.min(place.x, place.y, frame.width - place.x, frame.height - place.y);
    const onHead = HEAD_NAMES.includes(name);
    const halves = onHead ? 1 : (hornHalves.find((one) => one * halfPx * ROOM_TO_MOVE <= edgePx) ?? hornHalves.at(-1)!);
    const { part, unlike } = onHead ? RELIEF.head : view === 'front' ? RELIEF.hornFront : RELIEF.horn;
    const px = part * halfPx * (onHead ? 1 : hornHalves[0] / halves);
    const point = followPoint(name, place, marked, Math.round(halves * halfPx), { px, unlike }, onHead);
    if (point) followed.points.push(point);
    else notFollowed.push(name);
  }
  if (!ellipse) return;
  followed.riding = !isOpen(ellipse) && marks.horn ? rideOn(ellipse, marks.horn) : null;
  const template = isOpen(ellipse) ? cutRim(marked, ellipse, size) : null;
  if (!template && !followed.riding) notFollowed.push('rim');
  followed.rim = template && {
    template,
    pose: { x: template.ellipse.x, y: template.ellipse.y, a: 1, b: 0 },
    stepX: 0,
    stepY: 0,
    lostFrames: 0,
    answer: null,
  };
}

/** The same templates at their marked places, for the way back to the film's beginning. */
function startAgain({ points, rim, riding, pxPerMm }: Followed): Followed {
  return { points: points.map((point) => ({ ...point })), rim: rim && { ...rim }, riding, pxPerMm };
}

function followFrame(followed: Followed, frames: ReturnType<typeof createPyramid>, frame: GreyPicture, timeS: number): TracedFrame {
  const { points, rim } = followed;
  const widest = Math.max(0, ...points.map(({ patch }) => patch.radiusPx));
  const rimNow = rim && ellipseAt(rim);
  fillPyramid(frames, frame, regionAround(points.map(({ pose }) => pose), rimNow, roomFor(widest)));
  const head = points.filter(({ name }) => HEAD_NAMES.includes(name));
  const horn = points.filter(({ name }) => !HEAD_NAMES.includes(name));
  const headStep = followGroup(head, frames, null, followed.pxPerMm);
  const rimStep = rim && followRim(rim, frames, headStep);
  followGroup(horn, frames, rimStep ?? headStep, null);
  const traced: Partial<Record<TracedName, TracedPoint>> = {};
  for (const point of points) {
    const place = tracedPoint(point);
    if (place) traced[point.name] = place;
  }
  const rimTraced = followed.riding ? riddenTo(followed.riding, traced['horn-near'], traced['horn-far']) : (rim?.answer?.rim ?? null);
  return { timeS, rim: rimTraced, points: traced };
}

/** Tracks all points of a group, then searches the lost ones where the others' (or, of none, the `leading` group's) motion brings them. */
function followGroup(points: readonly FollowedPoint[], frames: ReturnType<typeof createPyramid>, leading: GroupStep | null, pxPerMm: number | null): GroupStep {
  const waits = points.map((point) => pxPerMm !== null && isLoose(point));
  const answers = points.map((point, place) => (point.lostFrames > 0 || waits[place] ? null : foundOf(seekPoint(point, frames))));
  dropStray(points, answers);
  if (pxPerMm !== null) {
    dropUnlikely(points, answers, pxPerMm);
    const firm = guideOf(points, answers, pxPerMm);
    points.forEach((point, place) => {
      if (!waits[place] || point.lostFrames > 0) return;
      answers[place] = foundOf(seekPoint(point, frames, firm?.expect(point.name as LandmarkName, point.anchored)));
    });
    dropUnlikely(points, answers, pxPerMm);
  }
  const guide = pxPerMm === null ? null : guideOf(points, answers, pxPerMm);
  const pairs: Pair[] = [];
  points.forEach((point, place) => {
    const answer = answers[place];
    if (answer) pairs.push({ before: point.pose, after: answer.pose });
  });
  const step = leading ?? stepOf(pairs);
  points.forEach((point, place) => {
    const expected = guide?.expect(point.name as LandmarkName, point.anchored) ?? stepped(point.pose, step);
    let answer = answers[place] ?? seekLost(point, frames, expected);
    if (answer && guide && !answers[place] && timesOff(point, answer, guide) > UNLIKELY_TIMES) answer = null;
    settlePoint(point, answer, expected);
  });
  return step;
}

/** The points that have been found so far, but for one of them, lead the others. */
function guideOf(points: readonly FollowedPoint[], answers: readonly (Found | null)[], pxPerMm: number, without = -1): HeadGuide | null {
  const held = points.flatMap(({ name, anchored }, place): GuidePoint[] => {
    const answer = answers[place];
    if (!answer || place === without) return [];
    const { xx, yy } = answer.covariance;
    return [{ name: name as LandmarkName, marked: anchored, now: answer.pose, sdPx: Math.sqrt((xx + yy) / 2) }];
  });
  return headGuide(held, pxPerMm);
}

/** What was found where the other points cannot have taken it is something else: a cheek's outline before the wall, a lid, a strand of hair. The worst first, and the others asked anew. */
function dropUnlikely(points: readonly FollowedPoint[], answers: (Found | null)[], pxPerMm: number): void {
  for (;;) {
    let worst = -1;
    let most: number = UNLIKELY_TIMES;
    points.forEach((point, place) => {
      const answer = answers[place];
      const guide = answer && guideOf(points, answers, pxPerMm, place);
      const off = answer && guide ? timesOff(point, answer, guide) : 0;
      if (off > most) [most, worst] = [off, place];
    });
    if (worst < 0) return;
    answers[worst] = null;
  }
}

/** How many deviations a found place lies from where the guide expects it. */
function timesOff({ name, anchored }: FollowedPoint, { pose, covariance: { xx, yy } }: Found, guide: HeadGuide): number {
  const expected = guide.expect(name as LandmarkName, anchored);
  return Math.hypot(pose.x - expected.x, pose.y - expected.y) / Math.hypot(expected.sdPx, Math.sqrt((xx + yy) / 2));
}

type Found = PatchAnswer & { readonly found: true };

const foundOf = (answer: PatchAnswer): (PatchAnswer & { found: true }) | null => (answer.found ? answer : null);

/** Points that left their own way unlike most others: of three or more, since two cannot outvote one. */
function dropStray(points: readonly FollowedPoint[], answers: ((PatchAnswer & { found: true }) | null)[]): void {
  const offs = points.map((point, place) => {
    const pose = answers[place]?.pose;
    return pose ? { x: pose.x - point.pose.x - point.stepX, y: pose.y - point.pose.y - point.stepY } : null;
  });
  const seen = offs.filter((off) => off !== null);
  if (seen.length < 3) return;
  const commonX = middle(seen.map(({ x }) => x));
  const commonY = middle(seen.map(({ y }) => y));
  offs.forEach((off, place) => {
    if (off && Math.hypot(off.x - commonX, off.y - commonY) > ASTRAY_HALVES * points[place]!.patch.radiusPx) answers[place] = null;
  });
}

function followRim(rim: FollowedRim, frames: ReturnType<typeof createPyramid>, headStep: GroupStep): GroupStep {
  const { template, lostFrames } = rim;
  const sizePx = template.whole.radiusPx;
  const before = rim.pose;
  const carried = stepped(before, headStep);
  let answer: RimAnswer =
    lostFrames === 0
      ? trackRim(template, frames, { ...before, x: before.x + rim.stepX, y: before.y + rim.stepY })
      : { found: false, reason: 'unlike' };
  if (!answer.found) {
    const part = Math.min(RIM_SEARCH.most, RIM_SEARCH.first + RIM_SEARCH.perFrame * lostFrames);
    answer = searchRim(template, frames, carried, part * sizePx);
  }
  if (!answer.found) {
    rim.answer = null;
    rim.pose = carried;
    rim.stepX = rim.stepY = 0;
    rim.lostFrames += 1;
    return headStep;
  }
  const fresh = lostFrames === 0 && rim.answer !== null;
  rim.stepX = fresh ? answer.pose.x - before.x : 0;
  rim.stepY = fresh ? answer.pose.y - before.y : 0;
  rim.lostFrames = 0;
  rim.answer = answer;
  rim.pose = answer.pose;
  return stepBetween({ before, after: answer.pose });
}

function ellipseAt({ template, pose }: FollowedRim): RimEllipse {
  const sizePx = template.whole.radiusPx;
  return { centre: { x: pose.x, y: pose.y }, semiMajorPx: sizePx, semiMinorPx: sizePx, angleRad: 0 };
}

function regionAround(places: readonly Point[], ellipse: RimEllipse | null, roomPx: number): Region {
  const left = Math.min(...places.map(({ x }) => x)) - roomPx;
  const right = Math.max(...places.map(({ x }) => x)) + roomPx;
  const top = Math.min(...places.map(({ y }) => y)) - roomPx;
  const bottom = Math.max(...places.map(({ y }) => y)) + roomPx;
  if (!ellipse) return { left, top, right, bottom };
  const { centre: { x, y }, semiMajorPx } = ellipse;
  const reach = 2 * semiMajorPx + RIM_ROOM_PX;
  return { left: Math.min(left, x - reach), top: Math.min(top, y - reach), right: Math.max(right, x + reach), bottom: Math.max(bottom, y + reach) };
}

/** Beside the largest search for a rim: what its edge's normals need, px. */
const RIM_ROOM_PX = 24;

