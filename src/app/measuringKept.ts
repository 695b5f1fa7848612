/** Measured pictures as a lesson keeps them, and found again when a picture is opened once more. */
import type { LessonSpec } from '../core/specs';
import { type FileMark, isSameFile } from '../measure/fileMark';
import type { PictureMarks } from '../measure/marks';
import type { Measured } from '../notebook/measure/acceptReadings';
import { type DraftMarks, NO_MARKS, completeMarks } from '../notebook/measure/marksEdits';
import type { Measuring } from '../records/measuringSchema';
import type { MeasuringKeeping } from './measuringKeeping';
import { cameraOf } from './measuringResults';
import type { KeptMarks } from './marksKept';
import type { MeasuringSource } from './measuring';

export function keptPictures(id: string, date: string, sources: readonly MeasuringSource[], notes: readonly Measured[]): Measuring {
  return {
    id,
    kind: 'pictures',
    date,
    sources: sources.map((source) => {
      const { width, height, focalPx, focalRelativeSd } = cameraOf(source);
      const { name, bytes, digest } = source.file;
      const marks = completeMarks(source.marks.present);
      return {
        ...{ name, bytes, digest, view: source.view, width, height, focalPx, focalRelativeSd },
        anchors: [{ timeS: 0, marks: { ...marks, rim: listed(marks.rim), lipLine: listed(marks.lipLine) } }],
      };
    }),
    accepted: notes.map(({ note, source, travel, elevation, lateral, share }) => ({
      note,
      source,
      ...(travel !== null && { travel }),
      ...(elevation !== null && { elevation }),
      ...(lateral !== null && { lateral }),
      ...(share !== null && { upperLipShare: share }),
      frames: 1,
    })),
  };
}

/** The marks of the same file in a lesson's measurings, the last of several; null where none holds it. */
export function marksInLesson({ measurings = [] }: LessonSpec, file: FileMark, readMeasuring: MeasuringKeeping['readMeasuring']): KeptMarks | null {
  for (const kept of measurings.toReversed()) {
    const read = readMeasuring(kept);
    const source = read.kind === 'measuring' ? read.measuring.sources.findIndex((one) => isSameFile(one, file)) : -1;
    if (read.kind !== 'measuring' || source === -1) continue;
    const { view, anchors } = read.measuring.sources[source]!;
    const note = read.measuring.accepted.find((one) => (one.source ?? 0) === source)?.note ?? null;
    return { view, note, marks: draftOf(anchors[0]?.marks) };
  }
  return null;
}

/** Kept marks, to be changed again. */
export function draftOf(marks: PictureMarks | undefined): DraftMarks {
  if (marks === undefined) return NO_MARKS;
  const { rim = [], landmarks, level = {}, horn = {}, hornMarkMm = null, lipLine = [] } = marks;
  return { rim, landmarks, level, horn, hornMarkMm, lipLine };
}

/** A list of one's own: the kept shape is given away. */
const listed = <T>(points: readonly T[] | undefined): T[] | undefined => (points === undefined ? undefined : [...points]);
