/** What is said of the swing: how far the horn (on the lap: the head) follows the arch. Pure. */
import type { Estimate, FollowRatio } from '../../core/findings/findings';
import { MOST_RATIO } from '../../core/findings/followRatio';
import type { Posture } from '../../print/instrumentWords';
import { fixed } from '../../words/numbers';
import { saySays } from '../../words/says';
import { formatFixed } from '../numberText';
import { chanceWords, intervalWords, pText } from './saysWords';

export type SwingAxis = 'elevation' | 'lateral';

/** "Sideways the horn follows the arch: ratio 0.93 (0.75 to 1.10)." */
export function followWords({ ratio }: FollowRatio, axis: SwingAxis, posture: Posture): string {
  return saySays('follow', {
    axis: AXES[posture][axis],
    posture,
    doing: doing(ratio.low, ratio.high),
    ratio: formatFixed(ratio.value, 2),
    interval: ratioInterval(ratio),
  });
}

/** An end that lies at the model's own limit is no end: beyond it the ratio is not followed. */
function ratioInterval(ratio: Estimate): string {
  if (ratio.high >= MOST_RATIO) return saySays('orMore', { low: formatFixed(ratio.low, 2) });
  if (ratio.low <= -MOST_RATIO) return saySays('orLess', { high: formatFixed(ratio.high, 2) });
  return intervalWords(ratio, 2);
}

/** What the ratio means; said once for both angles. */
export const ratioMeaning = (posture: Posture): string => saySays(posture === 'lap' ? 'ratioLap' : 'ratioHeld');

/** Whether one ratio is enough for all notes. */
export function followFitWords({ fitP }: FollowRatio): string {
  return fitP < BENDS_BELOW ? saySays('noRatio', { chance: chanceWords(fitP), p: pText(fitP) }) : saySays('oneRatio', { p: pText(fitP) });
}

/** The offset of the fitted line: what the horn would be off by at home. */
export function offsetWords({ offsetDeg }: FollowRatio, axis: SwingAxis): string {
  const side = axis === 'elevation' ? (offsetDeg < 0 ? 'down' : 'up') : offsetDeg < 0 ? 'left' : 'right';
  const size = Math.abs(offsetDeg);
  return Number(size.toFixed(1)) === 0 ? saySays('throughHome') : saySays('offHome', { degrees: fixed(size, 1), side });
}

/** As the message chooses among them. */
const AXES: Readonly<Record<Posture, Readonly<Record<SwingAxis, string>>>> = {
  held: { elevation: 'up', lateral: 'side' },
  lap: { elevation: 'tip', lateral: 'turn' },
};

/** Below this chance one line is not enough. */
const BENDS_BELOW = 0.05;

/** From here up an interval that holds 1 speaks of following and of nothing less. */
const MOSTLY = 0.5;

/** By what the 95 % interval holds: the sentence claims no more than that. */
function doing(low: number, high: number): 'either' | 'follows' | 'mostly' | 'held' | 'against' | 'further' | 'part' {
  const holds = (ratio: number): boolean => low <= ratio && ratio <= high;
  if (holds(0) && holds(1)) return 'either';
  if (holds(1)) return low < MOSTLY ? 'mostly' : 'follows';
  if (holds(0)) return 'held';
  if (high < 0) return 'against';
  return low > 1 ? 'further' : 'part';
}
