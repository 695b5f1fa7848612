/** The answer to a step's question, and the sentence of what was seen: read off what was computed for the end of what the step plays. */
import type { LiveFrame } from '../../core/analysis';
import { swingClause } from '../../print/instrumentWords';
import type { AskedAbout, ClassStep } from '../../records/classSchema';
import { type Way, comparedWords, wayOf, wayWords } from '../beside/twoPlayers';
import { postureOf } from '../describe';
import { pitchRange, sharedRange } from '../follower';
import type { Actor } from './cast';
import { FOLLOWED_ORDER, followedWords, heldWords, placeWords } from './words';
import { sayBeside } from '../../words/beside';

/** 0: the first way, 1: the other, 2: neither. */
export type Answer = 0 | 1 | 2;

/** A horn that moves by less than this is said to stay, degrees: less than is seen from the back of a room. Our judgement. */
const STAYS_WITHIN_DEG = 0.5;
/** Halves that differ from an even share by less are called alike, as in the page's own sentence. */
const ALIKE_WITHIN = 0.015;

export function answerOf(about: AskedAbout, { analysis }: Actor, end: LiveFrame): Answer {
  const home = analysis.home.follow.pose;
  const { shown, held } = end;
  switch (about) {
    case 'bell up or down':
      return wayTo(shown.elevationDeg - home.elevationDeg, STAYS_WITHIN_DEG);
    case 'bell to the side':
      return wayTo(shown.lateralDeg - home.lateralDeg, STAYS_WITHIN_DEG);
    case 'upper or lower half':
      return wayTo(held.load.share.upper - 0.5, ALIKE_WITHIN);
    case 'right or left half':
      return wayTo(held.load.share.right - 0.5, ALIKE_WITHIN);
  }
}

const wayTo = (value: number, within: number): Answer => (Math.abs(value) < within ? 2 : value > 0 ? 0 : 1);

/** Where what a step plays comes to an end; null where nothing moves or the rim finds no seat there. */
export function endFrame({ plays, horn, view }: ClassStep, { analysis, live }: Actor): LiveFrame | null {
  if (plays.kind === 'line') return live.atTravel(plays, { horn, view });
  const range = pitchRange(analysis);
  return plays.kind === 'path' && range !== null ? live.atPitch(range.high, { horn, view }) : null;
}

/** What one frame shows, in a sentence. */
export function frameSentence({ analysis }: Actor, frame: LiveFrame, horn: ClassStep['horn']): string {
  const home = analysis.home.follow.pose;
  const place = placeWords(frame.travel.upMm, frame.travel.rightMm);
  if (horn === 'held') return heldWords(place, frame.held.load.share);
  const swing = { elevationDeg: frame.shown.elevationDeg - home.elevationDeg, lateralDeg: frame.shown.lateralDeg - home.lateralDeg };
  return followedWords(place, swingClause(postureOf(analysis.record.player.instrument), swing, FOLLOWED_ORDER));
}

/** What a step has shown once it has come to its end: of each player, and of two together. */
export interface Seen {
  readonly each: readonly string[];
  readonly together: string | null;
}

export function stepSentences(step: ClassStep, actors: readonly Actor[], noteName: (midi: number) => string): Seen {
  const [one, other] = actors;
  if (one === undefined || (other !== undefined && step.plays.kind !== 'path')) return NOTHING_SEEN;
  if (other === undefined) {
    const end = endFrame(step, one);
    return end === null ? NOTHING_SEEN : { each: [], together: frameSentence(one, end, step.horn) };
  }
  const shared = sharedRange(pitchRange(one.analysis), pitchRange(other.analysis));
  if (shared === null) return { each: [], together: sayBeside('nothingShared') };
  const [first, second] = [one, other].map(({ analysis, live }) => wayOf(analysis, live, shared.low, shared.high));
  if (first == null || second == null) return NOTHING_SEEN;
  const words = (way: Way): string => wayWords(way, noteName(shared.low), noteName(shared.high));
  return { each: [words(first), words(second)], together: comparedWords(first, second) };
}

const NOTHING_SEEN: Seen = { each: [], together: null };
