/** What `predict` says on standard error. */
export const CLI = {
  usage:
    'usage: npm run -s predict -- FILE.json [--player LABEL|ID] [--lesson NUMBER|DAY] [--language {languages}]',
  usageNotes: '(- reads standard input; of several lessons the last one is taken)',
  arguments: 'arguments: {why}. {usage}',
  oneFile: 'arguments: {count}; allowed: one file name. {usage}',
  unreadable: 'unreadable',
  language: '--language: {value}; allowed: {allowed}',
  internal: 'internal error: {detail}',
  notFinite: 'internal error: {place} is not a finite number',
  home: 'home',
  problem: '{place}: {words}',
  andMore: '{words} (and {count} more)',

  // Which player, which lesson.
  noPlayer: '--player: {value}; allowed: {allowed}',
  playerMissing: '--player: missing, and the file holds {count} players; allowed: {allowed}',
  playerTwice: '--player: {value}, a label that {count} players have; allowed: {allowed}',
  listed: '{players}{more, plural, =0 {} other { and {more} more}}',
  noLesson: 'lessons: none; allowed: at least one',
  lessonNumber: '--lesson: {value}; allowed: a number from 1 to {most}',
  lessonNumberOrDay: '--lesson: {value}; allowed: a number from 1 to {most}, or a lesson’s day',
  lessonDayTwice: '--lesson: {value}, a day with {count} lessons; allowed: a number, here {numbers}',

  // The input.
  standardInput: 'standard input',
  tooLarge: '{file}: larger than a record file; allowed: up to {most} bytes',
  notRead: '{file}: {why}; allowed: a readable JSON file, or - for standard input',
  notText: '{file}: not UTF-8 text; allowed: a JSON file in UTF-8',
  noSuchFile: 'no such file',
  isFolder: 'is a folder',
  noPermission: 'no permission to read it',
  cannotBeRead: 'cannot be read',
  cannotBeReadFor: 'cannot be read ({detail})',

  // The output.
  outputNotWritten: 'standard output: cannot be written ({code})',
  unknownReason: 'unknown reason',
} as const;
