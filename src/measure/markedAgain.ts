/**
 * What a person marked in several frames. A mark is followed by its looks in the frame it was put in, so from the next time it is put on the
 * hand's error is another one: one landmark is then several spots of the same head, a rim has a radius for each time, the horn's line its own
 * errors.
 */
import { fitEllipse } from './ellipseFit';
import { SHARED_HORN_ERRORS } from './hornFromFront';
import { LANDMARK_NAMES, type LandmarkName, type PictureMarks } from './marks';
import type { Point } from './picture';
import type { FilmTrace, MarkedTimes, RimEllipse, TracedName } from './traces';

/** Two times this near are one frame's, s: containers keep times to a microsecond or a millisecond. */
export const SAME_TIME_S = 0.0006;

export interface HeadSpot {
  readonly name: LandmarkName;
  /** Whether its landmark has other spots beside this one. */
  readonly again: boolean;
}

export interface HeadSpots {
  readonly spots: readonly HeadSpot[];
  /** Where a landmark's mark of this time stands among them; `isOwn` false: it has none of its own, and is told by another mark's. */
  spotAt(name: LandmarkName, timeS: number): { readonly spot: number; readonly isOwn: boolean };
}

/** What is in the anchors' marks, by the times at which the tracker takes it up. */
export function markedTimes(anchors: readonly { readonly timeS: number; readonly marks: PictureMarks }[]): MarkedTimes {
  const marked: Partial<Record<TracedName | 'rim', number[]>> = {};
  for (const { timeS, marks } of anchors.toSorted((one, other) => one.timeS - other.timeS)) {
    const names: (TracedName | 'rim')[] = [...markedPlaces(marks).keys()];
    if (markedEllipse(marks) !== null) names.push('rim');
    for (const name of names) (marked[name] ??= []).push(timeS);
  }
  return marked;
}

/** null: too few points, or none that lie on an ellipse. */
export function markedEllipse({ rim }: PictureMarks): RimEllipse | null {
  if (!rim) return null;
  const fit = fitEllipse(rim);
  return fit.kind === 'fitted' ? fit.ellipse : null;
}

export function markedPlaces({ landmarks, level, horn }: PictureMarks): Map<TracedName, Point> {
  const places = new Map<TracedName, Point>();
  for (const name of LANDMARK_NAMES) if (landmarks[name]) places.set(name, landmarks[name]);
  if (level) places.set('level-back', level.from).set('level-front', level.to);
  if (horn) places.set('horn-near', horn.from).set('horn-far', horn.to);
  return places;
}

/** Which of a thing's marks it is followed from at this time; before the first, from that. */
export function markOf({ marked }: FilmTrace, name: TracedName | 'rim', timeS: number): number {
  return Math.max(0, (marked?.[name] ?? []).filter((each) => timeS >= each - SAME_TIME_S).length - 1);
}

/** How often it was marked, as far as travel goes. */
export const marksOf = ({ marked }: FilmTrace, name: TracedName | 'rim'): number => Math.max(1, marked?.[name]?.length ?? 1);

/** More spots than this, nine landmarks marked five times, would make the fit slow; those with the fewest frames go without. */
const MOST_SPOTS = 45;

/** Spots of these landmarks that are seen in any frame with the rim, landmark by landmark. */
export function headSpots(trace: FilmTrace, names: readonly LandmarkName[]): HeadSpots {
  const seen = new Map(names.map((name) => [name, new Array<number>(marksOf(trace, name)).fill(0)]));
  for (const { timeS, rim, points } of trace.frames) {
    if (rim) for (const name of names) if (points[name]) seen.get(name)![markOf(trace, name, timeS)]! += 1;
  }
  const all = names.flatMap((name) => seen.get(name)!.map((frames, mark) => ({ name, mark, frames })));
  // A landmark's first among equals is taken in any case, so that none is without a spot.
  const most = new Map(names.map((name) => [name, seen.get(name)!.indexOf(Math.max(...seen.get(name)!))]));
  const rank = ({ name, mark, frames }: (typeof all)[number]): number => (most.get(name) === mark ? Infinity : frames);
  const taken = new Set(all.filter((one) => rank(one) > 0).toSorted((one, other) => rank(other) - rank(one) || 0).slice(0, Math.max(MOST_SPOTS, names.length)));
  const kept = all.filter((one) => taken.has(one));
  const count = (name: LandmarkName): number => kept.filter((one) => one.name === name).length;
  const places = new Map(kept.map(({ name, mark }, spot) => [`${name} ${mark}`, spot]));
  return {
    spots: kept.map(({ name }) => ({ name, again: count(name) > 1 })),
    spotAt: (name, timeS) => {
      const own = places.get(`${name} ${markOf(trace, name, timeS)}`);
      return { spot: own ?? places.get(`${name} ${most.get(name)!}`)!, isOwn: own !== undefined };
    },
  };
}

/** Of SHARED_HORN_ERRORS: the rim's shape goes by the rim's marks, the line's ends by the horn's; the far mark's distance and the weak prior stay. */
const RIM_ERRORS = 3;
const LINE_ERRORS = 3;

/** How many errors of the horn a film has, one deviation each. */
export const hornErrors = (trace: FilmTrace): number =>
  SHARED_HORN_ERRORS + RIM_ERRORS * (marksOf(trace, 'rim') - 1) + LINE_ERRORS * (marksOf(trace, 'horn-far') - 1);

/** Where the error of this number (hornFromFront.ts) stands among them in a frame of this time: the first marks' in their own order, then the others'. */
export function hornErrorAt(trace: FilmTrace, error: number, timeS: number): number {
  if (error < RIM_ERRORS) {
    const mark = markOf(trace, 'rim', timeS);
    return mark === 0 ? error : SHARED_HORN_ERRORS + RIM_ERRORS * (mark - 1) + error;
  }
  if (error >= RIM_ERRORS + LINE_ERRORS) return error;
  const mark = markOf(trace, 'horn-far', timeS);
  return mark === 0 ? error : SHARED_HORN_ERRORS + RIM_ERRORS * (marksOf(trace, 'rim') - 1) + LINE_ERRORS * (mark - 1) + error - RIM_ERRORS;
}
