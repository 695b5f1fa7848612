/** From what each frame says of rim and horn, and the notes heard, to one reading a note. docs/numerics.md §21. */
import { noteName } from '../core/pitch';
import { UNSEEN_HORN_SD_DEG, sdsAsKept } from '../core/readings';
import type { ReadingSpec } from '../core/specs';
import type { ViewFrom } from './marks';
import { medianOver, steadySpan, type Told } from './steadySpan';
import type { HeadSample, NoteHeard } from './traces';

/** Why nothing is told: too few frames in the note's steady part, none in which it was found, or the note lies outside the film. */
export type Untold = 'too-short' | 'lost' | 'not-in-this-film';

export interface TravelTold {
  readonly upMm: number;
  readonly rightMm: number;
  /** Of `upMm`. */
  readonly sdMm: number;
  readonly rightSdMm: number;
  readonly frames: number;
}

export interface MeasuredNote {
  readonly note: NoteHeard;
  /** Whether only the middle third of a short note was used. */
  readonly short: boolean;
  /** Relative to the home note's own where `relativeTo` has been at it, else as the samples count it. */
  readonly travel: TravelTold | Untold;
  readonly elevation: Told | Untold;
  readonly lateral: Told | Untold;
  /** Part of the frames in the steady part in which nothing was found; 0 where it has none. */
  readonly lostPart: number;
}

/** Samples of one film in order of time, by the times of the notes (alignSound.ts tells how far films lie apart). */
export interface FilmSamples {
  readonly view: ViewFrom;
  readonly samples: readonly HeadSample[];
  /** Added to a sample's time to make it the notes'; absent, 0. */
  readonly offsetS?: number | undefined;
  /** Travel note by note from elsewhere (with all notes' shared errors taken care of), instead of the median of the samples. */
  travelOf?(note: NoteHeard, index: number): TravelTold | Untold;
}

/** A note's steady part with fewer frames says nothing of their scatter. */
const FEWEST_FRAMES = 3;

/** One answer a note from one film, in the order of the notes. */
export function measureNotes(film: FilmSamples, notes: readonly NoteHeard[]): MeasuredNote[] {
  const { samples, offsetS = 0 } = film;
  const [firstS, lastS] = [(samples[0]?.timeS ?? Infinity) + offsetS, (samples.at(-1)?.timeS ?? -Infinity) + offsetS];
  return notes.map((note, index) => {
    const { startS, endS, short } = steadySpan(note);
    const within = samples.filter(({ timeS }) => timeS + offsetS >= startS && timeS + offsetS <= endS);
    const outside = endS < firstS || startS > lastS;
    const untold = (found: number): Untold => (outside ? 'not-in-this-film' : within.length < FEWEST_FRAMES ? 'too-short' : found === 0 ? 'lost' : 'too-short');
    const angle = (which: 'elevation' | 'lateral'): Told | Untold => {
      const frames = within.flatMap((sample) => (sample[which] ? [{ value: sample[which].deg, sd: sample[which].sdDeg }] : []));
      return frames.length < FEWEST_FRAMES ? untold(frames.length) : medianOver(frames)!;
    };
    const travels = within.flatMap(({ travel }) => (travel ? [travel] : []));
    const lost = within.filter(({ travel, elevation, lateral }) => !travel && !elevation && !lateral).length;
    return {
      note,
      short,
      travel: film.travelOf?.(note, index) ?? (travels.length < FEWEST_FRAMES ? untold(travels.length) : travelOver(travels)),
      elevation: angle('elevation'),
      lateral: angle('lateral'),
      lostPart: within.length === 0 ? 0 : lost / within.length,
    };
  });
}

function travelOver(travels: readonly NonNullable<HeadSample['travel']>[]): TravelTold {
  const [up, right] = [medianOver(travels.map(({ upMm, sdMm }) => ({ value: upMm, sd: sdMm })))!, medianOver(travels.map(({ rightMm, rightSdMm }) => ({ value: rightMm, sd: rightSdMm })))!];
  return { upMm: up.value, rightMm: right.value, sdMm: up.sd, rightSdMm: right.sd, frames: travels.length };
}

/**
 * Several films of one take, note by note: what one of them alone tells is taken as it is, what several tell is weighed by their
 * deviations. Throws RangeError where they were not measured at the same notes.
 */
export function mergedFilms(films: readonly (readonly MeasuredNote[])[]): MeasuredNote[] {
  const [first, ...others] = films;
  if (!first) return [];
  for (const other of others) if (other.length !== first.length) throw new RangeError(`mergedFilms: ${other.length} notes beside ${first.length}; allowed: the same notes in every film`);
  return first.map((each, index) => {
    const same = films.map((film) => film[index]!);
    return {
      note: each.note,
      short: each.short,
      travel: mergedTravel(same.map(({ travel }) => travel)),
      elevation: mergedTold(same.map(({ elevation }) => elevation)),
      lateral: mergedTold(same.map(({ lateral }) => lateral)),
      lostPart: Math.min(...same.map(({ lostPart }) => lostPart)),
    };
  });
}

export interface TakeOptions {
  readonly take: number;
  /** Spelling of a sounding MIDI number; absent, flats. */
  nameOf?(midi: number): string;
}

/**
 * Readings of a take, one for each note that has a name and of which travel or an angle is told. An angle that was not seen while the
 * other was stands as at home (the home note's median, 0 where home has none) with the deviation of the unseen.
 */
export function readingsOfTake(measured: readonly MeasuredNote[], homeMidi: number, { take, nameOf = (midi) => noteName(midi) }: TakeOptions): ReadingSpec[] {
  const homeOf = (which: 'elevation' | 'lateral'): number => {
    const told = measured.flatMap((each) => (each.note.midi === homeMidi && isTold(each[which]) ? [each[which]] : []));
    return told.length === 0 ? 0 : weighed(told.map(({ value, sd }) => [value, sd])).value;
  };
  const home = { elevation: homeOf('elevation'), lateral: homeOf('lateral') };
  return measured.flatMap(({ note, travel, elevation, lateral }): ReadingSpec[] => {
    if (note.midi === null || !(isTold(travel) || isTold(elevation) || isTold(lateral))) return [];
    const sds = { sdDeg: isTold(elevation) ? kept(elevation.sd) : UNSEEN_HORN_SD_DEG, lateralSdDeg: isTold(lateral) ? kept(lateral.sd) : UNSEEN_HORN_SD_DEG };
    return [
      {
        note: nameOf(note.midi),
        take,
        ...(isTold(travel) ? { travel: { upMm: travel.upMm, rightMm: travel.rightMm, ...sdsAsKept(kept(travel.sdMm), kept(travel.rightSdMm)) } } : {}),
        ...(isTold(elevation) || isTold(lateral)
          ? { horn: { elevationDeg: isTold(elevation) ? elevation.value : home.elevation, lateralDeg: isTold(lateral) ? lateral.value : home.lateral, ...sds } }
          : {}),
        method: 'video',
      },
    ];
  });
}

export const isTold = <T extends object>(answer: T | Untold): answer is T => typeof answer !== 'string';

/** The least deviation that a record takes, so that no reading outweighs all others; mm or degrees. */
const LEAST_KEPT_SD = 0.001;
const kept = (sd: number): number => Math.max(LEAST_KEPT_SD, sd);

function mergedTold(answers: readonly (Told | Untold)[]): Told | Untold {
  const told = answers.filter(isTold);
  if (told.length === 0) return plainest(answers as readonly Untold[]);
  return { ...weighed(told.map(({ value, sd }) => [value, sd])), frames: total(told) };
}

function mergedTravel(answers: readonly (TravelTold | Untold)[]): TravelTold | Untold {
  const told = answers.filter(isTold);
  if (told.length === 0) return plainest(answers as readonly Untold[]);
  const [up, right] = [weighed(told.map(({ upMm, sdMm }) => [upMm, sdMm])), weighed(told.map(({ rightMm, rightSdMm }) => [rightMm, rightSdMm]))];
  return { upMm: up.value, rightMm: right.value, sdMm: up.sd, rightSdMm: right.sd, frames: total(told) };
}

/** Of several reasons the one that a person can do most about. */
function plainest(reasons: readonly Untold[]): Untold {
  return (['lost', 'too-short'] as const).find((reason) => reasons.includes(reason)) ?? 'not-in-this-film';
}

const total = (told: readonly { readonly frames: number }[]): number => told.reduce((sum, { frames }) => sum + frames, 0);

/** Mean by 1/sd²; no deviation counts as less than the least that a record takes. */
function weighed(pairs: readonly (readonly [number, number])[]): { value: number; sd: number } {
  const weights = pairs.map(([, sd]) => 1 / kept(sd) ** 2);
  const whole = weights.reduce((sum, each) => sum + each, 0);
  return { value: pairs.reduce((sum, [value], at) => sum + weights[at]! * value, 0) / whole, sd: 1 / Math.sqrt(whole) };
}
