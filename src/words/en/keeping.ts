/** What the reader is told of keeping players and films in this browser: what is the matter, and what to do. */
export const KEEPING = {
  // Players.
  missing: 'This browser has no place where a page can keep things, so nothing is kept: save a file before you close.',
  cannotKeep:
    'This browser does not let the page keep anything (a private window, or a setting), so nothing is kept: save a file before you close.',
  newerDatabase:
    'A newer version of this program keeps players in this browser. They are left as they are; reload the page to get that version. Until then nothing is kept: save a file before you close.',
  noAnswer:
    'The browser’s store does not answer. Close other tabs of this page and reload it; until then nothing is kept: save a file before you close.',
  otherTabOld:
    'An older version of this page is open in another tab. Close that tab and reload this one; until then nothing is kept: save a file before you close.',
  takenByNewer: 'A newer version of this page was opened in another tab, so this one keeps nothing more: save a file, then reload.',
  full: 'The browser’s store is full, so the last changes are not kept: save a file, then make room in the browser’s settings.',
  unreadable:
    'The last changes are not kept, since they could not be read again ({fault}). Undo them, or change what is named here; what was kept before stays.',
  failed:
    'The browser’s store has failed{named, select, yes { ({name})} other {}}, so the last changes are not kept: save a file before you close.',
  damagedRow: 'What is kept as {id} cannot be read, and is left as it is: {why}',
  oldUnreadable: 'The record kept in this browser cannot be read: {why}',
  oldNotTaken: 'The record kept in this browser could not be taken over.',

  // Two tabs.
  openElsewhere: 'This player is open in another tab, so it is only shown here.',
  noRelease: 'The other tab does not let this player go. Close that tab, then try again.',
  keptBoth: 'Another tab changed this player too, so both are kept; this one is now the copy from this tab.',
  keptAgain: 'This player had been removed in another tab. It is kept again, since it was changed here.',
  copyEnding: ' (copy from this tab)',
  newPlayer: 'New player',

  // Measurings.
  measuringGone: 'The measuring this reading came from has been deleted, so its frame cannot be shown.',
  measuringUnreadable: 'The measuring this reading came from cannot be read ({why}).',
  measuringWithoutPicture: 'The measuring this reading came from no longer holds its picture.',
  deletingMeasuring:
    'Its marks and what was followed are deleted, and a film that was kept with it. {count, plural, =0 {No reading came from it.} one {The {count} reading that came from it stays, but can no longer be traced back to a frame or measured again.} other {The {count} readings that came from it stay, but can no longer be traced back to a frame or measured again.}}',

  // What a file would change.
  labelBecomes: 'label: “{before}” becomes “{after}”',
  instrumentBecomes: 'instrument: {before} becomes {after}',
  otherArch: 'the arch is another',
  otherLips: 'the lips are other ones',
  lessonsMore: '{count, plural, one {{count} lesson} other {{count} lessons}} more: {lessons}',
  lessonsFewer: '{count, plural, one {{count} lesson} other {{count} lessons}} fewer: {lessons} would be lost',
  lessonChanges: 'lesson {lesson}: {changes}',
  lessonsOrder: 'the lessons stand in another order',
  lessonWithoutDay: 'without a day ({id})',
  lessonOf: 'of {date}',
  dayBecomes: 'its day becomes {date}',
  dayUnknown: 'unknown',
  theRim: 'the rim',
  theForce: 'the force',
  theHome: 'home',
  theShare: 'the upper lip’s share',
  theRemark: 'the remark',
  theHomework: 'what to try at home',
  and: '{first} and {second}',
  changed: '{parts} changed',
  readingsChanged: '{count, plural, one {{count} reading} other {{count} readings}} changed',
  readingsMore: '{count, plural, one {{count} reading} other {{count} readings}} more',
  readingsFewer: '{count, plural, one {{count} reading} other {{count} readings}} fewer',
  readingsOrder: 'the readings stand in another order',
  tryOutsChanged: '{count, plural, one {{count} try-out} other {{count} try-outs}} changed',
  tryOutsMore: '{count, plural, one {{count} try-out} other {{count} try-outs}} more',
  tryOutsFewer: '{count, plural, one {{count} try-out} other {{count} try-outs}} fewer',
  measuringsChanged: '{count, plural, one {{count} measuring} other {{count} measurings}} changed',
  measuringsMore: '{count, plural, one {{count} measuring} other {{count} measurings}} more',
  measuringsFewer: '{count, plural, one {{count} measuring} other {{count} measurings}} fewer',
} as const;
