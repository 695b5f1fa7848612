/** What the model says: why there is no answer, and what is allowed. */
export const CORE = {
  // Why a rim has no seat, as part of a sentence.
  'off-the-arch': 'the rim reaches past the end of the arch',
  'never-touches': 'the rim does not touch the lips there: it is off the arch',
  'form-too-tight': 'the arch is too sharply bent there for its profile',
  'no-rest': 'the rim finds no place to rest evenly there: it slides off the arch',
  'rim-inside-tooth': 'at this force the lip is squeezed through to the tooth: choose a firmer lip, a lower force, or the stiffening law',
  'touch-too-small': 'the rim touches on too small a spot, or the two lips are too unlike, for a reliable answer',
  'force-out-of-range': 'the force must be more than 0 and at most 200 N',
  'not-converged': 'no balanced seat was found there',
  homeUnseated: "home ({upMm} mm up, {rightMm} mm to the player's right of the origin): {why}",
  readingUnseated:
    'readings[{index}] ({note}), travel {upMm} mm up and {rightMm} mm to the right{held, select, yes { with the horn held still} other {}}: {why}',

  // What is wrong with a number, and what is allowed there.
  outOfRange: '{field} {value}: allowed is {allowed}',
  fromTo: 'from {low} to {high}',
  above: 'more than {low}',
  aboveInner: 'more than the inner diameter, {inner}',
  innerToOuter: 'from the inner to the outer diameter, {inner} to {outer}',
  contour: 'null for a flat rim, or at least {least} so that the arc reaches both edges',
  bothFromZero: 'both at least 0',
  lengthMm: 'a positive number of millimetres',
  length: 'a positive length',
  points: '{count} points',
  atLeast: 'at least {least}',
  finite: 'a finite number',
  wholeFrom: 'a whole number from {least}',
  unknownsUpTo: '1 to {most} unknowns',
  fromToMm: '{low} to {high} mm',
  once: 'each measure once',
  oncePrint: 'one print of each jaw',
  pointsAtLeast: 'at least {fewest} points',
  pointsApart: '{least} mm or more from the point before',
  xFromTo: 'x from {from} to {to}',
  rightToLeft: "from the player's right (x < 0) to the left (x > 0)",
  crownRadius: 'large enough for a crown {height} mm high inclined {inclination}° (more than {least})',
  gumSlope: "at most the crown's slope at the neck, {most}",

  // Notes that may be typed, for a sentence that begins "Allowed:".
  note: 'a note such as C4 (middle C), Bb3, B♭3 or F#4, from C-1 to G9',
  noteGerman: 'a German note name such as C4 (middle C), H3, B3, Cis4 or Es4, or with strokes as c’, c1, c, C or C, (from C-1 to G9)',
  noteSolfege: 'a solfège name with its octave such as Do4 (middle C), Si♭3, Sib3 or Fa#4, from Do-1 to Sol9',
  notAllowed: '{field}: {value}; allowed: {allowed}',

  // Try-outs.
  oneLipOnly:
    'The rim placed {amount} mm {way, select, up {higher} other {lower}} would hold one lip only: less than {most} mm {way, select, up {up} other {down}} is possible with this share of the lips.',
  roundUnseated: '{note} with the horn brought round: {why}.',
  usualUnseated: '{note} as usual: {why}.',
  triedUnseated: '{note} as tried: {why}.',

  // A player's own shape.
  noSeatForRadii: 'With the radii that these readings ask for the rim finds no seat.',
  radiiWithoutRest: 'The radii did not come to rest on these readings.',

  // What is not known, each by the name it has in the model; after "the".
  "upper lip's thickness": "upper lip's thickness",
  "lower lip's thickness": "lower lip's thickness",
  "upper lip's firmness": "upper lip's firmness",
  "lower lip's firmness": "lower lip's firmness",
  'arch form': 'arch form',
  'upper arch form': 'upper arch form',
  'lower arch form': 'lower arch form',
  'upper arch form further back': 'upper arch form further back',
  'lower arch form further back': 'lower arch form further back',
  "upper teeth's height": "upper teeth's height",
  "lower teeth's height": "lower teeth's height",
  overjet: 'overjet',
  overbite: 'overbite',
  "upper teeth's inclination": "upper teeth's inclination",
  "lower teeth's inclination": "lower teeth's inclination",
  "upper crown's roundness": "upper crown's roundness",
  "lower crown's roundness": "lower crown's roundness",
  "upper gum's roundness": "upper gum's roundness",
  "lower gum's roundness": "lower gum's roundness",
  "upper gum's slope": "upper gum's slope",
  "lower gum's slope": "lower gum's slope",
  force: 'force',
  'home place': 'home place',
  'travel up': 'travel up',
  'travel to the side': 'travel to the side',
  "jaw's opening": "jaw's opening",
  'jaw forward or back': 'jaw forward or back',

  // In the name of a file whose player has no label.
  player: 'player',
} as const;
