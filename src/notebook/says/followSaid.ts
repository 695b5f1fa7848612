/** What is said of the swing: how far the horn (on the lap: the head) follows the arch. Pure. */
import type { Estimate, FollowRatio } from '../../core/findings/findings';
import { MOST_RATIO } from '../../core/findings/followRatio';
import type { Posture } from '../../print/instrumentWords';
import { formatFixed } from '../numberText';
import { chanceWords, intervalWords, pText } from './saysWords';

export type SwingAxis = 'elevation' | 'lateral';

/** "Sideways the horn follows the arch: ratio 0.93 (0.75 to 1.10)." */
export function followWords({ ratio }: FollowRatio, axis: SwingAxis, posture: Posture): string {
  const what = posture === 'lap' ? 'the head' : 'the horn';
  const numbers = `ratio ${formatFixed(ratio.value, 2)} (${ratioInterval(ratio)})`;
  return `${AXIS_WORDS[posture][axis]} ${doing(what, ratio.low, ratio.high)}: ${numbers}.`;
}

/** An end that lies at the model's own limit is no end: beyond it the ratio is not followed. */
function ratioInterval(ratio: Estimate): string {
  if (ratio.high >= MOST_RATIO) return `${formatFixed(ratio.low, 2)} or more`;
  if (ratio.low <= -MOST_RATIO) return `${formatFixed(ratio.high, 2)} or less`;
  return intervalWords(ratio, 2);
}

/** What the ratio means; said once for both angles. */
export function ratioMeaning(posture: Posture): string {
  return posture === 'lap'
    ? 'The measured swing against the predicted one. 1: the head moves as the arch asks for; 0: it stays as at home; below 0: it moves against it.'
    : 'The measured swing against the predicted one. 1: the horn follows the arch; 0: it is held still as at home; below 0: it goes against it.';
}

/** Whether one ratio is enough for all notes. */
export function followFitWords({ fitP }: FollowRatio): string {
  return fitP < BENDS_BELOW
    ? `The notes do not lie on one line: with one ratio for all, readings that stray this far come ${chanceWords(fitP)} (${pText(fitP)}).`
    : `One ratio fits all these notes (${pText(fitP)}).`;
}

/** The offset of the fitted line: what the horn would be off by at home. */
export function offsetWords({ offsetDeg }: FollowRatio, axis: SwingAxis): string {
  const side = axis === 'elevation' ? (offsetDeg < 0 ? 'down' : 'up') : offsetDeg < 0 ? 'to the player’s left' : 'to the player’s right';
  const size = Math.abs(offsetDeg).toFixed(1);
  return size === '0.0' ? 'The fitted line passes through home.' : `At home the fitted line lies ${size}° ${side} of the angle measured there.`;
}

const AXIS_WORDS: Readonly<Record<Posture, Readonly<Record<SwingAxis, string>>>> = {
  held: { elevation: 'Up and down', lateral: 'Sideways' },
  lap: { elevation: 'Tipping forward and back', lateral: 'Turning to the side' },
};

/** Below this chance one line is not enough. */
const BENDS_BELOW = 0.05;

/** From here up an interval that holds 1 speaks of following and of nothing less. */
const MOSTLY = 0.5;

/** By what the 95 % interval holds: the sentence claims no more than that. */
function doing(what: string, low: number, high: number): string {
  const holds = (ratio: number): boolean => low <= ratio && ratio <= high;
  if (holds(0) && holds(1)) return `these readings fit ${what.replace('the ', 'a ')} that follows the arch as well as one that is held still`;
  if (holds(1)) return `${what} follows the arch${low < MOSTLY ? ', wholly or in part' : ''}`;
  if (holds(0)) return `${what} is held still, as far as can be told`;
  if (high < 0) return `${what} goes against the arch`;
  return low > 1 ? `${what} swings further than the arch asks for` : `${what} follows the arch in part`;
}
