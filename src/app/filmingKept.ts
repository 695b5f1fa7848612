/** A take on film as a lesson keeps it, and its readings. */
import { noteName } from '../core/pitch';
import { sdsAsKept, travelSds } from '../core/readings';
import type { ReadingSpec } from '../core/specs';
import { packTrace } from '../measure/packedTrace';
import { steadySpan } from '../measure/steadySpan';
import { type MeasuredNote, isTold, readingsOfTake } from '../measure/takeReadings';
import { completeMarks } from '../notebook/measure/marksEdits';
import type { NoteHeard } from '../measure/traces';
import type { Measuring } from '../records/measuringSchema';
import { HORN_DEG, HORN_SD_DEG_RANGE, MOST_READINGS, TAKE, TRAVEL_MM, TRAVEL_SD_MM_RANGE } from '../records/readingRanges';
import { sayFilming } from '../words/filming';
import { sayMarking } from '../words/marking';
import type { FilmSource } from './filmingTypes';
import { lensCamera } from './measuringResults';
import { framesSeen } from './takeResults';
import { intoRows } from './takenRows';

export interface TakeAsked {
  readonly measuringId: string;
  readonly date: string;
  readonly films: readonly FilmSource[];
  readonly notes: readonly MeasuredNote[];
  /** What each film alone tells of them, by its id. */
  readonly notesOf: ReadonlyMap<string, readonly MeasuredNote[]>;
  readonly tuningCents: number | null;
  /** The sounding note that travel counts from; null: none. */
  readonly homeMidi: number | null;
  /** It was chosen for this take: the lesson names none. */
  readonly isHomeChosen: boolean;
  /** The same measuring as the lesson keeps it; null: it was not accepted before. */
  readonly before: Pick<Measuring, 'accepted'> | null;
  /** As the page names it. */
  nameOf(note: NoteHeard): string;
}

export type TakenIn =
  | { readonly kind: 'taken'; readonly readings: readonly ReadingSpec[]; readonly measuring: Measuring; readonly words: string }
  /** One sentence that says what to do. */
  | { readonly kind: 'refused'; readonly words: string };

/** The films that a take is made of: followed, and brought onto its clock. What is not, tells nothing and would be kept as if it had begun with the first. */
export const tellingFilms = (films: readonly FilmSource[]): readonly FilmSource[] => films.filter(({ followed, offsetS }) => followed !== null && offsetS !== null);

/**
 * What the films tell goes into the lesson's rows. Several soundings of one note stay readings of their own: each leads to its own frame,
 * and only so can one be played on the way up and another on the way down. Pooled by core they count as independent, though they share the
 * film's own errors: n of them then seem up to √n times surer than they are (docs/numerics.md §21).
 */
export function takenIn(before: readonly ReadingSpec[], asked: TakeAsked): TakenIn {
  const { measuringId, notes } = asked;
  const homeMidi = asked.homeMidi ?? NO_HOME;
  const named = notes.filter(({ note, travel, elevation, lateral }) => note.midi !== null && (isTold(travel) || isTold(elevation) || isTold(lateral)));
  const told = named.filter((one) => !isMad(one));
  const left = named.filter(isMad).map(({ note }) => asked.nameOf(note));
  const leftWords = left.length === 0 ? null : sayFilming('leftOut', { notes: left.join(', '), ...possible() });
  if (told.length === 0) return { kind: 'refused', words: leftWords ?? sayFilming('nothingMeasured') };
  const clockS = clockOf(asked.films);
  const measured = told.map((one) => tidy(readingsOfTake([one, ...homesOf(notes, homeMidi, one)], homeMidi, { take: 1 })[0]!, measuringId, one, giver(asked, one).source, clockS));
  const { readings, take } = intoRows(before, measured, measuringId, asked.before);
  if (take > TAKE[1]) return { kind: 'refused', words: sayMarking('tooManyTakes', { take, most: TAKE[1] }) };
  if (readings.length > MOST_READINGS) return { kind: 'refused', words: sayMarking('tooManyReadings', { count: readings.length, most: MOST_READINGS }) };
  const words = sayFilming('taken', { count: measured.length, take });
  return { kind: 'taken', readings, measuring: measuringOf(asked, take, told, measured, clockS), words: leftWords === null ? words : `${words} ${leftWords}` };
}

/** What is kept goes by the clock of its own first film, which need not be the take's: opened again, nothing else gives one. */
const clockOf = ([first]: readonly FilmSource[]): number => first?.offsetS ?? 0;

/** A head fitted to slipped marks tells numbers that no reading may hold. */
function isMad({ travel, elevation, lateral }: MeasuredNote): boolean {
  const isOut = (value: number, [lowest, highest]: readonly [number, number]): boolean => !(value >= lowest && value <= highest);
  const isAngleOut = (angle: MeasuredNote['elevation']): boolean => isTold(angle) && (isOut(angle.value, HORN_DEG) || angle.sd > HORN_SD_DEG_RANGE[1]);
  const isTravelOut = isTold(travel) && (isOut(travel.upMm, TRAVEL_MM) || isOut(travel.rightMm, TRAVEL_MM) || Math.max(travel.sdMm, travel.rightSdMm) > TRAVEL_SD_MM_RANGE[1]);
  return isTravelOut || isAngleOut(elevation) || isAngleOut(lateral);
}

/** What a reading may hold. */
const possible = () => ({ travel: TRAVEL_MM[1], travelSd: TRAVEL_SD_MM_RANGE[1], horn: HORN_DEG[1], hornSd: HORN_SD_DEG_RANGE[1] });

/** The film that gave a note's reading, and from how many of its frames: where travel was seen, else the first that saw anything of it. */
function giver({ films, notes, notesOf }: TakeAsked, note: MeasuredNote): { readonly source: number; readonly frames: number } {
  const at = notes.indexOf(note);
  const own = films.map(({ id }) => notesOf.get(id)?.[at]);
  const withTravel = own.findIndex((one) => one !== undefined && isTold(one.travel));
  const source = withTravel >= 0 ? withTravel : Math.max(0, own.findIndex((one) => one !== undefined && framesSeen(one) > 0));
  return { source, frames: own[source] === undefined ? 0 : framesSeen(own[source]) };
}

/** No note has this pitch. */
const NO_HOME = -1;

/** An angle that was not seen stands as at home: the home notes go along. */
const homesOf = (notes: readonly MeasuredNote[], homeMidi: number, but: MeasuredNote): readonly MeasuredNote[] =>
  notes.filter((one) => one !== but && one.note.midi === homeMidi);

function tidy(reading: ReadingSpec, measuring: string, { note }: MeasuredNote, source: number, clockS: number): ReadingSpec {
  const { startS, endS } = steadySpan(note);
  const { travel, horn } = reading;
  const sds = travelSds(reading);
  return {
    ...reading,
    ...(travel !== undefined && { travel: { upMm: hundredths(travel.upMm), rightMm: hundredths(travel.rightMm), ...sdsAsKept(twoFigures(sds.sdMm), twoFigures(sds.rightSdMm)) } }),
    ...(horn !== undefined && {
      horn: {
        elevationDeg: hundredths(horn.elevationDeg),
        lateralDeg: hundredths(horn.lateralDeg),
        sdDeg: twoFigures(horn.sdDeg ?? 0),
        lateralSdDeg: twoFigures(horn.lateralSdDeg ?? 0),
      },
    }),
    from: { measuring, ...(source > 0 && { source }), startS: thousandths(startS - clockS), endS: thousandths(endS - clockS) },
  };
}

function measuringOf(asked: TakeAsked, take: number, told: readonly MeasuredNote[], readings: readonly ReadingSpec[], clockS: number): Measuring {
  const { measuringId, date, films, notes, tuningCents, homeMidi, isHomeChosen } = asked;
  return {
    id: measuringId,
    kind: 'film',
    date,
    take,
    ...(isHomeChosen && homeMidi !== null && { home: noteName(homeMidi) }),
    sources: films.map(({ file, view: chosen, work: { facts }, lensMm, hornMarkMm, offsetS, anchors, followed }) => {
      const { width, height, focalPx, focalRelativeSd } = lensCamera(facts, lensMm);
      const beganS = offsetS === null ? 0 : offsetS - clockS;
      // What was followed is read by the view that it was followed in.
      const view = followed?.trace.view ?? chosen;
      return {
        ...{ name: file.name, bytes: file.bytes, digest: file.digest, view, width, height, focalPx, focalRelativeSd },
        durationS: facts.endS - facts.startS,
        ...(beganS !== 0 && { offsetS: beganS }),
        anchors: anchors.present.map(({ timeS, marks }) => {
          const { rim, lipLine, ...others } = completeMarks({ ...marks, hornMarkMm });
          return { timeS, marks: { ...others, ...(rim !== undefined && { rim: [...rim] }), ...(lipLine !== undefined && { lipLine: [...lipLine] }) } };
        }),
        ...(followed !== null && { trace: packTrace(followed.trace) }),
      };
    }),
    sound: { tuningCents, notes: notesKept(films, notes, clockS) },
    accepted: told.map((one, index) => {
      const { note, travel, horn } = readings[index]!;
      const { source, frames } = giver(asked, one);
      return {
        note,
        ...(source > 0 && { source }),
        startS: readings[index]!.from!.startS!,
        endS: readings[index]!.from!.endS!,
        ...(travel !== undefined && { travel: { ...travel, sdMm: travelSds(readings[index]!).sdMm } }),
        ...(horn !== undefined && isTold(one.elevation) && { elevation: { deg: horn.elevationDeg, sdDeg: horn.sdDeg ?? 0 } }),
        ...(horn !== undefined && isTold(one.lateral) && { lateral: { deg: horn.lateralDeg, sdDeg: horn.lateralSdDeg ?? 0 } }),
        frames,
      };
    }),
  };
}

/** What was heard before the first of the kept films began has no frame in any of them. */
function notesKept(films: readonly FilmSource[], notes: readonly MeasuredNote[], clockS: number): Mutable<NoteHeard>[] {
  const beginsS = Math.min(...films.map(({ offsetS, work: { facts } }) => facts.startS + (offsetS ?? 0)));
  const within = clockS === 0 ? notes : notes.filter(({ note }) => note.endS > beginsS);
  return within.map(({ note }) => ({ ...note, startS: note.startS - clockS, endS: note.endS - clockS }));
}

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] };

const hundredths = (value: number): number => Number(value.toFixed(2));
const thousandths = (value: number): number => Number(value.toFixed(3));
/** Two figures are all a deviation is worth; none rounds to 0, which would outweigh every other reading. */
const twoFigures = (sd: number): number => Math.max(0.001, Number(sd.toPrecision(2)));
