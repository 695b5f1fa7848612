/** Try-outs: what is changed, what the model expects of it, what was seen. */
export const TRY_OUTS = {
  heading: 'Try-outs',
  explained:
    'One small change, tried on the same notes and compared with playing as usual. The model says what it expects of the change, not whether the change is good: that is heard and felt.',
  full: 'A lesson holds up to {most} try-outs.',
  begin: 'A new try-out',
  whatToTry: 'What to try',
  holdHorn: 'hold the horn as at home',
  letFollow: 'let the horn follow the rim',
  placeHigher: 'place the rim higher',
  placeLower: 'place the rim lower',
  bringRight: 'bring the horn round to the player’s right',
  bringLeft: 'bring the horn round to the player’s left',
  byHowMuch: 'By how much',
  beginThis: 'Begin this try-out',
  numbered: '{number}. {name}',
  notCompared: 'Not compared.',
  whatWasSeen: 'What was seen in this try-out',
  howItFelt: 'How it felt and sounded',
  tryOut: 'try-out {number}',
  undoBack: 'Undo brings it back.',
  addReading: 'Add a reading',
  takeOut: 'Take {note} out',

  // What the change is.
  holdHornSays: 'The rim may travel as it will; the horn keeps the angle that it has at home.',
  letFollowSays: 'The horn is free to swing as the rim travels, so that the rim rests evenly on teeth that are curved both ways.',
  placeRimSays:
    'The rim starts from another place, with {lip, select, upper {more upper} other {more lower}} lip inside it. Travel is counted from the new place.',
  bringRoundSays: 'The horn points to one side from the start and is held there, whatever the rim does.',

  // What is expected of it, and what was heard.
  expectForce:
    'At {note} the model expects {tried}\u00a0% of the force on the {half, select, upper {upper} lower {lower} right {right} other {left}} half of the rim; with the horn following it would be {usual}\u00a0%.',
  expectLittle: 'At {note} the model expects hardly any swing {from, select, home {from home} other {from the same note as usual}}.',
  expectSwing: 'At {note} the model expects that {clause}, counted {from, select, home {from home} other {from the same note as usual}}.',
  easeSame:
    '{notes, plural, one {On one note} other {On {notes} notes}} it spoke as easily as usual{spreads, select, yes {; from note to note this differs by {spread}} other {}}.',
  easeOther:
    '{notes, plural, one {On one note} other {On {notes} notes}} it spoke {size} {way, select, easier {easier} other {harder}} than usual on the average, on the scale from 1 (hard) to 5 (easy){spreads, select, yes {; from note to note this differs by {spread}} other {}}.',
  'air-down': 'down',
  'air-up': 'up',
  'air-unsure': 'not sure',

  // The comparison.
  compared: '{name}, compared',
  caption: '{name}: each note as usual and tried, with the horn’s change as the model expected it and as it was seen',
  note: 'Note',
  played: 'Played',
  air: 'Air',
  ease: 'Ease',
  hornChange: 'Horn’s change, °',
  asUsual: 'as usual',
  tried: 'tried',
  ascending: ', ascending',
  descending: ', descending',
  expected: 'expected',
  seen: 'seen',
  kindHeard: '{kind}: ',
  countedNote:
    'Up and to the player’s own right are +. The change is counted {from, select, home {from home} other {from the same note as usual}}: {expected} by the model beside playing as usual, {seen} beside the try-out; ± is half a 95 % band.',
} as const;
