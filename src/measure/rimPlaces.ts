/**
 * Readings from a film's frames: the mean over a set of frames (a note's steady part), and the difference of two such means (the note's
 * and home's). Deviations hold three things: the frames' own noise, which averages out less the more alike neighbouring frames err; the
 * rim's own depth at each note; and what all frames share (shape, focal length, diameter, marks), through the difference of the two
 * sets' sensitivities: with no difference of pose or place it cancels.
 */
import { travelFromFrontal } from '../core/frame';
import { timesAlike } from './framesAlike';
import { MEASURED, type HeadFrame } from './headFrame';
import type { HeadFilm } from './headFromFilm';
import { median } from './median';
import { sandwich } from './symmetricSolver';
import type { HeadSample } from './traces';

/** A frame further than this many usual distances from the set's median is left out of its mean. */
const FAR_OUT = 5;
/** From the median distance to a standard deviation, for normal errors. */
const MEDIAN_TO_SD = 1.4826;
/** Below this nothing is far out, mm: what a still rim's frames scatter at best. */
const LEAST_SCATTER_MM = 0.02;

export interface AngleReading {
  readonly deg: number;
  readonly sdDeg: number;
}

export interface PlaceReading {
  readonly kind: 'read';
  /** From the second set to the first, people's signs, mm. */
  readonly travel: { readonly upMm: number; readonly rightMm: number; readonly upSdMm: number; readonly rightSdMm: number };
  /** The first set's own angles, not relative to anything. */
  readonly elevation: AngleReading | null;
  readonly lateral: AngleReading | null;
  /** How the angles changed from the second set to the first. */
  readonly elevationChange: AngleReading | null;
  readonly lateralChange: AngleReading | null;
  /** Frames counted in the first set, and how far they lie about their mean (root mean square, mm): the player's own stir included. */
  readonly frames: number;
  readonly scatterMm: number;
}

export interface NoPlaceReading {
  readonly kind: 'not-read';
  /** Which set has no frame that could be measured. */
  readonly reason: 'no-frames' | 'no-home-frames';
}

/**
 * Frames are numbered as in the film's trace; home's are given sounding by sounding, and all of them count: the rim may rest elsewhere each
 * time. A set against itself is 0 ± 0.
 */
export function readPlace(film: HeadFilm, frames: readonly number[], home: readonly (readonly number[])[]): PlaceReading | NoPlaceReading {
  const mean = meanOf(film, [frames]);
  if (!mean) return { kind: 'not-read', reason: 'no-frames' };
  const homeMean = meanOf(film, home);
  if (!homeMean) return { kind: 'not-read', reason: 'no-home-frames' };
  const covariance = sameSet(frames, home.flat()) ? new Float64Array(MEASURED * MEASURED) : differenceCovariance(film, mean, homeMean);
  const sd = (k: number): number => Math.sqrt(Math.max(0, covariance[k * (MEASURED + 1)]!));
  const own = ownCovariance(film, mean);
  const angle = (k: number): AngleReading | null =>
    mean.angles > 0 ? { deg: mean.values[k]!, sdDeg: Math.sqrt(own[k * (MEASURED + 1)]!) } : null;
  const change = (k: number): AngleReading | null =>
    mean.angles > 0 && homeMean.angles > 0 ? { deg: mean.values[k]! - homeMean.values[k]!, sdDeg: sd(k) } : null;
  return {
    kind: 'read',
    travel: {
      ...travelFromFrontal(mean.values[0]! - homeMean.values[0]!, mean.values[1]! - homeMean.values[1]!),
      upSdMm: sd(1),
      rightSdMm: sd(0),
    },
    elevation: angle(3),
    lateral: angle(4),
    elevationChange: change(3),
    lateralChange: change(4),
    frames: mean.frames,
    scatterMm: mean.scatterMm,
  };
}

/** Every frame by itself, relative to the mean of home's frames; nulls where nothing could be measured. */
export function headSamples(film: HeadFilm, times: readonly number[], home: readonly (readonly number[])[]): HeadSample[] | NoPlaceReading {
  const homeMean = meanOf(film, home);
  if (!homeMean) return { kind: 'not-read', reason: 'no-home-frames' };
  return film.frames.map((frame, i): HeadSample => {
    if (!frame) return { timeS: times[i]!, travel: null, elevation: null, lateral: null };
    const mean = meanOf(film, [[i]])!;
    const covariance = differenceCovariance(film, mean, homeMean);
    const own = ownCovariance(film, mean);
    const angle = (k: number): AngleReading | null => (frame.angles ? { deg: mean.values[k]!, sdDeg: Math.sqrt(own[k * (MEASURED + 1)]!) } : null);
    return {
      timeS: frame.timeS,
      travel: {
        ...travelFromFrontal(mean.values[0]! - homeMean.values[0]!, mean.values[1]! - homeMean.values[1]!),
        sdMm: Math.sqrt(covariance[MEASURED + 1]!),
        rightSdMm: Math.sqrt(covariance[0]!),
      },
      elevation: angle(3),
      lateral: angle(4),
    };
  });
}

interface Mean {
  readonly values: Float64Array;
  readonly noise: Float64Array;
  readonly byOwnDepth: Float64Array;
  readonly byShared: Float64Array;
  readonly frames: number;
  /** Of these, with a horn. */
  readonly angles: number;
  readonly scatterMm: number;
}

/** Over all sets; what is far out is so within its own. */
function meanOf(film: HeadFilm, sets: readonly (readonly number[])[]): Mean | null {
  const frames = sets.flatMap((indices) => {
    const all = indices.map((index) => {
      if (!(index in film.frames)) throw new RangeError(`frame ${index}: allowed is 0 to ${film.frames.length - 1}`);
      return film.frames[index]!;
    });
    return withoutFarOut(all.filter((frame): frame is HeadFrame => frame !== null));
  });
  if (frames.length === 0) return null;
  const withHorn = frames.filter(({ angles }) => angles);
  const mean = {
    values: new Float64Array(MEASURED), noise: new Float64Array(MEASURED * MEASURED),
    byOwnDepth: new Float64Array(MEASURED), byShared: new Float64Array(MEASURED * film.sharedErrors),
  };
  const counted = (a: number): number => (a < 3 ? frames.length : Math.max(1, withHorn.length));
  const [marksTimes, rimTimes] = [timesAlike(film.alike, frames.length), timesAlike(film.rimAlike, frames.length)];
  for (const frame of frames) {
    const measured = [...frame.rimMm, frame.angles?.elevationDeg ?? 0, frame.angles?.lateralDeg ?? 0];
    for (let a = 0; a < MEASURED; a++) {
      mean.values[a]! += measured[a]! / counted(a);
      mean.byOwnDepth[a]! += frame.byOwnDepth[a]! / counted(a);
      for (let j = 0; j < film.sharedErrors; j++) mean.byShared[a * film.sharedErrors + j]! += frame.byShared[a * film.sharedErrors + j]! / counted(a);
      for (let b = 0; b < MEASURED; b++) {
        const at = a * MEASURED + b;
        mean.noise[at]! += (marksTimes * frame.noise[at]! + rimTimes * frame.rimNoise[at]!) / (counted(a) * counted(b));
      }
    }
  }
  const squares = frames.map(({ rimMm: [x, y] }) => (x - mean.values[0]!) ** 2 + (y - mean.values[1]!) ** 2);
  return { ...mean, frames: frames.length, angles: withHorn.length, scatterMm: Math.sqrt(sumOf(squares) / frames.length) };
}

function withoutFarOut(frames: readonly HeadFrame[]): readonly HeadFrame[] {
  if (frames.length < 4) return frames;
  const x = median(frames.map(({ rimMm }) => rimMm[0]));
  const y = median(frames.map(({ rimMm }) => rimMm[1]));
  const away = frames.map(({ rimMm }) => Math.hypot(rimMm[0] - x, rimMm[1] - y));
  const usual = Math.max(LEAST_SCATTER_MM, MEDIAN_TO_SD * median(away));
  return frames.filter((_, i) => away[i]! <= FAR_OUT * usual);
}

function differenceCovariance(film: HeadFilm, a: Mean, b: Mean): Float64Array {
  const apart = a.byShared.map((each, i) => each - b.byShared[i]!);
  const covariance = sandwich(apart, MEASURED, film.covariance, film.sharedErrors);
  for (let j = 0; j < MEASURED; j++) {
    for (let k = 0; k < MEASURED; k++) {
      const at = j * MEASURED + k;
      covariance[at]! += a.noise[at]! + b.noise[at]! + a.byOwnDepth[j]! * a.byOwnDepth[k]! + b.byOwnDepth[j]! * b.byOwnDepth[k]!;
    }
  }
  return covariance;
}

function ownCovariance(film: HeadFilm, mean: Mean): Float64Array {
  const covariance = sandwich(mean.byShared, MEASURED, film.covariance, film.sharedErrors);
  for (let j = 0; j < MEASURED; j++) {
    for (let k = 0; k < MEASURED; k++) {
      covariance[j * MEASURED + k]! += mean.noise[j * MEASURED + k]! + mean.byOwnDepth[j]! * mean.byOwnDepth[k]!;
    }
  }
  return covariance;
}

function sameSet(a: readonly number[], b: readonly number[]): boolean {
  const other = new Set(b);
  return other.size === new Set(a).size && a.every((each) => other.has(each));
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0);
