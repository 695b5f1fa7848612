/** What was lost on the way through a film, in words: where, what it costs, and what to do. */
import type { NoHeadFilm } from '../../../measure/headFromFilm';
import { sayFilming } from '../../../words/filming';
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
  const percent = Math.round(100 * part);
  return sayFilming('lostMuch', {
    mark: what,
    whole: percent >= 100 ? 'yes' : 'no',
    percent,
    stretch: stretchWords(startS, endS),
    cost: costWords(cost),
    again: sayFilming(AGAIN[kind]),
  });
}

const AGAIN = { rim: 'againRim', head: 'againHead', other: 'againOther' } as const;

export const noHeadWords = (reason: NoHeadFilm['reason']): string => sayFilming(NO_HEAD[reason]);

const NO_HEAD = {
  'too-few-landmarks': 'tooFewLandmarks',
  'sides-exchanged': 'sidesExchanged',
  'not-settled': 'notSettled',
} as const satisfies Readonly<Record<NoHeadFilm['reason'], string>>;

export const notFollowedWords = (name: string): string => sayFilming('notFollowed', { mark: name });

export const stretchWords = (startS: number, endS: number): string => sayFilming('stretch', { from: formatFixed(startS, 2), to: formatFixed(endS, 2) });

export const costWords = (cost: LostCost): string => sayFilming(COSTS[cost]);

const COSTS = { all: 'costsAll', some: 'costsSome', none: 'costsNone' } as const satisfies Readonly<Record<LostCost, string>>;

export const setAsideWords = (names: readonly string[]): string => sayFilming('setAside', { marks: names.join(', '), count: names.length });

/** "Travel is not told at 2 of 7 notes: B♭4 at 2.10 s, D5 at 3.80 s." */
export function untoldNotes(which: 'travel' | 'elevation' | 'lateral', notes: readonly { readonly name: string; readonly startS: number }[], of: number): string {
  const named = notes.slice(0, MOST_NAMED).map(({ name, startS }) => sayFilming('noteAt', { note: name, seconds: formatFixed(startS, 2) }));
  return sayFilming('untold', { which, count: notes.length, of, notes: named.join(', '), more: notes.length - named.length });
}

const MOST_NAMED = 4;
