/** What is said of the player's own shape: the swing a millimetre of travel brings, and the arch's two radii before and after the readings. Pure. */
import type { FitFailed, LocalShape, OwnShape, RadiusBeforeAfter } from '../../core/findings/findings';
import type { Posture } from '../../print/instrumentWords';
import { fixed } from '../../words/numbers';
import { saySays } from '../../words/says';
import { formatFixed } from '../numberText';
import { chanceWords, estimateWords, pText } from './saysWords';
import { towardWords } from './travelSaid';

/** "Near home, every millimetre up swings the bell 0.9° up; every millimetre to the player’s right, 1.6° to the right." */
export function localWords({ degPerMm, along }: LocalShape, posture: Posture): string {
  // The notes keep to one line: nothing is known across it.
  if (degPerMm === null) {
    return saySays('localAlong', { posture, toward: towardWords(along.fromUpDeg), swing: swingWords(along.elevation.value, along.lateral.value, posture) });
  }
  const [[upByUp, upByRight], [rightByUp, rightByRight]] = degPerMm;
  return saySays('localBoth', { posture, up: swingWords(upByUp, rightByUp, posture), right: swingWords(upByRight, rightByRight, posture) });
}

export function localFitWords({ fitP }: LocalShape): string {
  return fitP < BENDS_BELOW ? saySays('localStrays', { chance: chanceWords(fitP), p: pText(fitP) }) : saySays('localFits', { p: pText(fitP) });
}

/** "With these readings the front’s radius is 24.1 mm (21.0 to 27.2), where the chosen arch has 27.0 mm (20.0 to 34.0)." */
export function radiusWords(which: 'front' | 'vertical', { beforeMm, afterMm }: RadiusBeforeAfter): string {
  return saySays('radius', { which, after: estimateWords(afterMm, '\u00a0mm'), before: estimateWords(beforeMm, '\u00a0mm') });
}

/** What is left between the measured swings and those of the fitted arch. */
export const residualWords = ({ residualDeg }: OwnShape): string => saySays('residual', { degrees: formatFixed(residualDeg, 1) });

/** The fit takes it that the horn follows the arch: how likely that is. */
export function fitWords({ fitP }: OwnShape): string {
  return saySays(fitP < BENDS_BELOW ? 'fitsNot' : 'fits', { chance: chanceWords(fitP), p: pText(fitP) });
}

export const failedWords = ({ words, iterations }: FitFailed): string => saySays('fitFailed', { why: words, steps: iterations });

/** Where the two bands come from. */
export function bandWords({ predictions }: OwnShape): string {
  return saySays(predictions.some(({ before }) => before.drawn === undefined) ? 'bandsFirstOrder' : 'bandsDrawn');
}

/** How many notes the predictions reach beyond what was measured. */
export function predictionWords({ predictions }: OwnShape): string {
  const unmeasured = predictions.filter(({ measured }) => !measured).length;
  return unmeasured === 0 ? saySays('predictedAll') : saySays('predictedToo', { count: unmeasured });
}

const BENDS_BELOW = 0.05;

/** "0.9° up and 0.2° to the right", on the lap "0.9° forward and 0.2° to the left"; what rounds to nothing is not named. */
function swingWords(elevationDeg: number, lateralDeg: number, posture: Posture): string {
  const [rising, falling, right, left] = posture === 'lap' ? ['forward', 'back', 'left', 'right'] : ['up', 'down', 'right', 'left'];
  const [first, second] = [
    isNamed(elevationDeg) && saySays('swingUp', { size: fixed(Math.abs(elevationDeg), 1), way: elevationDeg > 0 ? rising : falling }),
    isNamed(lateralDeg) && saySays('swingSide', { size: fixed(Math.abs(lateralDeg), 1), way: lateralDeg > 0 ? right : left }),
  ].filter((part) => part !== false);
  if (first === undefined) return saySays('swingNone');
  return second === undefined ? saySays('swingOne', { first }) : saySays('swingTwo', { first, second });
}

const isNamed = (deg: number): boolean => Number(Math.abs(deg).toFixed(1)) !== 0;
