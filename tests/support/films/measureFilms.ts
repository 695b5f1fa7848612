/** Puts films through the whole chain in a page of the tests' browser, and holds what it tells of every note against the scene's truth. */
import { servePage } from '../../browser/support/servePage';
import { visit } from '../../browser/support/visit';
import type { FilmAsked, TakeAsked, TakeTold } from '../../browser/measureFilmPage/page';
import { steadySpan } from '../../../src/measure/steadySpan';
import { type MeasuredNote, isTold } from '../../../src/measure/takeReadings';
import { matched } from '../notesMatched';
import { marksAt } from './marksAt';
import type { Scene } from './sceneTypes';
import { noteTruths } from './truth';

/** A file's path, or its bytes. */
export type FilmFile = string | { readonly name: string; readonly mimeType: string; readonly buffer: Buffer };

export interface Measurer {
  measure(files: readonly FilmFile[], asked: TakeAsked): Promise<TakeTold>;
  close(): Promise<void>;
}

/** The browser itself is shared: whoever opens a measurer calls `closeBrowsers` at the end. */
export async function openMeasurer(): Promise<Measurer> {
  const served = await servePage('measureFilmPage');
  const opened = await visit(served.address, { webgl: false });
  return {
    async measure(files, asked) {
      // All paths or all bytes: the browser takes no mixture.
      await opened.page.setInputFiles('input', files as string[]);
      return opened.page.evaluate((wish) => window.measureTake(wish), asked);
    },
    async close() {
      await opened.close();
      await served.close();
    },
  };
}

export interface CarefulMarks {
  /** Deviation of each mark in each direction, px. */
  readonly jitterPx: number;
  /** Relative deviation told with the focal length, which is the scene's own times 1 + `focalOff`; null: nothing is told of the lens. */
  readonly focalRelativeSd: number | null;
  readonly focalOff?: number;
}

/** What a careful person asks of a scene's film: marks on one frame in which the eyes are open, by the middle of the home note. */
export function askedOf(scene: Scene, { jitterPx, focalRelativeSd, focalOff = 0 }: CarefulMarks): FilmAsked {
  const timeS = markedFrameS(scene);
  return {
    view: scene.view,
    anchors: [{ timeS, marks: marksAt(scene, timeS, { jitterPx, seed: scene.seed }) }],
    focal: focalRelativeSd === null ? null : { px: scene.camera.focalPx * (1 + focalOff), relativeSd: focalRelativeSd },
  };
}

function markedFrameS({ notes, home, framesPerS, durationS, picture: { blinksS } }: Scene): number {
  const { startS, endS } = notes[home]!;
  const last = Math.round(durationS * framesPerS) - 1;
  for (let frame = Math.round(((startS + endS) / 2) * framesPerS); frame <= last; frame++) {
    if (blinksS.every((at) => Math.abs(frame / framesPerS - at) > EYES_OPEN_S)) return frame / framesPerS;
  }
  throw new RangeError('markedFrameS: eyes shut to the end; allowed: a scene with a frame in which they are open');
}
const EYES_OPEN_S = 0.25;

/** Told less true, with the deviation told; mm, degrees, cents, seconds. */
export interface Off {
  readonly error: number;
  readonly sd: number;
}

export interface NoteOff {
  readonly midi: number;
  readonly isHome: boolean;
  readonly rightNote: boolean;
  readonly startOffS: number;
  readonly endOffS: number;
  /** Of the pitch against what was played. */
  readonly centsOff: number | null;
  readonly up: Off | null;
  readonly right: Off | null;
  readonly elevation: Off | null;
  readonly lateral: Off | null;
}

export interface TakeOff {
  readonly notes: readonly NoteOff[];
  readonly missing: number;
  readonly extra: number;
}

/** Travel counts from all soundings of the home note together, as the chain counts it. `tuningCents`: what the chain holds for the take's own. */
export function takeOff(scene: Scene, measured: readonly MeasuredNote[], tuningCents: number | null): TakeOff {
  const truths = noteTruths(scene).filter(({ endS, startS }) => endS > 0 && startS < scene.durationS);
  const homeMidi = scene.notes[scene.home]!.midi;
  const { pairs, missing, extra } = matched(truths, measured.map(({ note }) => note));
  const told = new Map(measured.map((one) => [one.note, one]));
  // The chain's home is the mean over the frames of its soundings, each of which is as long as its steady part.
  const homes = pairs.flatMap(({ played, heard }) => (heard.midi === homeMidi ? [{ played, frames: framesOf(told.get(heard)!) }] : []));
  const weight = homes.reduce((sum, { frames }) => sum + frames, 0);
  const home = {
    up: homes.reduce((sum, { played, frames }) => sum + (frames / weight) * truths[truths.indexOf(played as never)]!.travelUpMm, 0),
    right: homes.reduce((sum, { played, frames }) => sum + (frames / weight) * truths[truths.indexOf(played as never)]!.travelRightMm, 0),
  };
  const notes = pairs.map(({ played, heard }): NoteOff => {
    const truth = truths[truths.indexOf(played as never)]!;
    const { travel, elevation, lateral } = told.get(heard)!;
    const counted = isTold(travel) && travel.sdMm > 0 ? travel : null;
    const pitch = heard.midi === null || heard.cents === null ? null : 100 * heard.midi + heard.cents + (tuningCents ?? 0);
    return {
      midi: truth.midi,
      isHome: truth.midi === homeMidi,
      rightNote: heard.midi === truth.midi,
      startOffS: heard.startS - truth.startS,
      endOffS: heard.endS - truth.endS,
      centsOff: pitch === null ? null : pitch - (100 * truth.midi + scene.sound.tuningCents),
      up: counted && { error: counted.upMm - (truth.travelUpMm - home.up), sd: counted.sdMm },
      right: counted && { error: counted.rightMm - (truth.travelRightMm - home.right), sd: counted.rightSdMm },
      elevation: isTold(elevation) ? { error: elevation.value - truth.elevationDeg, sd: elevation.sd } : null,
      lateral: isTold(lateral) ? { error: lateral.value - truth.lateralDeg, sd: lateral.sd } : null,
    };
  });
  return { notes, missing, extra };
}

function framesOf({ note, travel }: MeasuredNote): number {
  const { startS, endS } = steadySpan(note);
  return isTold(travel) ? travel.frames : endS - startS;
}

export interface Summary {
  readonly count: number;
  readonly rms: number;
  readonly bias: number;
  /** Root mean square of the deviations told. */
  readonly sd: number;
  /** Part of the truths within 1.96 deviations. */
  readonly covered: number;
}

export function summaryOf(all: readonly (Off | null)[]): Summary {
  const told = all.filter((one): one is Off => one !== null);
  const mean = (value: (one: Off) => number): number => told.reduce((sum, one) => sum + value(one), 0) / told.length;
  return {
    count: told.length,
    rms: Math.sqrt(mean(({ error }) => error ** 2)),
    bias: mean(({ error }) => error),
    sd: Math.sqrt(mean(({ sd }) => sd ** 2)),
    covered: mean(({ error, sd }) => (Math.abs(error) <= 1.96 * sd ? 1 : 0)),
  };
}
