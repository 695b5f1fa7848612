/** The stage's words in the language set; numbers have one decimal. */
import { fixed } from '../words/numbers';
import { sayStage } from '../words/stage';
import type { StageWords } from './props';

export const ownStageWords = (): StageWords => ({
  stage: sayStage('stage'),
  turn: sayStage('turn'),
  handle: sayStage('handle'),
  handleValue: ({ upMm, rightMm }) =>
    sayStage('handleValue', {
      up: fixed(Math.abs(upMm), 1),
      vertical: upMm < 0 ? 'down' : 'up',
      right: fixed(Math.abs(rightMm), 1),
      sideways: rightMm < 0 ? 'left' : 'right',
    }),
  hornAngle: ({ elevationDeg, lateralDeg }) =>
    sayStage('hornAngle', {
      up: fixed(Math.abs(elevationDeg), 1),
      vertical: elevationDeg < 0 ? 'down' : 'up',
      right: fixed(Math.abs(lateralDeg), 1),
      sideways: lateralDeg < 0 ? 'left' : 'right',
    }),
  note: (sounding) => sounding.replace('b', '♭').replace('#', '♯'),
  held: sayStage('held'),
  measured: sayStage('measured'),
  pressure: sayStage('pressure'),
  upperLip: sayStage('upperLip'),
  lowerLip: sayStage('lowerLip'),
  flatSide: sayStage('flatSide'),
  flatAbove: sayStage('flatAbove'),
  flatFront: sayStage('flatFront'),
  noPicture: sayStage('noPicture'),
  contextLost: sayStage('contextLost'),
  flatForNow: sayStage('flatForNow'),
});
