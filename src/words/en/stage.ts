/** The picture's own words. */
export const STAGE = {
  stage: 'Teeth, lips and rim in three dimensions',
  turn: 'Picture: turn it with the arrow keys, plus and minus to come nearer',
  handle: 'Rim: move it with the arrow keys, 0.1 mm a step, with Shift 1 mm',
  handleValue:
    '{up} mm {vertical, select, down {down} other {up}}, {right} mm to the player’s {sideways, select, left {left} other {right}}',
  hornAngle: '{up}° {vertical, select, down {down} other {up}} · {right}° {sideways, select, left {left} other {right}}',
  // As wide as an angle beside the horn can be.
  widestAngle: '−00.0° down · 00.0° right',
  held: 'held still',
  measured: 'measured',
  pressure: 'Pressure round the rim',
  upperLip: 'upper lip',
  lowerLip: 'lower lip',
  flatSide: 'Section from the side: teeth, gums, lips, rim and the horn’s axis',
  flatAbove: 'Section from above: upper teeth, gum, lip, rim and the horn’s axis',
  flatFront: 'Front: teeth, gums, rim and the path of its centre',
  noPicture: 'This browser has no WebGL 2, so the drawing is flat.',
  contextLost: 'The graphics stopped; the flat drawing stands in.',
  flatForNow: 'A flat drawing until the picture in three dimensions is ready.',
} as const;
