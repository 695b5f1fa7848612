/** Things to print and hold: what they are, how large, and why one cannot be made; fetched with the chapter on sharing. */
export const HOLD = {
  heading: 'Things to print and hold',
  intro:
    'The arch, the rim and a peg for each note as files for a 3D printer: roll a real rim over the printed arch, or put one peg after another into the tray and watch the axis move and swing.',
  caution:
    'This is the geometry of a model, the smooth face that is computed with: not a cast of anybody’s teeth, and nothing to put in the mouth.',
  nothing: 'There is nothing to make yet: the record cannot be computed.',
  make: 'Make them from this record',
  makeAnew: 'The record has changed. Make them anew',
  making: 'Making what can be printed',
  makingOf: 'Making what can be printed: {done} of {of}',
  cancel: 'Cancel',
  withLabel: 'put the player’s label into the files’ names',
  files:
    'STL files are for printing, in millimetres. GLB files are for looking at: they open in true size, and their corners are millimetres under a node that is scaled to glTF’s metres.',
  made: '{count, plural, one {{count} thing} other {{count} things}} made. Each was checked: closed, with its outside outward.',
  saveAs: 'Save as {format}',
  saveThingAs: 'Save as {format}: {thing}',
  savedAs: 'Saved as {name}.',

  // What there is, and its part of a file's name.
  'thing-surface': 'The arch',
  'thing-both': 'Both jaws as they bite',
  'thing-upper': 'Upper jaw',
  'thing-lower': 'Lower jaw',
  'thing-rim': 'Rim',
  'thing-pegs': 'Path pegs and their tray',
  'file-surface': 'surface',
  'file-both': 'both',
  'file-upper': 'upper',
  'file-lower': 'lower',
  'file-rim': 'rim',
  'file-pegs': 'pegs',

  // How large and how fine.
  archSize: '{size} mm; prints in one piece on its back, without supports; a real rim of {rim} mm rolls over it.',
  rimSize: '{size} mm; prints in one piece on its flat back.',
  pegsSize:
    'A tray and {pegs, plural, one {{pegs} peg} other {{pegs} pegs}}, {size} mm side by side{large, select, yes {, more than many printers hold: the printing program can lay them closer or print some at a time} other {}}; each prints standing, without supports.',
  triangles: '{count, plural, one {{count} triangle} other {{count} triangles}}.',
  archFine: '{count, plural, one {{count} triangle} other {{count} triangles}}, within {chord} mm of the computed face where a rim can be.',
  rimFine: '{count, plural, one {{count} triangle} other {{count} triangles}}, within {chord} mm of the rim’s own contour.',
  pegsAre:
    'Raised on the feet: {key}.{leftOut, plural, =0 {} one { {leftOut} note between them left out.} other { {leftOut} notes between them left out.}} A rod leans as the horn does in the picture, and stands on its foot where the rim’s centre stands, counted from home.',
  numberIs: '{number} is {name}',
  noteWay: '{note} {way, select, up {upward} other {downward}}',

  // Why one cannot be made.
  'one-surface': 'This arch is one surface: it has no lower jaw of its own.',
  'too-tight':
    'This arch is too sharply bent for its profile to be made solid: there would be less than 8 mm of it across. A wider arch, or a straighter profile, can be made.',
  'too-fine':
    'This arch has bends so small, or runs over itself so, that a printed one would not keep to 0.02 mm of it. A tooth that stands out less, or is wider, can be made.',
  'too-close':
    'The edges of the jaws are less than 0.4 mm apart, or pass each other, so both cannot be printed in one piece with their gap. Open the jaw a little, or print each jaw by itself.',
  'too-open': 'The lower jaw is tilted so far that its gum would hang over. Print each jaw by itself.',
  'nothing-across': 'The two jaws overlap by less than 8 mm from side to side. Print each jaw by itself.',
  'not-closed': 'What came out is not a closed body, so it is not offered: these measures cannot be printed.',
  'no-notes': 'There are no measured notes yet: a set has one peg for each.',
  tooManyPegs: 'A set has at most {most} pegs, and there are {count} notes.',
  farNote: 'At {note} the rim is more than {most} mm from home: the pegs’ feet would be too large.',
  steepNote: 'At {note} the horn points more than 55° away from straight ahead: such a peg would not stand while it is printed.',
  thinRim: 'This rim is less than {least} mm wide: too thin to print.',
  smallHole: 'This rim’s opening is less than {least} mm across: too small to print.',
  largeRim: 'This rim is more than {most} mm across: too large to print.',
} as const;
