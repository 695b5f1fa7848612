/** Measures the films of one take that lie in the page's file field, by the doors the app itself goes through; answers in plain values. */
import { focalFromEquivalent, unknownCamera } from '../../../src/measure/camera';
import type { FilmAnchor } from '../../../src/measure/filmTracker';
import type { HeadFilm, NoHeadFilm } from '../../../src/measure/headFromFilm';
import type { CameraSpec, ViewFrom } from '../../../src/measure/marks';
import type { NoteRange } from '../../../src/measure/noteStates';
import type { FilmFacts } from '../../../src/measure/openFilm';
import { DIAMETER_SD_MM } from '../../../src/measure/pictureResult';
import type { RimSize } from '../../../src/measure/rimTracker';
import { steadyFrames } from '../../../src/measure/steadySpan';
import { measureTake } from '../../../src/measure/takeMeasured';
import type { MeasuredNote } from '../../../src/measure/takeReadings';
import type { FilmTrace, NoteHeard } from '../../../src/measure/traces';
import { askFilm, type FilmDoor } from '../../../src/workers/askFilm';

export interface FilmAsked {
  readonly view: ViewFrom;
  /** The anchor's `hornMarkMm` is that of the film. */
  readonly anchors: readonly FilmAnchor[];
  /** Focal length, in px or as the equivalent on 36 × 24 mm film, with its relative deviation; null: a phone nobody knows more of. */
  readonly focal: ({ readonly px: number } | { readonly equivalentMm: number }) & { readonly relativeSd: number } | null;
}

export interface TakeAsked {
  /** In the order of the files; the first one's sound gives the notes. */
  readonly films: readonly FilmAsked[];
  readonly rim: RimSize;
  readonly range: NoteRange;
  readonly homeMidi: number;
  /** Whether the traces are sent too. */
  readonly traces?: boolean;
}

export interface FilmTold {
  readonly facts: FilmFacts;
  readonly offsetS: number | null;
  readonly notFollowed: readonly string[];
  /** A sentence where the film could not be read to its end. */
  readonly words: string | null;
  /** Part of the frames in which each of what was marked was found. */
  readonly foundPart: Readonly<Record<string, number>>;
  readonly head: HeadTold | null;
  readonly trace: FilmTrace | null;
  readonly followMs: number;
  readonly headMs: number;
}

/** What the fit over a whole front film came to. */
export type HeadTold = Pick<HeadFilm, 'alike' | 'landmarks' | 'setAside' | 'noiseTimes' | 'residualPx' | 'iterations' | 'fitted'> | NoHeadFilm;

export type TakeTold =
  | {
      readonly kind: 'measured';
      readonly films: readonly FilmTold[];
      readonly notes: readonly MeasuredNote[];
      readonly tuningCents: number | null;
      readonly hearMs: number;
    }
  /** The film of this number could not be used, or not laid beside the first; a sentence for people. */
  | { readonly kind: 'refused'; readonly film: number; readonly words: string };

declare global {
  interface Window {
    measureTake(asked: TakeAsked): Promise<TakeTold>;
  }
}

window.measureTake = async ({ films, rim, range, homeMidi, traces = false }) => {
  const files = [...(document.querySelector('input')?.files ?? [])];
  if (files.length !== films.length) throw new RangeError(`measureTake: ${films.length} films asked for beside ${files.length} files; allowed: one for each`);
  const doors: FilmDoor[] = [];
  try {
    for (const [film, file] of files.entries()) {
      const door = await askFilm(file);
      if (door.kind === 'refused') return { kind: 'refused', film, words: door.words };
      doors.push(door);
    }
    const heardFrom = performance.now();
    const heard = await doors[0]!.hear(range);
    const hearMs = performance.now() - heardFrom;
    if (heard.kind !== 'heard') return { kind: 'refused', film: 0, words: 'The first film has no sound to find the notes in.' };
    const { notes, tuning } = heard.found;
    const measured: (Followed & { told: FilmTold })[] = [];
    for (const [film, door] of doors.entries()) {
      const offsetS = film === 0 ? 0 : await offsetOf(doors[0]!, door);
      if (offsetS === null) return { kind: 'refused', film, words: 'Its sound could not be laid beside the first film’s.' };
      const followed = await follow(door, films[film]!, { rim, notes, offsetS });
      if (typeof followed === 'string') return { kind: 'refused', film, words: followed };
      measured.push({ ...followed, told: { ...followed.told, facts: door.facts, offsetS, trace: traces ? followed.trace : null } });
    }
    return {
      kind: 'measured',
      films: measured.map(({ told }) => told),
      notes: measureTake(measured, notes, homeMidi).notes,
      tuningCents: tuning.kind === 'told' ? tuning.cents : null,
      hearMs,
    };
  } finally {
    for (const door of doors) door.close();
  }
};

interface Followed {
  readonly trace: FilmTrace;
  readonly camera: CameraSpec;
  readonly head: HeadFilm | NoHeadFilm | null;
  readonly offsetS: number;
}

async function follow(
  door: FilmDoor, { view, anchors, focal }: FilmAsked, { rim, notes, offsetS }: { rim: RimSize; notes: readonly NoteHeard[]; offsetS: number },
): Promise<(Followed & { readonly told: Omit<FilmTold, 'facts' | 'offsetS' | 'trace'> }) | string> {
  const startMs = performance.now();
  const followed = await door.follow({ view, anchors, rim });
  const followMs = performance.now() - startMs;
  if (followed.kind !== 'followed') return 'Following it was stopped.';
  const { trace, notFollowed, words } = followed;
  const camera = cameraOf(door.facts, focal);
  const headStartMs = performance.now();
  const head = view !== 'front' ? null : await door.head({
    trace,
    camera,
    rimDiameterMm: { value: rim.outerDiameterMm, sd: DIAMETER_SD_MM },
    hornMarkMm: anchors.find(({ marks }) => marks.hornMarkMm !== undefined)?.marks.hornMarkMm,
    steady: steadyFrames(trace.frames.map(({ timeS }) => timeS), notes, offsetS),
  });
  const headMs = performance.now() - headStartMs;
  return { trace, head, camera, offsetS, told: { notFollowed, words, foundPart: foundPart(trace), head: head && headTold(head), followMs, headMs } };
}

function cameraOf({ width, height }: FilmFacts, focal: FilmAsked['focal']): CameraSpec {
  if (focal === null) return unknownCamera(width, height);
  const focalPx = 'px' in focal ? focal.px : focalFromEquivalent(focal.equivalentMm, width, height);
  return { width, height, focalPx, focalRelativeSd: focal.relativeSd };
}

async function offsetOf(first: FilmDoor, other: FilmDoor): Promise<number | null> {
  const sound = await other.sound();
  const found = sound === null ? null : await first.align(sound);
  return found?.kind === 'aligned' ? found.offsetS : null;
}

function foundPart({ frames }: FilmTrace): Record<string, number> {
  const found: Record<string, number> = {};
  for (const { rim, points } of frames) {
    for (const name of [...Object.keys(points), ...(rim ? ['rim'] : [])]) found[name] = (found[name] ?? 0) + 1 / frames.length;
  }
  return found;
}

function headTold(head: HeadFilm | NoHeadFilm): HeadTold {
  if (head.kind === 'not-found') return head;
  const { alike, landmarks, setAside, noiseTimes, residualPx, iterations, fitted } = head;
  return { alike, landmarks, setAside, noiseTimes, residualPx, iterations, fitted };
}
