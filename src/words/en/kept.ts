/** Players and lessons kept in the browser, and players as files. */
export const KEPT = {
  // Asked once before something goes.
  delete: 'Delete',
  question: '{verb} {what}?',
  keepIt: 'Keep it',

  // Lessons.
  lesson: 'Lesson {place}',
  lessonDay: 'Lesson {place}, {day}',
  seenIn:
    '{notes, plural, one {{notes} note} other {{notes} notes}}, travel seen at {seen}{tried, plural, =0 {} one {; {tried} try-out} other {; {tried} try-outs}}',
  lessonsOf: '{named, select, yes {Lessons of {player}} other {Lessons of this player}}',
  isOpen: '(open)',
  open: 'Open',
  undoBack: 'Undo brings it back{films, select, yes {, but not a film that was kept with it: that is forgotten at once} other {}}.',
  newLesson: 'New lesson',
  mostLessons: 'A player has up to {most} lessons.',
  newLessonHint: 'A new lesson begins with the last one’s rim, force, home and notes, and with nothing seen yet.',
  day: 'Day',
  lessonRemark: 'Remark on this lesson',

  // Players.
  players: 'Players kept in this browser',
  nobody: 'Nobody yet. An invented player is kept once something of it has been changed.',
  noLabel: 'Without a label',
  playerLine: '{instrument}, {lessons, plural, one {{lessons} lesson} other {{lessons} lessons}}{dated, select, yes {, last {day}} other {}}',
  thisPlayer: 'this player',
  named: '{label}',
  canBePutBack: 'Until this page is closed it can be put back, but films and scans that were kept with it are forgotten at once.',
  saveDamaged: 'Save it as a file',
  asKept: ', as it is kept: {id}',
  deleted: 'Deleted: {named, select, yes {{label}} other {a player without a label}}.',
  putBack: 'Put {named, select, yes {{label}} other {it}} back',
  privacy:
    'A label or initials suffice; players may be minors, and a full name needs their consent or that of their parents. Everything stays on this machine: nothing is sent anywhere.',
  goOnHere: 'Go on here',

  // Files.
  files: 'Files',
  saveThis: 'Save {named, select, yes {{label}} other {this player}} as a file',
  saveAll: 'Save all players as one file',
  openFile: 'Open a file',
  playerFile: 'Player file',
  notOpened: 'Not opened.',
  fileHolds: 'A file holds remarks and labels as they are here. Give it only to those who may read them.',
  wouldChange: 'What {file} would change',
  fileHas: '{file} has {count, plural, one {one player} other {{count} players}}. Nothing has been changed yet.',
  takeIn: '{count, plural, one {Take in one player} other {Take in {count} players}}',
  leaveAll: 'Leave everything as it is',
  whatToDo: 'What to do with {label}',
  add: 'Add',
  leaveOut: 'Leave out',
  leaveAsIs: 'Leave as it is',
  keepSecond: 'Keep a second one',
  keepBoth: 'Keep both',
  replaceKept: 'Replace the one kept here',
  'kind-new': 'not kept here yet',
  'kind-same': 'kept here already, just the same',
  'kind-changes': 'kept here already, with differences',
} as const;
