/** A take on film as a lesson keeps it, and its readings. */
import { midiOf } from '../core/pitch';
import type { ReadingSpec } from '../core/specs';
import { packTrace } from '../measure/packedTrace';
import { steadySpan } from '../measure/steadySpan';
import { type MeasuredNote, isTold, readingsOfTake } from '../measure/takeReadings';
import { completeMarks } from '../notebook/measure/marksEdits';
import { takeOf } from '../notebook/readings/readingsEdits';
import type { Measuring } from '../records/measuringSchema';
import { MOST_READINGS, TAKE } from '../records/readingRanges';
import type { FilmSource } from './filmingTypes';
import { lensCamera } from './measuringResults';

export interface TakeAsked {
  readonly measuringId: string;
  readonly date: string;
  readonly films: readonly FilmSource[];
  readonly notes: readonly MeasuredNote[];
  readonly tuningCents: number | null;
  readonly homeMidi: number;
}

export type TakenIn =
  | { readonly kind: 'taken'; readonly readings: readonly ReadingSpec[]; readonly measuring: Measuring; readonly words: string }
  /** One sentence that says what to do. */
  | { readonly kind: 'refused'; readonly words: string };

/** The readings of the same measuring give way to the new ones; else they are put behind the rest as one further take. */
export function takenIn(before: readonly ReadingSpec[], asked: TakeAsked): TakenIn {
  const { measuringId, notes, homeMidi } = asked;
  const others = before.filter(({ from }) => from?.measuring !== measuringId);
  const own = before.find(({ from }) => from?.measuring === measuringId);
  const isEmpty = others.every(({ travel, horn }) => travel === undefined && horn === undefined);
  const take = own !== undefined ? takeOf(own) : isEmpty ? 1 : Math.max(0, ...others.map(takeOf)) + 1;
  if (take > TAKE[1]) return { kind: 'refused', words: `That would be take ${take}; allowed: up to ${TAKE[1]}.` };
  const told = notes.filter(({ note, travel, elevation, lateral }) => note.midi !== null && (isTold(travel) || isTold(elevation) || isTold(lateral)));
  if (told.length === 0) return { kind: 'refused', words: 'Nothing was measured at any note yet: follow the marks through the film first, and name its notes.' };
  const readings = told.flatMap((one) => readingsOfTake([one, ...homesOf(notes, homeMidi, one)], homeMidi, { take }).slice(0, 1).map((reading) => tidy(reading, measuringId, one)));
  // What nobody has seen yet is filled rather than repeated.
  const seen = new Set(readings.map(({ note }) => midiOf(note)));
  const rest = isEmpty ? others.filter(({ note }) => !seen.has(midiOf(note))) : others;
  const all = [...rest, ...readings];
  if (all.length > MOST_READINGS) return { kind: 'refused', words: `That would be ${all.length} readings; allowed: up to ${MOST_READINGS}.` };
  const words = `${readings.length} ${readings.length === 1 ? 'reading was' : 'readings were'} taken into the lesson as take ${take}.`;
  return { kind: 'taken', readings: all, measuring: measuringOf(asked, take, told, readings), words };
}

/** An angle that was not seen stands as at home: the home notes go along. */
const homesOf = (notes: readonly MeasuredNote[], homeMidi: number, but: MeasuredNote): readonly MeasuredNote[] =>
  notes.filter((one) => one !== but && one.note.midi === homeMidi);

function tidy(reading: ReadingSpec, measuring: string, { note }: MeasuredNote): ReadingSpec {
  const { startS, endS } = steadySpan(note);
  const { travel, horn } = reading;
  return {
    ...reading,
    ...(travel !== undefined && { travel: { upMm: hundredths(travel.upMm), rightMm: hundredths(travel.rightMm), sdMm: twoFigures(travel.sdMm ?? 0) } }),
    ...(horn !== undefined && {
      horn: {
        elevationDeg: hundredths(horn.elevationDeg),
        lateralDeg: hundredths(horn.lateralDeg),
        sdDeg: twoFigures(horn.sdDeg ?? 0),
        lateralSdDeg: twoFigures(horn.lateralSdDeg ?? 0),
      },
    }),
    from: { measuring, startS: thousandths(startS), endS: thousandths(endS) },
  };
}

function measuringOf({ measuringId, date, films, notes, tuningCents }: TakeAsked, take: number, told: readonly MeasuredNote[], readings: readonly ReadingSpec[]): Measuring {
  return {
    id: measuringId,
    kind: 'film',
    date,
    take,
    sources: films.map(({ file, view, work: { facts }, lensMm, hornMarkMm, offsetS, anchors, followed }) => {
      const { width, height, focalPx, focalRelativeSd } = lensCamera(facts, lensMm);
      return {
        ...{ name: file.name, bytes: file.bytes, digest: file.digest, view, width, height, focalPx, focalRelativeSd },
        durationS: facts.endS - facts.startS,
        ...(offsetS !== null && offsetS !== 0 && { offsetS }),
        anchors: anchors.present.map(({ timeS, marks }) => {
          const { rim, lipLine, ...others } = completeMarks({ ...marks, hornMarkMm });
          return { timeS, marks: { ...others, ...(rim !== undefined && { rim: [...rim] }), ...(lipLine !== undefined && { lipLine: [...lipLine] }) } };
        }),
        ...(followed !== null && { trace: packTrace(followed.trace) }),
      };
    }),
    sound: { tuningCents, notes: notes.map(({ note }) => ({ ...note })) },
    accepted: told.map((one, index) => {
      const { note, travel, horn } = readings[index]!;
      const { startS, endS } = steadySpan(one.note);
      return {
        note,
        startS: thousandths(startS),
        endS: thousandths(endS),
        ...(travel !== undefined && { travel: { upMm: travel.upMm, rightMm: travel.rightMm, sdMm: travel.sdMm ?? 0 } }),
        ...(horn !== undefined && isTold(one.elevation) && { elevation: { deg: horn.elevationDeg, sdDeg: horn.sdDeg ?? 0 } }),
        ...(horn !== undefined && isTold(one.lateral) && { lateral: { deg: horn.lateralDeg, sdDeg: horn.lateralSdDeg ?? 0 } }),
        frames: Math.max(0, ...[one.travel, one.elevation, one.lateral].map((answer) => (isTold(answer) ? answer.frames : 0))),
      };
    }),
  };
}

const hundredths = (value: number): number => Number(value.toFixed(2));
const thousandths = (value: number): number => Number(value.toFixed(3));
/** Two figures are all a deviation is worth; none rounds to 0, which would outweigh every other reading. */
const twoFigures = (sd: number): number => Math.max(0.001, Number(sd.toPrecision(2)));
