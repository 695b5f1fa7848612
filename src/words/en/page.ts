/** The page itself: its head, the picture's surroundings, playing, keeping, and what is said over the whole page. */
export const PAGE = {
  // Head.
  whoseRecord: 'Whose record',
  startOwn: 'Start your own player',
  stepsBackAndForward: 'Steps back and forward',
  undo: 'Undo',
  redo: 'Redo',
  theme: 'Theme',
  paper: 'Paper',
  projector: 'Projector',
  classView: 'Class view',
  classWaits:
    'The class view opens when the film or the pictures are closed: what was followed there, and is not accepted yet, would be lost.',
  languageWaits:
    'The language changes when the film or the pictures are closed: what was followed there, and is not accepted yet, would be lost.',
  languageMissing: 'The words of the language chosen could not be fetched, so the page is in English. Load it again where there is a network.',
  languageLoses:
    'In another language the page begins anew, and what is on it is not kept here: save a file first; to change the language all the same, choose once more.',
  player: 'Player',
  withoutLabel: 'Without a label',
  keptHere: 'Kept in this browser',
  invented: 'Invented, to look at',
  lesson: 'Lesson',
  lessonPlace: '{dated, select, yes {{place}, {day}} other {{place}}}',

  // Chapters.
  pictureAndStaff: 'Picture and staff',
  chapters: 'Chapters',
  toPlayer: 'Player',
  toReadings: 'Readings',
  toMeasuring: 'From pictures and film',
  toAngles: 'Angles',
  toSays: 'What they say',
  toTryOuts: 'Try-outs',
  toHandOut: 'Hand-out',
  toShare: 'Share',
  toLessons: 'Lessons',
  headingSays: 'What the readings say',
  headingHandOut: 'Hand-out',
  headingShare: 'Share, show and hold',
  headingLessons: 'Lessons and players',
  nothingToPrint: 'There is nothing to print yet.',
  classFetched: 'The class view is being fetched…',

  // The chosen note, and why nothing can be said of it.
  nothingSaid: 'Type the travel of a note, and the swing of the horn is said here.',
  nothingSaidOf: 'Nothing can be said of {note}: {why}.',
  meanOfTakes: '{note} (mean of {takes} takes)',
  cannotRest: 'The rim cannot rest there.',
  atHome: 'At home {why}.',
  notWorkedOut: 'This could not be worked out: {why}.',
  keptNotLookedAt: 'The kept players could not be looked at: {why}',

  // Charts and staff.
  bellUp: 'Bell up',
  bellRight: 'Bell to the right',
  headTipsForward: 'Head tips forward',
  headTurnsLeft: 'Head turns to the left',
  headingForward: 'forward',
  headingLeft: 'left',
  headForward: 'head forward',
  headBack: 'head back',
  headLeft: 'head to the left',
  headRight: 'head to the right',

  // The picture.
  'camera-three-quarter': 'three-quarter',
  'camera-face': 'face to face',
  'camera-mirror': 'as in a mirror',
  'camera-side': 'from the side',
  'camera-above': 'from above',
  seen: 'Seen',
  toothNumbers: 'tooth numbers',
  cutOpen: 'cut open',
  noPicture: 'There is no picture yet: the record cannot be computed.',
  pictureFetched: 'The picture is being fetched…',
  firstHint: 'Drag the rim. {posture, select, lap {The axis shows how the head has to tip and turn.} other {The horn shows where it has to point.}}',
  dragHome: 'Drag the rim or move it with the arrow keys: this is home, so the home place moves, and every note with it.',
  dragNote: 'Drag the rim or move it with the arrow keys: this note’s travel changes.',
  drawnTeeth:
    'Drawn are generic teeth on the arch that was fitted to the scan{jaws, select, upper { of the upper jaw} lower { of the lower jaw} other {}}, {mm}\u00a0mm off it (root mean square); the rim rests on {on, select, scan {the scan itself} other {that arch}}.',
  whatIsShown: 'What is shown',
  horn: 'Horn',
  hornFollows: 'horn follows',
  hornHeld: 'held still',
  shown: 'shown',
  'view-plate': 'flat plate',
  'view-sphere': 'one sphere',
  'view-normal': 'surface normal',
  'view-seated': 'seated rim',

  // Playing.
  playing: 'Playing path',
  play: 'Play',
  pause: 'Pause',
  thereAndBack: 'there and back',
  plays: 'plays',
  upThenDown: 'up, then down',
  ascending: 'ascending',
  descending: 'descending',
  sound: 'sound',
  speed: 'speed',
  readIn: 'read in',
  clef: '{clef, select, treble {treble clef} alto {alto clef} tenor {tenor clef} other {bass clef}}{transposed, select, yes {, transposed} other {}}',

  // A newer version.
  newerReady: 'A newer version of Rimpath is ready. It starts by itself once all its pages have been closed, or when you say so.',
  startNewer: 'Start it now',
  partGone:
    'A part of this page can no longer be fetched: a newer version has been started, or the network is gone. What you entered is kept; load the page again when it suits you.',
  loadAgain: 'Load it again',

  // Keeping.
  saveFirst: '{why} Save this player as a file first; to leave it all the same, choose once more.',
  notKeptAnyMore: 'This player is not kept here any more.',
  notPutBack: 'Another stands in its place, so it was not put back.',
  guestNotTaken: 'Another stands in its place, so it was not kept.',
  guestNotKept: 'A shared picture is on the page. Nothing of it is kept here unless you keep it as a player of your own.',
  keepingNow: 'Keeping the last change…',
  keptOnceChanged: 'The player on the page is kept here as soon as something of it is changed.',
  keptInBrowser: 'The last change is kept in this browser.',
  keptUntilClosed: 'The last change is kept until this page is closed.',

  // Files.
  fileRefused: '{file}: {why}.',
  changedMeanwhile: 'One of these players was changed meanwhile, so nothing was taken in. Open the file again.',
  takenIn: 'Taken in: {count, plural, one {{count} player} other {{count} players}}.',
  scansNotTakenIn: 'The scans in the file are not kept here: what keeps them could not be fetched. The arches fitted to them are.',
  scanNotFetched: 'Nothing was saved: what reads the scan could not be fetched. Load the page again where there is a network, or save without the scan.',
  nothingChanged: 'Nothing was changed.',
  savedNotAll:
    'Saved: {count, plural, one {{count} player} other {{count} players}}. {damaged, plural, one {{damaged} player} other {{damaged} players}} kept here cannot be read and could not be put into the file.',
  unreadableFile: 'unreadable',

  // What somebody shared.
  pictureUnreadable: 'The picture in this file cannot be read ({why}).',
  guest: 'Shared with you',
  guestName: 'Shared picture',
  guestShown: 'Shared with you. Nothing of it is kept here; your own players are as they were.',
  guestAside: 'The shared picture has been put aside until this page is closed.',
  guestFile: 'This file holds a picture that was saved for you. The file never changes: what you keep of it stays in this browser.',
  guestFileNowhere:
    'This file holds a picture that was saved for you. The browser keeps nothing for it: what you change is gone when it is closed, unless you save a file.',
  guestAsideNotKept:
    '{why} What you had changed in “{name}” would be lost: show it again and save it as a file first; to open the link all the same, open it once more.',
  guestKeptFirst: 'What you had changed in “{name}” is kept as a player of your own.',
  guestKeep: 'Keep as my own',
  guestBack: 'Back to my own',
  guestPutAside: 'Put it aside',
  guestAgain: 'Show it again',
  ownArchLeftOut:
    'This page is one file, and measuring the player’s own arch, by ruler, bite print or scan, is left out of it to keep it small. The app has it.',
  measuringLeftOut:
    'This page is one file, and measuring from pictures and film is left out of it to keep it small. The app has it.',
} as const;
