/** The sentences for what could not be computed; plain trade words, no diagnosis. */
import { sayCore } from '../words/core';
import type { SeatReason } from './analysis';
import type { UnknownName } from './unknownName';

/** As part of a sentence. */
export const seatWords = (reason: SeatReason): string => sayCore(reason);

/** What is not known, after "the". */
export const unknownWords = (name: UnknownName): string => sayCore(name);

/** A record whose home has no seat cannot be analysed at all. */
export class HomeUnseatedError extends Error {
  readonly reason: SeatReason;
  constructor(reason: SeatReason, upMm: number, rightMm: number) {
    super(sayCore('homeUnseated', { upMm: rounded(upMm), rightMm: rounded(rightMm), why: seatWords(reason) }));
    this.name = 'HomeUnseatedError';
    this.reason = reason;
  }
}

/** To the hundredth, and no digit more than it has. */
const rounded = (value: number): number => Number(value.toFixed(2));

/** "1 note", "3 notes". */
export function counted(count: number, singular: string, plural = `${singular}s`): string {
  return `${count} ${count === 1 ? singular : plural}`;
}
