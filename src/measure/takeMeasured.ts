/** One take from the films of it: what each film says at each note, put together. docs/numerics.md §21. */
import type { HeadFilm, NoHeadFilm } from './headFromFilm';
import { type LineSample, lineSamples } from './lineSamples';
import type { CameraSpec } from './marks';
import { headSamples, readPlace } from './rimPlaces';
import { steadyFrames } from './steadySpan';
import { type FilmSamples, type MeasuredNote, type TravelTold, type Untold, measureNotes, mergedFilms } from './takeReadings';
import type { FilmTrace, HeadSample, NoteHeard } from './traces';

export interface FilmOfTake {
  readonly trace: FilmTrace;
  /** The head's frame through a film from the front; null for the other views. */
  readonly head: HeadFilm | NoHeadFilm | null;
  readonly camera: CameraSpec;
  /** To be added to the film's times to give the take's, s. */
  readonly offsetS: number;
}

export interface TakeMeasured {
  /** In step with the notes. Travel counts from the home note's soundings in the same film. */
  readonly notes: readonly MeasuredNote[];
  /** The same as each film alone tells them, film by film. */
  readonly filmNotes: readonly (readonly MeasuredNote[])[];
  /** Frame by frame, film by film, the film's own times; travel counts from home, or where home was not played from the first frame. */
  readonly samples: readonly (readonly HeadSample[])[];
}

/** `homeMidi`: the sounding home note; null or not played: no travel is told. */
export function measureTake(films: readonly FilmOfTake[], notes: readonly NoteHeard[], homeMidi: number | null): TakeMeasured {
  const taken = films.map((film) => (film.trace.view === 'front' ? fromFront(film, notes, homeMidi) : fromLines(film)));
  const filmNotes = taken.map((film) => measureNotes(film, notes));
  return { notes: mergedFilms(filmNotes), filmNotes, samples: taken.map(({ samples }) => samples) };
}

function fromLines({ trace, camera, offsetS }: FilmOfTake): FilmSamples {
  return { view: trace.view, offsetS, samples: lineSamples(trace, camera).map(sampleOf) };
}

function sampleOf({ timeS, seen }: LineSample): HeadSample {
  const nothing = { timeS, travel: null, elevation: null, lateral: null };
  return seen === null ? nothing : { ...nothing, [seen.angle]: { deg: seen.deg, sdDeg: seen.sdDeg } };
}

function fromFront({ trace, head, offsetS }: FilmOfTake, notes: readonly NoteHeard[], homeMidi: number | null): FilmSamples {
  const { view, frames } = trace;
  const times = frames.map(({ timeS }) => timeS);
  const nothing = (): HeadSample[] => times.map((timeS) => ({ timeS, travel: null, elevation: null, lateral: null }));
  if (head?.kind !== 'found') return { view, offsetS, samples: nothing() };
  const framesOf = steadyFrames(times, notes, offsetS);
  const home = framesOf.filter((_, index) => notes[index]!.midi !== null && notes[index]!.midi === homeMidi);
  const first = head.frames.findIndex((frame) => frame !== null);
  const from = home.flat().some((index) => head.frames[index] !== null) ? home : [[first]];
  const samples = first === -1 ? nothing() : headSamples(head, times, from);
  const travelOf = (_: NoteHeard, index: number): TravelTold | Untold => {
    const own = framesOf[index]!;
    if (own.length === 0) return 'too-short';
    const read = readPlace(head, own, home);
    // Without home there is nothing to count from: no travel is told, whatever the frames say.
    if (read.kind === 'not-read') return 'lost';
    const { upMm, rightMm, upSdMm, rightSdMm } = read.travel;
    return { upMm, rightMm, sdMm: upSdMm, rightSdMm, frames: read.frames };
  };
  return { view, offsetS, travelOf, samples: Array.isArray(samples) ? samples : nothing() };
}
