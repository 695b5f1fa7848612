/** What is said of the player's own shape: the swing a millimetre of travel brings, and the arch's two radii before and after the readings. Pure. */
import { counted } from '../../core/words';
import type { FitFailed, LocalShape, OwnShape, RadiusBeforeAfter } from '../../core/findings/findings';
import type { Posture } from '../../print/instrumentWords';
import { formatFixed } from '../numberText';
import { chanceWords, estimateWords, pText } from './saysWords';
import { towardWords } from './travelSaid';

/** "Near home, every millimetre up swings the bell 0.9° up; every millimetre to the player’s right, 1.6° to the right." */
export function localWords({ degPerMm, along }: LocalShape, posture: Posture): string {
  const what = posture === 'lap' ? 'the head' : 'the bell';
  // The notes keep to one line: nothing is known across it.
  if (degPerMm === null) {
    return `Near home, every millimetre along the line (${towardWords(along.fromUpDeg)}) swings ${what} `
      + `${swingWords(along.elevation.value, along.lateral.value, posture)}.`;
  }
  const [[upByUp, upByRight], [rightByUp, rightByRight]] = degPerMm;
  return `Near home, every millimetre up swings ${what} ${swingWords(upByUp, rightByUp, posture)}; `
    + `every millimetre to the player’s right, ${swingWords(upByRight, rightByRight, posture)}.`;
}

export function localFitWords({ fitP }: LocalShape): string {
  return fitP < BENDS_BELOW
    ? `So short a rule does not fit all the notes: readings that stray this far come ${chanceWords(fitP)} (${pText(fitP)}).`
    : `So short a rule fits the measured notes (${pText(fitP)}).`;
}

/** "With these readings the front’s radius is 24.1 mm (21.0 to 27.2), where the chosen arch has 27.0 mm (20.0 to 34.0)." */
export function radiusWords(which: 'front' | 'vertical', { beforeMm, afterMm }: RadiusBeforeAfter): string {
  const name = which === 'front' ? 'the front’s radius, seen from above,' : 'the teeth’s radius, seen from the side,';
  return `With these readings ${name} is ${estimateWords(afterMm, '\u00a0mm')}; the chosen arch alone says ${estimateWords(beforeMm, '\u00a0mm')}.`;
}

/** What is left between the measured swings and those of the fitted arch. */
export const residualWords = ({ residualDeg }: OwnShape): string =>
  `What the fitted arch leaves of the measured swings is ${formatFixed(residualDeg, 1)}° (root mean square).`;

/** The fit takes it that the horn follows the arch: how likely that is. */
export function fitWords({ fitP }: OwnShape): string {
  const how = `come ${chanceWords(fitP)} (${pText(fitP)})`;
  return fitP < BENDS_BELOW
    ? `From a horn that follows the arch, swings this far off ${how}: this horn may not follow it, and then the radii tell little.`
    : `From a horn that follows the arch, swings this far off or further ${how}.`;
}

export const failedWords = ({ words, iterations }: FitFailed): string =>
  `The arch could not be fitted. ${words} It was given up after ${counted(iterations, 'step')}.`;

/** Where the two bands come from. */
export function bandWords({ predictions }: OwnShape): string {
  if (predictions.some(({ before }) => before.drawn === undefined)) return 'Both bands are worked out to first order: the browser had no worker to draw mouths in.';
  return 'The band of the chosen arch alone is drawn, note by note, from 2,000 mouths that differ by what is not known; the own shape’s is worked out to first order.';
}

/** How many notes the predictions reach beyond what was measured. */
export function predictionWords({ predictions }: OwnShape): string {
  const unmeasured = predictions.filter(({ measured }) => !measured).length;
  if (unmeasured === 0) return 'Predicted swing at every note of the record, before and after.';
  return `Predicted swing before and after, also at the ${unmeasured === 1 ? 'one note' : `${unmeasured} notes`} where the horn was not measured (open marks).`;
}

const BENDS_BELOW = 0.05;

/** "0.9° up and 0.2° to the right", on the lap "0.9° forward and 0.2° to the left"; what rounds to nothing is not named. */
function swingWords(elevationDeg: number, lateralDeg: number, posture: Posture): string {
  const [rising, falling, right, left] = posture === 'lap' ? ['forward', 'back', 'left', 'right'] : ['up', 'down', 'right', 'left'];
  const parts = [
    { size: Math.abs(elevationDeg).toFixed(1), side: elevationDeg > 0 ? rising : falling },
    { size: Math.abs(lateralDeg).toFixed(1), side: `to the ${lateralDeg > 0 ? right : left}` },
  ].flatMap(({ size, side }) => (size === '0.0' ? [] : [`${size}° ${side}`]));
  return parts.length === 0 ? 'by less than 0.1°' : parts.join(' and ');
}
