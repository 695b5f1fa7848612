/** What was measured at the notes of a take put into the lesson's rows: nothing that was typed there is lost. */
import { midiOf } from '../core/pitch';
import { UNSEEN_HORN_SD_DEG, hornSds, isAngleSeen } from '../core/readings';
import type { HornSpec, ReadingSpec } from '../core/specs';
import { takeOf } from '../notebook/readings/readingsEdits';
import type { Measuring } from '../records/measuringSchema';
import { changedSince } from '../records/changedReading';

export interface TakenRows {
  /** All of the lesson's. */
  readonly readings: readonly ReadingSpec[];
  readonly take: number;
}

/**
 * The rows of the same measuring take the new numbers; where of no row travel or horn was seen, those of the same note are filled; every
 * other reading is put behind the rest, as one further take. What a film does not tell (remarks, ease, air, share, way) stays as it is.
 * `measured`: what the films told, in the order of time. `before`: the same measuring as it was kept last; null: it is a new one.
 */
export function intoRows(rows: readonly ReadingSpec[], measured: readonly ReadingSpec[], measuringId: string, before: Pick<Measuring, 'accepted'> | null): TakenRows {
  const isOwn = ({ from }: ReadingSpec): boolean => from?.measuring === measuringId;
  const others = rows.filter((row) => !isOwn(row));
  const own = rows.find(isOwn);
  const isEmpty = others.every(({ travel, horn }) => travel === undefined && horn === undefined);
  const take = own !== undefined ? takeOf(own) : isEmpty ? 1 : Math.max(0, ...others.map(takeOf)) + 1;
  const next: (ReadingSpec | null)[] = [...rows];
  const used = new Set<number>();
  const further: ReadingSpec[] = [];
  for (const reading of measured) {
    const free = rows.flatMap((row, index) => (!used.has(index) && midiOf(row.note) === midiOf(reading.note) && (isOwn(row) || isEmpty) ? [index] : []));
    const at = nearest(rows, free.filter((index) => isOwn(rows[index]!)), reading) ?? free.find((index) => !isOwn(rows[index]!));
    if (at === undefined) further.push({ ...reading, take });
    else {
      used.add(at);
      const left = cleared(rows[at]!, isOwn(rows[at]!) ? before : null);
      next[at] = { ...left, ...reading, ...(reading.horn !== undefined && { horn: joined(reading.horn, left.horn) }), take };
    }
  }
  // A note that the take no longer tells: only what a person has said of it stays.
  rows.forEach((row, index) => {
    if (!isOwn(row) || used.has(index)) return;
    const left = cleared(row, before);
    next[index] = isSaid(left) ? left : null;
  });
  return { readings: [...next.filter((row) => row !== null), ...further], take };
}

/** Of several soundings of one note the one that was taken from the nearest time. */
function nearest(rows: readonly ReadingSpec[], places: readonly number[], { from }: ReadingSpec): number | undefined {
  const apart = (index: number): number => Math.abs((rows[index]!.from?.startS ?? 0) - (from?.startS ?? 0));
  return places.toSorted((a, b) => apart(a) - apart(b))[0];
}

/** The row without what was measured in it; a number that a hand has put in its place since, or beside it, stays. */
function cleared(row: ReadingSpec, before: Pick<Measuring, 'accepted'> | null): ReadingSpec {
  if (before === null) return row;
  const { travel, horn, from: _from, method: _method, ...said } = row;
  const since = changedSince(before, row);
  const isAny = (which: 'elevation' | 'lateral'): boolean => since[which] !== 'as-measured';
  const left = horn && hornOf(horn, isAny('elevation'), isAny('lateral'));
  return { ...said, ...(since.travel !== 'as-measured' && travel !== undefined && { travel }), ...(left != null && { horn: left }) };
}

/** Of both angles those that are wanted and were seen; the other stands there as one that nobody saw. null: neither. */
function hornOf(horn: HornSpec, wantsElevation: boolean, wantsLateral: boolean): HornSpec | null {
  const { sdDeg, lateralSdDeg } = hornSds(horn);
  const [elevation, lateral] = [wantsElevation && isAngleSeen(sdDeg), wantsLateral && isAngleSeen(lateralSdDeg)];
  if (!elevation && !lateral) return null;
  return { ...horn, sdDeg: elevation ? sdDeg : UNSEEN_HORN_SD_DEG, lateralSdDeg: lateral ? lateralSdDeg : UNSEEN_HORN_SD_DEG };
}

/** Both angles as they are told now; one that is not told, as it stood. */
function joined(told: HornSpec, stood: HornSpec | undefined): HornSpec {
  if (stood === undefined) return told;
  const [now, then] = [hornSds(told), hornSds(stood)];
  return {
    ...(isAngleSeen(now.sdDeg) || !isAngleSeen(then.sdDeg) ? { elevationDeg: told.elevationDeg, sdDeg: now.sdDeg } : { elevationDeg: stood.elevationDeg, sdDeg: then.sdDeg }),
    ...(isAngleSeen(now.lateralSdDeg) || !isAngleSeen(then.lateralSdDeg)
      ? { lateralDeg: told.lateralDeg, lateralSdDeg: now.lateralSdDeg }
      : { lateralDeg: stood.lateralDeg, lateralSdDeg: then.lateralSdDeg }),
  };
}

/** Anything beside the note, its take and its way. */
const isSaid = ({ note: _note, take: _take, direction: _direction, ...said }: ReadingSpec): boolean => Object.values(said).some((value) => value !== undefined);
