/** One marked point on its way through a film: where it was last, how it moves, how alike it usually is. */
import { cutPatch, type Patch } from './patch';
import { mainDeviations, type PatchAnswer, type PatchPose, searchPatch, surroundingsCorrelation, trackPatch, wayBackPx } from './patchTracker';
import type { Point } from './picture';
import type { Pyramid } from './pyramid';
import type { TracedName, TracedPoint } from './traces';

/** `px` where it looks as marked; what looks less alike is off by more, times 1 + `unlike` × (1 − correlation). */
export interface Relief {
  readonly px: number;
  readonly unlike: number;
}

export interface FollowedPoint {
  readonly name: TracedName;
  readonly patch: Patch;
  /** The frame it was marked in. */
  readonly marked: Pyramid;
  /** What is marked is no flat sheet: as it turns, its parts shift apart. Deviation of the place by that. */
  readonly relief: Relief;
  /** Where it was in the last frame, or (lost) where it would have been. */
  pose: PatchPose;
  /** What it moved by then, px a frame. */
  stepX: number;
  stepY: number;
  /** Mean correlation where it was found, the marked frame left out; null before. */
  usualCorrelation: number | null;
  /** Frames in which it was found, the marked one among them. */
  foundFrames: number;
  /** Where it was in the last frame in which anything was marked. */
  anchored: Point;
  /** Frames since it was found last; 0: found in the last frame. */
  lostFrames: number;
  /** The last frame's answer; null: lost. */
  found: (PatchAnswer & { readonly found: true }) | null;
}

/** A patch with more than this to half a side is compared at half of the picture's size, px: it has pixels enough. */
const HALF_SIZE_FROM_PX = 18;
/** Whatever the usual correlation, below this it is lost. */
const LEAST_CORRELATION = 0.4;
/** A fall of the correlation by this, and by as many times what it usually lacks to 1, is a blink, a hand or another thing. */
const FALL = 0.12;
const FALL_TIMES = 2;
/** Least weight of a new frame in the usual correlation: a head that turns slowly may look different by and by. */
const NEW_WEIGHT = 0.05;
/** What is textured more than this, grey levels squared a pixel without even slopes, is taken as it is: it is better held with them. */
const TEXTURED_GREY2 = 60;
/** Skin as smooth as this, grey levels squared a pixel without even slopes, holds no small patch: a larger one is cut, these times as large, as far as needed. */
const SMOOTH_GREY2 = 40;
export const LARGER = [1, 1.5, 2.2, 3.2, 4.4] as const;
/** … but none whose texture is so many times stronger than the small one's, and by so much: the head's outline or hair has come in, which moves otherwise. */
const OTHER = { times: 2, grey2: 16 } as const;
/** Furthest from the expected place, in half sides of the patch. */
const FURTHEST_HALVES = 3;
/** A small patch finds something like itself by chance; in doubt it is only taken amid surroundings that are this much like the marked ones. */
const LEAST_AROUND = 0.5;
/** After this many lost frames, a point is taken again only if it also leads back. */
const SURE_FRAMES = 3;
/** Where a found place must lead back to, px from the mark, started this far beside it. */
const BACK_PX = 0.7;
const BACK_START_PX = 1.5;
/** Radius of the search for a lost point: at first, and more for every lost frame, half sides of the patch; and at most, px. */
const SEARCH_HALVES = { first: 1, perFrame: 0.5 } as const;
const MOST_SEARCH_PX = 48;
/** The coarsest template: half a side in its own pixels and their size, px. */
const COARSE = { half: 8, level: 2 } as const;
/** Light that changes may mislead a loose point by more than this, px. */
const LOOSE_PX = 1;
/** Along a straight edge a point is known this many times worse than across it, and worse than this, px: it may slide. */
const SLIDES_TIMES = 3;
const SLIDES_PX = 0.5;

/** `larger`: on a head, where a larger patch is cut if the skin is smooth. null where its surroundings lie outside the picture or are all of one brightness. */
export function followPoint(name: TracedName, place: Point, marked: Pyramid, halfPx: number, relief: Relief, larger = false): FollowedPoint | null {
  let patch: Patch | null = null;
  let smallest: number | null = null;
  for (const times of larger ? LARGER : [1]) {
    const next = cutPoint(marked, place, Math.round(times * halfPx), true);
    if (next === null || (smallest !== null && contrastOf(next) > OTHER.times * smallest + OTHER.grey2)) break;
    patch = next;
    smallest ??= contrastOf(patch);
    if (contrastOf(patch) >= SMOOTH_GREY2) break;
  }
  if (larger && smallest !== null && smallest >= TEXTURED_GREY2) patch = cutPoint(marked, place, halfPx, false);
  if (!patch) return null;
  const pose = { x: place.x, y: place.y, a: 1, b: 0 };
  return { name, patch, marked, relief, pose, stepX: 0, stepY: 0, usualCorrelation: null, foundFrames: 0, anchored: place, lostFrames: 0, found: null };
}

function cutPoint(marked: Pyramid, place: Point, halfPx: number, withoutSlopes: boolean): Patch | null {
  return cutPatch(marked, place, { halfPx, withoutSlopes, coarseHalf: COARSE.half, levels: halfPx > HALF_SIZE_FROM_PX ? [COARSE.level, 1] : [COARSE.level, 1, 0] });
}

function contrastOf({ levels }: Patch): number {
  const { energy, count } = levels[levels.length - 1]!;
  return energy / count;
}

/** What has to be at hand round a point's last place, px: the largest search or the longest step, and its patches beside that. */
export function roomFor(halfPx: number): number {
  const templatePx = Math.max(halfPx, COARSE.half * 2 ** COARSE.level);
  return Math.max(MOST_SEARCH_PX, FURTHEST_HALVES * halfPx) + Math.ceil(ROOM_TURNED * templatePx);
}

/** A square turned and grown, and the rows its slopes need. */
const ROOM_TURNED = 1.3;

/** Whether its surroundings hold it so loosely that it would wander by itself: it goes by where the others are. */
export function isLoose({ patch: { levels } }: FollowedPoint): boolean {
  const [xx, , yy] = levels[levels.length - 1]!.shade;
  return xx + yy > 2 * LOOSE_PX ** 2;
}

/** Tracks it from `start`, if absent from where its own motion brings it. Changes nothing of the point: `settlePoint` does when all have answered. */
export function seekPoint(point: FollowedPoint, frame: Pyramid, start: PatchPose = { ...point.pose, x: point.pose.x + point.stepX, y: point.pose.y + point.stepY }): PatchAnswer {
  const limits = limitsOf(point);
  const answer = trackPatch(point.patch, frame, start, limits);
  // Halfway to being unlike, its surroundings decide.
  const doubtful = answer.found && answer.correlation < (limits.leastCorrelation + (point.usualCorrelation ?? 0)) / 2;
  if (!doubtful || surroundingsCorrelation(point.patch, frame, answer.pose) >= LEAST_AROUND) return answer;
  return { found: false, reason: 'unlike', correlation: answer.correlation };
}

/** Looks for a lost one round the place where the others' motion would have brought it; null where it is not there. */
export function seekLost(point: FollowedPoint, frame: Pyramid, expected: PatchPose): (PatchAnswer & { found: true }) | null {
  const limits = limitsOf(point);
  let answer = trackPatch(point.patch, frame, expected, limits);
  if (!answer.found && answer.reason !== 'outside') {
    const halves = SEARCH_HALVES.first + SEARCH_HALVES.perFrame * point.lostFrames;
    const near = searchPatch(point.patch, frame, expected, Math.min(MOST_SEARCH_PX, halves * point.patch.radiusPx));
    if (near) answer = trackPatch(point.patch, frame, near.pose, limits);
  }
  if (!answer.found || surroundingsCorrelation(point.patch, frame, answer.pose) < LEAST_AROUND) return null;
  if (point.lostFrames >= SURE_FRAMES && wayBackPx(point.patch, frame, answer.pose, point.marked, BACK_START_PX) > BACK_PX) return null;
  return answer;
}

/** Takes over the frame's answer; a lost one (null) goes to `expected`. */
export function settlePoint(point: FollowedPoint, answer: (PatchAnswer & { found: true }) | null, expected: PatchPose): void {
  point.found = answer;
  if (!answer) {
    point.pose = expected;
    point.stepX = point.stepY = 0;
    point.lostFrames += 1;
    return;
  }
  // After a loss the way from the guessed place is no motion.
  const fresh = point.lostFrames === 0 && point.foundFrames > 0;
  point.stepX = fresh ? answer.pose.x - point.pose.x : 0;
  point.stepY = fresh ? answer.pose.y - point.pose.y : 0;
  point.pose = answer.pose;
  point.lostFrames = 0;
  // The marked frame is exactly like itself, noise and all, which no other is.
  if (point.foundFrames > 0) {
    const usual = point.usualCorrelation ?? answer.correlation;
    point.usualCorrelation = usual + Math.max(NEW_WEIGHT, 1 / point.foundFrames) * (answer.correlation - usual);
  }
  point.foundFrames += 1;
}

export function tracedPoint({ relief, found }: FollowedPoint): TracedPoint | null {
  if (!found) return null;
  const own = (relief.px * (1 + relief.unlike * (1 - found.correlation))) ** 2;
  const { xx, xy, yy } = found.covariance;
  const { alongPx, acrossPx, alongRad } = mainDeviations({ xx: xx + own, xy, yy: yy + own });
  const { x, y } = found.pose;
  if (alongPx > SLIDES_PX && alongPx > SLIDES_TIMES * acrossPx) return { x, y, sdPx: acrossPx, slides: { alongRad, sdPx: alongPx } };
  return { x, y, sdPx: Math.sqrt((alongPx ** 2 + acrossPx ** 2) / 2) };
}

function limitsOf({ patch, usualCorrelation }: FollowedPoint): { leastCorrelation: number; furthestPx: number } {
  const allowed = usualCorrelation === null ? 0 : usualCorrelation - FALL - FALL_TIMES * (1 - usualCorrelation);
  return { leastCorrelation: Math.max(LEAST_CORRELATION, allowed), furthestPx: FURTHEST_HALVES * patch.radiusPx };
}
