/** A film that a lesson has measured before, as it is taken up again: nothing has to be marked, followed or heard a second time. */
import { midiOf } from '../core/pitch';
import type { LessonSpec } from '../core/specs';
import { type FileMark, isSameFile } from '../measure/fileMark';
import { markedTimes } from '../measure/markedAgain';
import type { PictureMarks, ViewFrom } from '../measure/marks';
import { unpackTrace } from '../measure/packedTrace';
import type { FilmTrace, NoteHeard, TracedName } from '../measure/traces';
import type { FilmAnchorDraft } from '../notebook/measure/anchorEdits';
import { type DraftMarks, completeMarks, markAt, marksPut } from '../notebook/measure/marksEdits';
import type { Measuring, MeasuringSource } from '../records/measuringSchema';
import type { MeasuringKeeping } from './measuringKeeping';
import { draftOf } from './measuringKept';
import { lensFromKept } from './measuringResults';

export interface KeptFilm {
  readonly measuringId: string;
  /** All files of the measuring, in its order: its id is taken over only when every one of them is open. */
  readonly files: readonly Pick<FileMark, 'bytes' | 'digest'>[];
  /** Its place among them. */
  readonly place: number;
  readonly view: ViewFrom;
  /** Full-frame focal length, mm; null: it was assumed. */
  readonly lensMm: number | null;
  readonly hornMarkMm: DraftMarks['hornMarkMm'];
  readonly anchors: readonly FilmAnchorDraft[];
  /** To be added to its times to give those of the measuring's first film. */
  readonly offsetS: number;
  /** null: none was kept, or it cannot be read. */
  readonly trace: FilmTrace | null;
  /** Marked, but in no frame of the trace. */
  readonly notFollowed: readonly (TracedName | 'rim')[];
  /** The sounding note that its travel counted from; null: it was not said. */
  readonly homeMidi: number | null;
  /** The take's, on the first film's clock; null where nothing was kept of them. */
  readonly sound: { readonly tuningCents: number | null; readonly notes: readonly NoteHeard[] } | null;
}

/** What the lesson's measurings hold of a file: that of `measuringId` where it is given, else the last of several; null where none does. */
export function filmInLesson(
  { measurings = [] }: LessonSpec,
  file: Pick<FileMark, 'bytes' | 'digest'>,
  readMeasuring: MeasuringKeeping['readMeasuring'],
  measuringId: string | null = null,
): KeptFilm | null {
  for (const kept of measurings.toReversed()) {
    if (measuringId !== null && kept.id !== measuringId) continue;
    const read = readMeasuring(kept);
    if (read.kind !== 'measuring' || read.measuring.kind !== 'film') continue;
    const place = read.measuring.sources.findIndex((one) => isSameFile(one, file));
    if (place !== -1) return keptFilm(read.measuring, place);
  }
  return null;
}

/** Whether marks put since are those that are kept: lines with one end are not, and the horn's mark is the film's own. */
export function areAnchorsKept(now: readonly FilmAnchorDraft[], { anchors }: Pick<KeptFilm, 'anchors'>): boolean {
  const placesOf = (all: readonly FilmAnchorDraft[]): string[] =>
    all.flatMap(({ timeS, marks }) => {
      const whole = draftOf(completeMarks(marks));
      return marksPut(whole).map((id) => `${timeS} ${id} ${markAt(whole, id)!.x} ${markAt(whole, id)!.y}`);
    });
  const [one, other] = [placesOf(now), placesOf(anchors)];
  return one.length === other.length && one.every((place, index) => place === other[index]);
}

function keptFilm({ id, sources, sound, home }: Measuring, place: number): KeptFilm {
  const source = sources[place]!;
  const trace = traceOf(source);
  return {
    measuringId: id,
    files: sources,
    place,
    view: source.view,
    lensMm: lensFromKept(source),
    hornMarkMm: source.anchors.find(({ marks }) => marks.hornMarkMm !== undefined)?.marks.hornMarkMm ?? null,
    anchors: source.anchors.map(({ timeS, marks }) => ({ timeS, marks: { ...draftOf(marks), hornMarkMm: null } })),
    offsetS: source.offsetS ?? 0,
    trace,
    notFollowed: trace === null ? [] : notFollowedIn(trace, source.anchors.map(({ marks }) => marks)),
    homeMidi: home === undefined ? null : midiOf(home),
    sound: sound === undefined ? null : sound,
  };
}

function traceOf({ trace, view, anchors }: MeasuringSource): FilmTrace | null {
  if (trace === undefined) return null;
  const unpacked = unpackTrace(trace, view);
  // Which marks it was followed from is kept with these.
  return unpacked.kind === 'trace' ? { ...unpacked.trace, marked: markedTimes(anchors) } : null;
}

/** What a person marked and no frame has: it was said to be not followed when it was measured. */
function notFollowedIn({ frames }: FilmTrace, marks: readonly PictureMarks[]): readonly (TracedName | 'rim')[] {
  const marked = new Set(marks.flatMap(({ rim, landmarks, level, horn }): (TracedName | 'rim')[] => [
    ...(rim === undefined || rim.length < LEAST_RIM_POINTS ? [] : ['rim' as const]),
    ...(Object.keys(landmarks) as TracedName[]),
    ...(level === undefined ? [] : (['level-back', 'level-front'] as const)),
    ...(horn === undefined ? [] : (['horn-near', 'horn-far'] as const)),
  ]));
  return [...marked].filter((name) => !frames.some(({ rim, points }) => (name === 'rim' ? rim !== null : points[name] !== undefined)));
}

/** Fewer make no ellipse. */
export const LEAST_RIM_POINTS = 5;
