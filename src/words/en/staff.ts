/** The staff on the page and on paper. */
export const STAFF = {
  timeLine: 'Notes of the path, {instrument}',
  ascending: 'ascending',
  descending: 'descending',
  // What is heard after a note's name.
  heard: '{differs, select, yes {, written {written}} other {}}{direction, select, up {, ascending} down {, descending} other {}}',
  heardSwing: ', predicted swing {up}, {right}',
  headingUp: 'up',
  headingRight: 'right',
  up: 'up',
  down: 'down',
  right: 'right',
  left: 'left',
  noNotes: 'No notes yet',
  notLoaded: 'The notation could not be loaded; the notes are shown by name.',
  notWritable: 'These notes are outside what can be written; the notes are shown by name.',
  leftOut: '{count, plural, one {One more note is} other {{count} more notes are}} not on this sheet: it has room for {room}.',
  writtenAs: '{note} (written {written})',
  swingOf: '{note} {elevation} {up}, {lateral} {right}',
  described: 'Notes and predicted swing from home, {instrument}: {notes}',
} as const;
