/** Measured pictures as readings: those of one note become one, and go where the lesson has a place for them. */
import type { ShareMeaning } from '../../core/lipLine';
import { midiOf } from '../../core/pitch';
import { UNSEEN_HORN_SD_DEG, hornSds, isAngleSeen, sdsAsKept } from '../../core/readings';
import type { HornSpec, ReadingSpec } from '../../core/specs';
import type { KnownAngle, PictureResult, PictureTravel } from '../../measure/pictureResult';
import { MOST_READINGS, TAKE } from '../../records/readingRanges';
import { sayMarking } from '../../words/marking';
import { takeOf } from '../readings/readingsEdits';
import { tidyDeg, tidyMm } from '../recordEdits';

export interface MeasuredPicture {
  /** Sounding, scientific; null: not said yet. */
  readonly note: string | null;
  readonly result: PictureResult;
}

export interface Measured {
  readonly note: string;
  /** Which of the pictures shows it best: the one its travel came from, else its elevation, else its lateral angle, else its first. */
  readonly source: number;
  readonly travel: PictureTravel | null;
  readonly elevation: KnownAngle | null;
  readonly lateral: KnownAngle | null;
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
    const travel = surest(own.map(({ result }) => result.travel), ({ sdMm, rightSdMm }) => Math.hypot(sdMm, rightSdMm));
    const elevation = surest(own.map(({ result }) => result.elevation), ({ sdDeg }) => sdDeg);
    const lateral = surest(own.map(({ result }) => result.lateral), ({ sdDeg }) => sdDeg);
    const shows = own.find(({ result }) => (travel === null ? (elevation === null ? result.lateral === lateral : result.elevation === elevation) : result.travel === travel));
    return {
      note,
      source: pictures.indexOf(shows ?? own[0]!),
      travel,
      elevation,
      lateral,
      share: surest(own.map(({ result }) => result.share?.[by] ?? null), ({ sd }) => sd)?.value ?? null,
    };
  });
}

/**
 * A note's reading of the same measuring takes the new numbers; else a reading of which nothing was seen yet is filled; every other note
 * is put behind the rest, as one further take where anything was seen in another. `home`: the note that travel counts from; null: none is.
 */
export function acceptInto(readings: readonly ReadingSpec[], notes: readonly Measured[], measuring: string, home: string | null): Accepted {
  const others = readings.filter(({ from }) => from?.measuring !== measuring);
  const last = Math.max(1, ...others.map(takeOf));
  const take = others.every(isUnseen) ? last : last + 1;
  let next = [...readings];
  let taken = 0;
  const atHome = home === null ? undefined : notes.find(({ note }) => midiOf(note) === midiOf(home));
  for (const measured of notes) {
    const own = next.filter(({ note }) => midiOf(note) === midiOf(measured.note));
    const at = next.indexOf(own.find(({ from }) => from?.measuring === measuring) ?? own.find(isUnseen) ?? NO_READING);
    const place = next[at];
    const seen = seenIn(measured, place, atHome);
    if (seen === null) continue;
    taken += 1;
    const from = { measuring, ...(measured.source > 0 && { source: measured.source }) };
    if (place !== undefined) next = next.with(at, { ...place, ...seen, from });
    else next.push({ note: measured.note, ...(take > 1 && { take }), ...seen, from });
  }
  if (taken === 0) return { kind: 'refused', words: sayMarking('nothingYet') };
  if (next.length > MOST_READINGS) return { kind: 'refused', words: sayMarking('tooManyReadings', { count: next.length, most: MOST_READINGS }) };
  if (next.some((one) => takeOf(one) > TAKE[1])) return { kind: 'refused', words: sayMarking('tooManyTakes', { take, most: TAKE[1] }) };
  return { kind: 'readings', readings: next, words: sayMarking('taken', { count: taken }) };
}

/** Stands for a reading that is not there: no list holds it. */
const NO_READING: ReadingSpec = { note: 'C4' };

const isUnseen = ({ travel, horn, upperLipShare }: ReadingSpec): boolean => travel === undefined && horn === undefined && upperLipShare === undefined;

/** null where the pictures of the note told nothing a reading can hold. */
function seenIn({ travel, elevation, lateral, share }: Measured, known: ReadingSpec | undefined, atHome: Measured | undefined): Partial<ReadingSpec> | null {
  const horn = hornOf(elevation, lateral, known?.horn, atHome);
  const seen: Partial<ReadingSpec> = {
    ...(travel !== null && { travel: { upMm: tidyMm(travel.upMm), rightMm: tidyMm(travel.rightMm), ...sdsAsKept(sdOf(travel.sdMm), sdOf(travel.rightSdMm)) } }),
    ...(horn !== null && { horn }),
    ...(share !== null && { upperLipShare: Number(share.toFixed(3)) }),
  };
  return Object.keys(seen).length === 0 ? null : { ...seen, method: 'picture' };
}

/**
 * An angle that no picture told stays as it was seen in the very reading that takes the numbers; else it stands as at home (0 where home has
 * none), with the deviation of the unseen. Copied from another reading of the note it would be pooled with that one, and so counted twice.
 * null where neither was told.
 */
function hornOf(elevation: Measured['elevation'], lateral: Measured['lateral'], known: HornSpec | undefined, atHome: Measured | undefined): HornSpec | null {
  if (elevation === null && lateral === null) return null;
  const sds = known && hornSds(known);
  const unseen = (which: 'elevation' | 'lateral'): KnownAngle => ({ deg: atHome?.[which]?.deg ?? 0, sdDeg: UNSEEN_HORN_SD_DEG });
  const up = elevation ?? (sds && isAngleSeen(sds.sdDeg) ? { deg: known.elevationDeg, sdDeg: sds.sdDeg } : unseen('elevation'));
  const right = lateral ?? (sds && isAngleSeen(sds.lateralSdDeg) ? { deg: known.lateralDeg, sdDeg: sds.lateralSdDeg } : unseen('lateral'));
  return { elevationDeg: tidyDeg(up.deg), lateralDeg: tidyDeg(right.deg), sdDeg: sdOf(up.sdDeg), lateralSdDeg: sdOf(right.sdDeg) };
}

function surest<T>(values: readonly (T | null)[], sd: (value: T) => number): T | null {
  const known = values.filter((value) => value !== null);
  return known.toSorted((a, b) => sd(a) - sd(b))[0] ?? null;
}

/** Two figures are all a deviation is worth; none rounds to 0, which would outweigh every other reading. */
const sdOf = (value: number): number => Math.max(0.001, Number(value.toPrecision(2)));
