/** Words that every finding uses: intervals, chances, lists of notes, and what is missing where nothing can be told yet. Pure. */
import type { CannotTell, CannotTellReason, Estimate, Evidence, Need } from '../../core/findings/findings';
import { fixed } from '../../words/numbers';
import { saySays } from '../../words/says';
import { formatFixed } from '../numberText';

/** A note as the reader wants it named. */
export type NoteNamer = (soundingNote: string) => string;

/** "1.6 to 2.2": the 95 % interval; not broken at a line's end. */
export function intervalWords({ low, high }: Pick<Estimate, 'low' | 'high'>, places = 1): string {
  return saySays('interval', { low: formatFixed(low, places), high: formatFixed(high, places) });
}

/** "1.9 mm (1.6 to 2.2)". */
export function estimateWords(estimate: Pick<Estimate, 'value' | 'low' | 'high'>, unit: string, places = 1): string {
  return saySays('estimate', { value: formatFixed(estimate.value, places), unit, interval: intervalWords(estimate, places) });
}

/** "1.9 mm an octave (1.6 to 2.2)". */
export function octaveWords(estimate: Pick<Estimate, 'value' | 'low' | 'high'>): string {
  return saySays('anOctave', { value: formatFixed(estimate.value, 1), interval: intervalWords(estimate) });
}

/** "D5", "D5 and F5", "D5, F5 and A5". */
export function listWords(items: readonly string[]): string {
  const last = items.at(-1);
  if (last === undefined) return '';
  return items.length === 1 ? last : saySays('and', { all: items.slice(0, -1).join(', '), last });
}

/** "From 9 notes, 12 readings." */
export const evidenceWords = ({ notes, readings }: Evidence): string => saySays('evidence', { notes, readings });

/** How often something of probability `p` happens: "about once in 200 times". Throws RangeError outside 0 to 1. */
export function chanceWords(p: number): string {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p: ${p}; allowed: from 0 to 1`);
  if (p > 0.95) return saySays('nearlyAlways');
  if (p >= OFTEN) return saySays('inTen', { times: Math.round(p * 10) });
  if (p < 1 / SELDOM_TIMES) return saySays('lessThanOnce', { times: SELDOM_TIMES });
  return saySays('aboutOnce', { times: roundTimes(1 / p) });
}

/** The probability itself, for those who want it: "p = 0.005". */
export function pText(p: number): string {
  return p < 0.001 ? `p\u00a0<\u00a0${fixed(0.001, 3)}` : `p\u00a0=\u00a0${fixed(p, p < 0.1 ? 3 : 2)}`;
}

/**
 * "Cannot tell yet: where the jaw stands was not seen at the notes … Say where the jaw stands at D5 and F5." `about` says which of several
 * this is: "Sideways, it cannot be told yet: …".
 */
export function cannotTellWords({ reason, needs }: CannotTell, name: NoteNamer, about?: string): string {
  const wanted = listWords(needs.map((need) => needWords(need, name)));
  const what = (words: string): string => (about === undefined ? saySays('cannotTell', { what: words }) : saySays('cannotTellAbout', { about, what: words }));
  if (PLAIN_REASONS.includes(reason) && wanted !== '') return what(wanted);
  return `${what(saySays(REASONS[reason]))}${wanted === '' ? '' : ` ${capital(wanted)}.`}`;
}

/** "take 2 more readings at D5 and F5". */
export function needWords({ notes, takes, moreNotes, of }: Need, name: NoteNamer): string {
  const at = { where: notes.length === 0 ? 'any' : 'some', notes: listWords(notes.map(name)) };
  if (takes > MOST_ASKED) return saySays('needTooMany', at);
  if (moreNotes !== undefined && moreNotes > 0) return saySays('needMoreNotes', { ...at, of, count: moreNotes, takes });
  const each = notes.length > 1 && takes > 0 ? 'yes' : 'no';
  return of === 'travel'
    ? saySays('needReadings', { ...at, takes, each })
    : saySays('needSeen', { ...at, of, again: takes > 1 ? 'yes' : 'no', takes, each });
}

export function capital(words: string): string {
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}

/** So often nobody plays an exercise in one lesson: our judgement. */
const MOST_ASKED = 20;

/** From here up a chance is said in tenths. */
const OFTEN = 0.15;
const SELDOM_TIMES = 1000;

/** A round number of times, as people say it: 7, 12, 45, 200. */
function roundTimes(times: number): number {
  const step = times < 20 ? 1 : times < 100 ? 5 : times < 500 ? 10 : 50;
  return Math.round(times / step) * step;
}

/** What is missing says it all: no reason need be added. */
const PLAIN_REASONS: readonly CannotTellReason[] = ['too-few-notes'];

const REASONS = {
  'too-few-notes': 'tooFewNotes',
  'too-little-range': 'tooLittleRange',
  'too-little-travel': 'tooLittleTravel',
  'too-unsure': 'tooUnsure',
  'no-horn-angles': 'noHornAngles',
  'no-home-angle': 'noHomeAngle',
  'jaw-not-known': 'jawNotKnown',
  'not-seen': 'notSeen',
} as const satisfies Record<CannotTellReason, string>;
