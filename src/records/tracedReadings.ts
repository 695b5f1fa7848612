/** Readings and the measurings they came from: looked up, deleted, counted, and checked before they go into a lesson. */
import type { KeptMeasuring, LessonSpec, PlayerSpec, ReadingSpec } from '../core/specs';
import { sayKeeping } from '../words/keeping';
import { sayRecords } from '../words/records';
import { changedSince, isChangedByHand } from './changedReading';
import { type Measuring, type MeasuringSource, readMeasuring } from './measuringSchema';
import { MOST_MEASURINGS } from './playerSchema';
import type { Everything } from './shelfTypes';

export type Origin =
  /** It was not measured here: typed, or taken from a table. */
  | { readonly kind: 'none' }
  | {
      readonly kind: 'found';
      readonly measuring: Measuring;
      /** The film or picture that shows it, and its place among the measuring's sources. */
      readonly source: MeasuringSource;
      readonly sourceIndex: number;
      /** The frame that shows it, in that film's own time, seconds; null: nothing says which, or it is a picture. */
      readonly frameS: number | null;
      /** How many frames of a film it is made from; null: a picture, or the measuring holds nothing of it any more. */
      readonly frames: number | null;
      /** A number that was measured has been typed over or taken out since. */
      readonly isChanged: boolean;
    }
  /** A sentence for the reader. */
  | { readonly kind: 'gone'; readonly message: string };

/** Where a reading of this lesson, or of one of its try-outs, was seen. */
export function originOf(lesson: LessonSpec, reading: Partial<ReadingSpec>): Origin {
  const { from } = reading;
  if (from === undefined) return { kind: 'none' };
  const kept = lesson.measurings?.find(({ id }) => id === from.measuring);
  if (kept === undefined) return { kind: 'gone', message: sayKeeping('measuringGone') };
  const read = readMeasuring(kept);
  if (read.kind === 'refused') return { kind: 'gone', message: sayKeeping('measuringUnreadable', { why: read.message }) };
  const { measuring } = read;
  const sourceIndex = from.source ?? 0;
  const source = measuring.sources[sourceIndex];
  if (source === undefined) return { kind: 'gone', message: sayKeeping('measuringWithoutPicture') };
  const { startS, endS, atS } = from;
  const middleS = startS === undefined || endS === undefined ? startS : (startS + endS) / 2;
  const shownS = atS ?? middleS;
  const frames = startS === undefined ? null : (measuring.accepted.find((one) => one.startS === startS && one.endS === endS)?.frames ?? null);
  return { kind: 'found', measuring, source, sourceIndex, frameS: shownS === undefined ? null : shownS - (source.offsetS ?? 0), frames, isChanged: isChangedByHand(changedSince(measuring, reading)) };
}

/** How many readings of the lesson, those of its try-outs among them, came from this measuring. */
export function readingsFrom({ readings, tryOuts }: LessonSpec, measuringId: string): number {
  return [readings, ...tryOuts.map((tryOut) => tryOut.readings)].flat().filter(({ from }) => from?.measuring === measuringId).length;
}

/** What the reader is told before a measuring is deleted. */
export function deletingWords(lesson: LessonSpec, measuringId: string): string {
  return sayKeeping('deletingMeasuring', { count: readingsFrom(lesson, measuringId) });
}

/** Why a lesson with this measuring in it could not be kept, in one line; null where it can be. For asking before it is put in. */
export function faultOfMeasuring(lesson: LessonSpec, measuring: KeptMeasuring): string | null {
  const others = (lesson.measurings ?? []).filter(({ id }) => id !== measuring.id);
  if (others.length >= MOST_MEASURINGS) return sayRecords('measuringsFull', { count: others.length, most: MOST_MEASURINGS });
  const read = readMeasuring(measuring);
  return read.kind === 'refused' ? read.message : null;
}

/**
 * The measurings of these players, for `forgetUnreferenced`: hand in those that are kept, those on the page, and what undo may bring
 * back. null where somebody who is kept could not be read: then nobody knows whose films may go.
 */
export function measuringsInUse({ players, damaged, message }: Everything, open: Iterable<PlayerSpec> = []): ReadonlySet<string> | null {
  if (message !== null || damaged.length > 0) return null;
  const all = [...players.map(({ player }) => player), ...open];
  return new Set(all.flatMap(({ lessons }) => lessons.flatMap(({ measurings = [] }) => measurings.map(({ id }) => id))));
}
