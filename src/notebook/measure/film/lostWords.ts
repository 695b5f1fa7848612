/** What was lost on the way through a film, in words: where, what it costs, and what to do. */
import type { NoHeadFilm } from '../../../measure/headFromFilm';
import { formatFixed } from '../../numberText';

/** What is missing with it of the numbers that the film tells elsewhere. */
export type LostCost = 'all' | 'some' | 'none';

export interface LostMark {
  readonly what: string;
  readonly kind: keyof typeof AGAIN;
  /** Part of the film's frames. */
  readonly part: number;
  readonly cost: LostCost;
  /** The longest stretch of it. */
  readonly startS: number;
  readonly endS: number;
}

/** "Horn, toward the bell was lost in 62 % of the film, longest from 3.20 to 5.10 s: a part of the numbers is missing there. Mark it again there, on something that stands out: a ring, a joint, a sticker, and follow once more." */
export function lostSentence({ what, kind, part, cost, startS, endS }: LostMark): string {
  return `${what} was lost in ${partWords(part)} of the film, longest ${stretchWords(startS, endS)}: ${LOST_COSTS[cost]}. ${AGAIN[kind]}, and follow once more.`;
}

const AGAIN = {
  rim: 'Mark it again there, where its edge is seen all round',
  head: 'Mark it again there if it is seen; on smooth skin a dot of make-up pencil, put on before filming, can be held',
  other: 'Mark it again there, on something that stands out: a ring, a joint, a sticker',
} as const;

export const NO_HEAD_WORDS: Readonly<Record<NoHeadFilm['reason'], string>> = {
  'too-few-landmarks':
    'No frame shows the rim together with enough marks of the head (five where notes were found, else six), so there is no travel yet: mark more of them, and put dots of make-up pencil on smooth skin before filming.',
  'sides-exchanged':
    'The marks’ right and left seem exchanged. If the film is a mirror image, as selfie cameras often make, flip it in a picture program first: marks exchanged in it would turn the sign of every sideways number. Otherwise exchange the marks: they are the player’s own, so the right ones are at the left of the picture.',
  'not-settled': 'The marks do not go together as a head’s: look whether each stays in its place through the film, and mark again where one does not.',
};

export const notFollowedWords = (name: string): string => `${name} could not be followed: mark it where it is clear and away from the picture’s edge.`;

export const stretchWords = (startS: number, endS: number): string => `from ${formatFixed(startS, 2)} to ${formatFixed(endS, 2)} s`;

export const LOST_COSTS: Readonly<Record<LostCost, string>> = {
  all: 'nothing is told there',
  some: 'a part of the numbers is missing there',
  none: 'the numbers there rest on the other marks',
};

export const LOST_WHAT_TO_DO = 'Go to a stretch, put the mark again where it is clear, and follow once more.';
export const SHADING_WORDS = 'On the time line: shaded where nothing is told, lightly where a part is missing, a strip along its foot where only a mark was lost.';

export const setAsideWords = (names: readonly string[]): string =>
  `${names.join(', ')} did not move with the rest of the head and ${names.length === 1 ? 'was' : 'were'} left out: look along the film whether ${names.length === 1 ? 'the mark stays in its place' : 'the marks stay in their places'}, and mark again where not.`;

/** "Travel is not told at 2 of 7 notes: B♭4 at 2.10 s, D5 at 3.80 s." */
export function untoldNotes(what: string, notes: readonly { readonly name: string; readonly startS: number }[], of: number): string {
  const named = notes.slice(0, MOST_NAMED).map(({ name, startS }) => `${name} at ${formatFixed(startS, 2)} s`);
  const more = notes.length - named.length;
  return `${what} is not told at ${notes.length} of ${of} notes: ${named.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`;
}

const MOST_NAMED = 4;

function partWords(part: number): string {
  const percent = Math.round(100 * part);
  return percent >= 100 ? 'all' : `${percent}\u00a0%`;
}
