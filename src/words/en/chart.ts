/** The charts against pitch and the plane across the face. \u00a0 keeps a number with its unit. */
export const CHART = {
  noNotes: 'No notes to draw yet.',
  // Beside the zero line, where there is room for eight letters a line.
  home: 'home',
  degFromHome: '° from home',
  mmFromHome: 'mm from home',
  note: 'Note',

  // What an angle is called.
  'held-elevation': 'Bell up',
  'held-lateral': 'Bell to the right',
  'lap-elevation': 'Head forward',
  'lap-lateral': 'Head to the left',

  // A note and its numbers.
  point: '{note}{direction, select, up {, ascending} down {, descending} other {}}',
  sidedUp: '{size}{way, select, plus { up} minus { down} other {}}',
  sidedRight: '{size}{way, select, plus { right} minus { left} other {}}',
  both: '{up}, {right}',
  pointTravel: '{point}: {travel}',
  pointAngles: '{point}: predicted {predicted}{seen, select, yes {; measured {measured}} other {}}.',

  // The angle chart.
  angleSlider: 'Note of the angle chart',
  noneChosen: 'no note chosen',
  choose: 'Choose a note to read its angles.',
  angleSummary:
    'Predicted change of the horn angle from home against pitch. {elevation}: {upFirst}° at {first} to {upLast}° at {last}. {lateral}: {rightFirst}° at {first} to {rightLast}° at {last}.',
  predictedKey: '{ways, select, two {ascending, } other {}}predicted{band, select, yes {, 95 % band} other {}}',
  ascending: 'ascending',
  descending: 'descending',
  heldKey: 'held still',
  measuredKey: 'measured, 95 % band',
  angleCaption: 'Change of the horn angle from home, degrees',
  predictedHead: '{angle}, predicted',
  measuredHead: '{angle}, measured',
  notMeasured: 'not measured',

  // The travel charts.
  travelUp: 'Travel up',
  travelRight: 'Travel to the right',
  travelHandle: '{travel} at {point}',
  travelSummary: 'Travel of the rim from home against pitch. {points}.',
  dragUp: 'Drag a square up or down, or use the arrow keys: 0.1\u00a0mm, with Shift 1\u00a0mm.',
  drag: 'Drag a square, or use the arrow keys: 0.1\u00a0mm, with Shift 1\u00a0mm.',
  playersLeft: 'player’s left',
  playersRight: 'player’s right',
  pathTitle: 'Path {seen, select, mirror {as in a mirror} other {seen face to face}}',
  pathSummary: 'Path of the rim {seen, select, mirror {as in a mirror} other {seen face to face}}. {points}.',
  movablePoint: 'movable point',
} as const;
