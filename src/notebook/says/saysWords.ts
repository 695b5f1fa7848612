/** Words that every finding uses: intervals, chances, lists of notes, and what is missing where nothing can be told yet. Pure. */
import { counted } from '../../core/words';
import type { CannotTell, CannotTellReason, Estimate, Evidence, Need } from '../../core/findings/findings';
import { formatFixed } from '../numberText';

/** A note as the reader wants it named. */
export type NoteNamer = (soundingNote: string) => string;

/** Stands behind every sentence that nobody has published a source for. */
export const COMMON_PRACTICE = '(common practice, no published source)';

/** "1.6 to 2.2": the 95 % interval; not broken at a line's end. */
export function intervalWords({ low, high }: Pick<Estimate, 'low' | 'high'>, places = 1): string {
  return `${formatFixed(low, places)}\u00a0to\u00a0${formatFixed(high, places)}`;
}

/** "1.9 mm (1.6 to 2.2)". */
export function estimateWords(estimate: Pick<Estimate, 'value' | 'low' | 'high'>, unit: string, places = 1): string {
  return `${formatFixed(estimate.value, places)}${unit} (${intervalWords(estimate, places)})`;
}

/** "D5", "D5 and F5", "D5, F5 and A5". */
export function listWords(items: readonly string[]): string {
  const last = items.at(-1);
  if (last === undefined) return '';
  return items.length === 1 ? last : `${items.slice(0, -1).join(', ')} and ${last}`;
}

/** "From 9 notes, 12 readings." */
export function evidenceWords({ notes, readings }: Evidence): string {
  return `From ${counted(notes, 'note')}, ${counted(readings, 'reading')}.`;
}

/** How often something of probability `p` happens: "about once in 200 times". Throws RangeError outside 0 to 1. */
export function chanceWords(p: number): string {
  if (!(p >= 0 && p <= 1)) throw new RangeError(`p: ${p}; allowed: from 0 to 1`);
  if (p > 0.95) return 'nearly every time';
  if (p >= OFTEN) return `about ${Math.round(p * 10)} times in 10`;
  if (p < 1 / SELDOM_TIMES) return `less than once in ${SELDOM_TIMES} times`;
  return `about once in ${roundTimes(1 / p)} times`;
}

/** The probability itself, for those who want it: "p = 0.005". */
export function pText(p: number): string {
  return p < 0.001 ? 'p\u00a0<\u00a00.001' : `p\u00a0=\u00a0${p.toFixed(p < 0.1 ? 3 : 2)}`;
}

/**
 * "Cannot tell yet: where the jaw stands was not seen at the notes … Say where the jaw stands at D5 and F5." `about` says which of several
 * this is: "Sideways, it cannot be told yet: …".
 */
export function cannotTellWords({ reason, needs }: CannotTell, name: NoteNamer, about?: string): string {
  const start = about === undefined ? 'Cannot tell yet' : `${about}, it cannot be told yet`;
  const wanted = listWords(needs.map((need) => needWords(need, name)));
  const plain = PLAIN_REASONS.includes(reason) && wanted !== '';
  if (plain) return `${start}: ${wanted}.`;
  return `${start}: ${REASONS[reason]}.${wanted === '' ? '' : ` ${capital(wanted)}.`}`;
}

/** "take 2 more readings at D5 and F5". */
export function needWords({ notes, takes, moreNotes, of }: Need, name: NoteNamer): string {
  if (takes > MOST_ASKED) return `more readings than a lesson holds would be needed${notes.length === 0 ? '' : ` at ${listWords(notes.map(name))}`}: measure more finely`;
  const at = notes.length === 0 ? '' : ` at ${listWords(notes.map(name))}`;
  if (moreNotes !== undefined && moreNotes > 0) {
    const each = takes > 1 ? `, ${takes} takes of each` : '';
    const such = notes.length === 0 ? '' : `, such as ${listWords(notes.map(name))}`;
    return `${VERBS[of]} at ${counted(moreNotes, 'more note', 'more notes')}${such}${each}`;
  }
  const each = notes.length > 1 && takes > 0 ? ' each' : '';
  return of === 'travel'
    ? `take ${takes} more ${takes === 1 ? 'reading' : 'readings'}${each}${at}`
    : `${VERBS[of]}${at}${takes > 1 ? `, ${takes} more times${each}` : ''}`;
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

const REASONS: Readonly<Record<CannotTellReason, string>> = {
  'too-few-notes': 'there are too few notes',
  'too-little-range': 'the notes lie too close together in pitch',
  'too-little-travel': 'the rim travels hardly more than the readings are sure to',
  'too-unsure': 'the readings are not sure enough',
  'no-horn-angles': 'the horn’s angle was measured at too few notes',
  'no-home-angle': 'the horn’s angle at home was not measured',
  'jaw-not-known': 'where the jaw stands was not seen at the notes, and half a millimetre of jaw is about a degree of horn',
  'not-seen': 'nobody wrote down what was seen',
};

const VERBS: Readonly<Record<Need['of'], string>> = {
  travel: 'take readings',
  horn: 'measure the horn’s angle',
  airstream: 'look which way the air goes',
  share: 'look how much upper lip is inside the rim',
  jaw: 'say where the jaw stands',
  ease: 'ask how easily it speaks',
};
