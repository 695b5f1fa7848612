/** An open film as the session works with it: its marks, lens and rim put into what the film's worker is asked. */
import type { RimSpec } from '../core/specs';
import { markFile } from '../measure/fileMark';
import { DIAMETER_SD_MM } from '../measure/pictureResult';
import { filmRefusals } from '../measure/refusals';
import { completeMarks } from '../notebook/measure/marksEdits';
import { type FilmDoor, askFilm } from '../workers/askFilm';
import type { FilmOpening, FilmWork, Heard } from './filmingTypes';
import { lensCamera } from './measuringResults';

/** `rim`: that of the lesson on the page, at the moment it is asked for. */
export async function openFilmWork(file: File, rim: () => RimSpec): Promise<FilmOpening> {
  const [door, mark] = await Promise.all([askFilm(file), markFile(file).catch(() => null)]);
  if (door.kind === 'refused') return { kind: 'refused', words: door.words };
  if (mark !== null) return { kind: 'film', work: workOf(door, rim), file: mark };
  door.close();
  return { kind: 'refused', words: filmRefusals.unreadable().words };
}

/** When the second film began, against the first; null: unclear, or stopped. */
export async function alignFilms(first: FilmWork, other: FilmWork, signal: AbortSignal): Promise<{ readonly offsetS: number; readonly sdS: number } | null> {
  // Of what happens at t in the other, t + offsetS in the first: the first film does the comparing.
  const sound = await other.sound(signal);
  const found = sound === null ? null : await first.align(sound, signal);
  return found?.kind === 'aligned' ? { offsetS: found.offsetS, sdS: found.sdS } : null;
}

function workOf(door: FilmDoor, rim: () => RimSpec): FilmWork {
  const { facts } = door;
  return {
    facts,
    frameTimesS: door.frameTimesS,
    frame: door.frame,
    overview: door.overview,
    sound: door.sound,
    align: door.align,
    hear: async (range, signal, onProgress): Promise<Heard | null> => {
      const heard = await door.hear(range, { signal, onProgress });
      if (heard.kind !== 'heard') return null;
      const { notes, tuning } = heard.found;
      return { notes, tuningCents: tuning.kind === 'told' ? tuning.cents : null, words: heard.words };
    },
    follow: async ({ view, anchors }, signal, onProgress) => {
      const { innerDiameterMm, outerDiameterMm } = rim();
      const followed = await door.follow(
        { view, anchors: anchors.map(({ timeS, marks }) => ({ timeS, marks: completeMarks(marks) })), rim: { innerDiameterMm, outerDiameterMm } },
        { signal, onProgress },
      );
      return followed.kind === 'stopped' ? null : followed;
    },
    head: ({ trace, lensMm, hornMarkMm, steady }) =>
      door.head({
        trace,
        camera: lensCamera(facts, lensMm),
        rimDiameterMm: { value: rim().outerDiameterMm, sd: DIAMETER_SD_MM },
        ...(hornMarkMm !== null && { hornMarkMm }),
        steady,
      }),
    close: door.close,
  };
}
