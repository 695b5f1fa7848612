/** What the open pictures say, worked out once for the marks, lenses and rim they have. */
import { midiOf } from '../core/pitch';
import type { RimSpec } from '../core/specs';
import { focalFromEquivalent, unknownCamera } from '../measure/camera';
import type { CameraSpec } from '../measure/marks';
import { type MarkedPicture, type PictureResult, resultsOf } from '../measure/pictureResult';
import { completeMarks } from '../notebook/measure/marksEdits';
import type { LensShown } from '../notebook/measure/props';
import type { MeasuringSource, MeasuringState } from './measuring';

export interface Results {
  /** By the picture's id. */
  of(sources: readonly MeasuringSource[], rim: RimSpec, homeId: string | null): ReadonlyMap<string, PictureResult>;
}

export function createResults(): Results {
  let known: { readonly asked: readonly unknown[]; readonly results: ReadonlyMap<string, PictureResult> } | null = null;
  return {
    of: (sources, rim, homeId) => {
      const asked = [rim, homeId, ...sources.flatMap(({ id, picture, view, lensMm, marks: { present } }) => [id, picture, view, lensMm, present])];
      if (known !== null && known.asked.length === asked.length && known.asked.every((one, index) => one === asked[index])) return known.results;
      const home = sources.findIndex(({ id }) => id === homeId);
      const results = resultsOf(sources.map(markedPicture), rim, home === -1 ? null : home);
      known = { asked, results: new Map(sources.map(({ id }, index) => [id, results[index]!])) };
      return known.results;
    },
  };
}

/** The home picture that travel is counted from; null where none is, or where it is of another note than the lesson's home, which would shift every travel unseen. */
export function countedHome({ sources, homeId }: Pick<MeasuringState, 'sources' | 'homeId'>, lessonHome: string | undefined): string | null {
  const note = sources.find(({ id }) => id === homeId)?.note ?? null;
  return lessonHome === undefined || (note !== null && midiOf(note) === midiOf(lessonHome)) ? homeId : null;
}

function markedPicture(source: MeasuringSource): MarkedPicture {
  return { view: source.view, marks: completeMarks(source.marks.present), camera: cameraOf(source) };
}

/** How far a focal length that is told, by the file or by a person, may be off, as a part: makers round it, and phones crop. */
const TOLD_RELATIVE_SD = 0.03;

export function cameraOf({ picture, lensMm }: MeasuringSource): CameraSpec {
  return lensCamera(picture, lensMm ?? picture.equivalentMm);
}

/** `lensMm` as on a full-frame camera; null: nobody knows. */
export function lensCamera({ width, height }: { readonly width: number; readonly height: number }, lensMm: number | null): CameraSpec {
  if (lensMm === null) return unknownCamera(width, height);
  return { width, height, focalPx: focalFromEquivalent(lensMm, width, height), focalRelativeSd: TOLD_RELATIVE_SD };
}

/** The lens that a person told, from what is kept of it; null: it was assumed. */
export function lensFromKept({ width, height, focalPx, focalRelativeSd }: CameraSpec): number | null {
  // By how sure it was one knows which it was.
  return focalRelativeSd === TOLD_RELATIVE_SD ? focalPx / focalFromEquivalent(1, width, height) : null;
}

export function lensOf(source: MeasuringSource): LensShown {
  if (source.lensMm !== null) return { millimetres: source.lensMm, from: 'person' };
  const { width, height, equivalentMm } = source.picture;
  if (equivalentMm !== null) return { millimetres: equivalentMm, from: 'picture' };
  return { millimetres: unknownCamera(width, height).focalPx / focalFromEquivalent(1, width, height), from: 'assumed' };
}

