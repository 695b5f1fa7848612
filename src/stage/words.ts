/** The stage's words in English. Minus signs are typographic, numbers have one decimal. */
import type { StageWords } from './props';

export const signed = (value: number, digits = 1): string => {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? '−' : '+'}${text}`;
};

export const englishStageWords: StageWords = {
  stage: 'Teeth, lips and rim in three dimensions',
  turn: 'Picture: turn it with the arrow keys, plus and minus to come nearer',
  handle: 'Rim: move it with the arrow keys, 0.1 mm a step, with Shift 1 mm',
  handleValue: ({ upMm, rightMm }) =>
    `${Math.abs(upMm).toFixed(1)} mm ${upMm < 0 ? 'down' : 'up'}, ${Math.abs(rightMm).toFixed(1)} mm to the player’s ${rightMm < 0 ? 'left' : 'right'}`,
  hornAngle: ({ elevationDeg, lateralDeg }) =>
    `${Math.abs(elevationDeg).toFixed(1)}° ${elevationDeg < 0 ? 'down' : 'up'} · ${Math.abs(lateralDeg).toFixed(1)}° ${lateralDeg < 0 ? 'left' : 'right'}`,
  note: (sounding) => sounding.replace('b', '♭').replace('#', '♯'),
  held: 'held still',
  measured: 'measured',
  pressure: 'Pressure round the rim',
  upperLip: 'upper lip',
  lowerLip: 'lower lip',
  flatSide: 'Section from the side: teeth, gums, lips, rim and the horn’s axis',
  flatFront: 'Front: teeth, gums, rim and the path of its centre',
  noPicture: 'This browser has no WebGL 2, so the drawing is flat.',
  contextLost: 'The graphics stopped; the flat drawing stands in.',
};
