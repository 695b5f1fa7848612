/** The sentences for what could not be computed; plain trade words, no diagnosis. */
import type { SeatReason } from './analysis';

const SEAT_WORDS: Record<SeatReason, string> = {
  'off-the-arch': 'the rim reaches past the end of the arch',
  'never-touches': 'the rim does not touch the lips there: it is off the arch',
  'form-too-tight': 'the arch is too sharply bent there for its profile',
  'no-rest': 'the rim finds no place to rest evenly there: it slides off the arch',
  'rim-inside-tooth': 'at this force the lip is squeezed through to the tooth: choose a firmer lip, a lower force, or the stiffening law',
  'touch-too-small': 'the rim touches on too small a spot, or the two lips are too unlike, for a reliable answer',
  'force-out-of-range': 'the force must be more than 0 and at most 200 N',
  'not-converged': 'no balanced seat was found there',
};

export const seatWords = (reason: SeatReason): string => SEAT_WORDS[reason];

/** A record whose home has no seat cannot be analysed at all. */
export class HomeUnseatedError extends Error {
  readonly reason: SeatReason;
  constructor(reason: SeatReason, upMm: number, rightMm: number) {
    super(`home (${rounded(upMm)} mm up, ${rounded(rightMm)} mm to the player's right of the origin): ${seatWords(reason)}`);
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
