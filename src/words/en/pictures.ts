/** Pictures and moving pictures of the stage, and what is written into them; fetched with the chapter on sharing. */
export const PICTURES = {
  heading: 'Pictures and moving pictures',
  nothing: 'There is no picture yet: the record cannot be computed.',
  shown: 'What is shown',
  shownStage: 'the stage as it is seen now',
  shownFlat: 'the flat drawing: the front, and the side or from above',
  width: 'Width of a PNG',
  savePng: 'Save as PNG',
  saveSvg: 'Save as SVG',
  svgNote:
    'An SVG is always the flat drawing: lines and words that a drawing program can change. The picture in the round is saved as a PNG.',
  drawing: 'Drawing the picture…',
  withLabel: 'write the player’s label into pictures and files’ names',
  savedAs: 'Saved as {name}.',
  notMade: '{name} could not be made in this browser.',

  film: 'A film of the path',
  filmNote:
    'Every frame is computed for its own moment, so nothing stutters: thirty in a second, with the note, its travel and its swing written below.',
  size: 'Size',
  file: 'File',
  format: '{container}{silent, select, yes {, silent} other {}}',
  way: 'The path',
  there: 'from the lowest note to the highest',
  thereAndBack: 'and back again',
  withSound: 'with the sound of the notes',
  makeFilm: 'Make the film',
  saveSound: 'Save the sound alone (WAV)',
  filming: 'Making the film',
  filmProgress:
    'Making the film: {percent}\u00a0%{left, select, seconds {, about {amount} s left} minutes {, about {amount} minutes left} other {}}',
  cancel: 'Cancel',
  calledOff: 'The film was called off; nothing was saved.',
  slow: 'This browser draws without a graphics card: a film of the stage takes many minutes here. One of the flat drawing is made quickly.',
  oneNote: 'A film needs a path: measure the travel of two notes or more.',
  noEncoder:
    'This browser has nothing that writes films, so none can be made here. Pictures and the sound can be saved all the same.',
  noSound: 'This browser has no encoder for the sound of such a film: it will be silent. The sound alone can be saved.',

  // Below a picture: where the rim is, and what the horn does.
  caption: '{travel} {held, select, yes {Held still; where the horn follows, {swing}.} other {From the horn angle at home, {swing}.}}',

  // Parts of a file's name.
  'file-picture': 'picture',
  'file-path': 'path',
  'file-sound': 'sound',
} as const;
