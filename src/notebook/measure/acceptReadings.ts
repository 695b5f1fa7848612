/** Measured pictures as readings: those of one note become one, and go where the lesson has a place for them. */
import type { ShareMeaning } from '../../core/lipLine';
import { midiOf } from '../../core/pitch';
import { hornSds, isAngleSeen } from '../../core/readings';
import type { HornSpec, ReadingSpec } from '../../core/specs';
import type { PictureResult, PictureTravel } from '../../measure/pictureResult';
import { MOST_READINGS, TAKE } from '../../records/readingRanges';
import { takeOf } from '../readings/readingsEdits';
import { tidyMm } from '../recordEdits';

export interface MeasuredPicture {
  /** Sounding, scientific; null: not said yet. */
  readonly note: string | null;
  readonly result: PictureResult;
}

export interface Measured {
  readonly note: string;
  /** Which of the pictures shows it best: the one its travel came from, else its first. */
  readonly source: number;
  readonly travel: PictureTravel | null;
  readonly elevation: { readonly deg: number; readonly sdDeg: number } | null;
  readonly lateral: { readonly deg: number; readonly sdDeg: number } | null;
  readonly share: number | null;
}

export type Accepted =
  | { readonly kind: 'readings'; readonly readings: readonly ReadingSpec[]; readonly words: string }
  /** One sentence that says what to do. */
  | { readonly kind: 'refused'; readonly words: string };

/** Notes in the order of the pictures; of several pictures of one note each number is taken where it is surest. */
export function measuredNotes(pictures: readonly MeasuredPicture[], by: ShareMeaning): readonly Measured[] {
  const notes = [...new Set(pictures.flatMap(({ note }) => (note === null ? [] : [note])))];
  return notes.map((note) => {
    const own = pictures.filter((one) => one.note === note);
    return {
      note,
      source: Math.max(0, pictures.findIndex((one) => one.note === note && (one.result.travel !== null || own.every(({ result }) => result.travel === null)))),
      travel: surest(own.map(({ result }) => result.travel), (travel) => travel.sdMm),
      elevation: surest(own.map(({ result }) => result.elevation), (angle) => angle.sdDeg),
      lateral: surest(own.map(({ result }) => result.lateral), (angle) => angle.sdDeg),
      share: surest(own.map(({ result }) => result.share?.[by] ?? null), ({ sd }) => sd)?.value ?? null,
    };
  });
}

/**
 * A note's reading of the same measuring takes the new numbers; else a reading of which nothing was seen yet is filled; every other note
 * is put behind the rest, as one further take.
 */
export function acceptInto(readings: readonly ReadingSpec[], notes: readonly Measured[], measuring: string): Accepted {
  const further = Math.max(0, ...readings.map(takeOf)) + 1;
  let next = [...readings];
  let taken = 0;
  for (const measured of notes) {
    const own = next.filter(({ note }) => midiOf(note) === midiOf(measured.note));
    const at = next.indexOf(own.find(({ from }) => from?.measuring === measuring) ?? own.find(isUnseen) ?? NO_READING);
    const place = next[at];
    const seen = seenIn(measured, place ?? readings.find(({ note }) => midiOf(note) === midiOf(measured.note)));
    if (seen === null) continue;
    taken += 1;
    const from = { measuring, ...(measured.source > 0 && { source: measured.source }) };
    if (place !== undefined) next = next.with(at, { ...place, ...seen, from });
    else next.push({ note: measured.note, ...(readings.length > 0 && { take: further }), ...seen, from });
  }
  if (taken === 0) return { kind: 'refused', words: NOTHING_YET };
  if (next.length > MOST_READINGS) return { kind: 'refused', words: `That would be ${next.length} readings; allowed: up to ${MOST_READINGS}.` };
  if (next.some((one) => takeOf(one) > TAKE[1])) return { kind: 'refused', words: `That would be take ${further}; allowed: up to ${TAKE[1]}.` };
  return { kind: 'readings', readings: next, words: `${taken} ${taken === 1 ? 'reading was' : 'readings were'} taken into the lesson.` };
}

/** Stands for a reading that is not there: no list holds it. */
const NO_READING: ReadingSpec = { note: 'C4' };

const NOTHING_YET =
  'There is nothing to accept yet: give a note to a picture, and mark its rim and head for travel, or both of the horn’s angles (up from the side, sideways from above or from the front).';

const isUnseen = ({ travel, horn, upperLipShare }: ReadingSpec): boolean => travel === undefined && horn === undefined && upperLipShare === undefined;

/** null where the pictures of the note told nothing a reading can hold. */
function seenIn({ travel, elevation, lateral, share }: Measured, known: ReadingSpec | undefined): Partial<ReadingSpec> | null {
  const horn = hornOf(elevation, lateral, known?.horn);
  const seen: Partial<ReadingSpec> = {
    ...(travel !== null && { travel: { upMm: tidyMm(travel.upMm), rightMm: tidyMm(travel.rightMm), sdMm: sdOf(travel.sdMm) } }),
    ...(horn !== null && { horn }),
    ...(share !== null && { upperLipShare: Number(share.toFixed(3)) }),
  };
  return Object.keys(seen).length === 0 ? null : { ...seen, method: 'video' };
}

/**
 * A reading keeps both angles under one deviation: the larger. A half that no picture told is that of the note's earlier reading where it
 * was seen there, or there is no horn.
 */
function hornOf(elevation: Measured['elevation'], lateral: Measured['lateral'], known: HornSpec | undefined): HornSpec | null {
  if (elevation === null && lateral === null) return null;
  const sds = known && hornSds(known);
  const up = elevation ?? (sds && isAngleSeen(sds.sdDeg) ? { deg: known.elevationDeg, sdDeg: sds.sdDeg } : null);
  const right = lateral ?? (sds && isAngleSeen(sds.lateralSdDeg) ? { deg: known.lateralDeg, sdDeg: sds.lateralSdDeg } : null);
  if (up === null || right === null) return null;
  return { elevationDeg: tidyDeg(up.deg), lateralDeg: tidyDeg(right.deg), sdDeg: sdOf(Math.max(up.sdDeg, right.sdDeg)) };
}

function surest<T>(values: readonly (T | null)[], sd: (value: T) => number): T | null {
  const known = values.filter((value) => value !== null);
  return known.toSorted((a, b) => sd(a) - sd(b))[0] ?? null;
}

const tidyDeg = (value: number): number => Number(value.toFixed(2));
/** Two figures are all a deviation is worth; none rounds to 0, which would outweigh every other reading. */
const sdOf = (value: number): number => Math.max(0.001, Number(value.toPrecision(2)));
