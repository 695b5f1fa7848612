/** Why a table of readings cannot be read, and how its notes are headed; fetched with the reader of tables. */
export const TABLES = {
  tableRefused: 'table: {why}',
  pasteRefused: 'what was pasted: {why}',
  tableUnread: 'table: not one of its cells could be read; allowed: one reading a line, with the names of the columns above',
  tableTooMany: 'table: more than {most} readings; allowed: up to {most}',
  charactersUpTo: '{count} characters; allowed: up to {most}',
  tableEmpty: 'empty; allowed: a table with one reading a line',
  tableNoText: 'not a text; allowed: a table as text (CSV), as spreadsheets save it',
  noteHeaderSounding: 'Note (sounding, {naming, select, german {German} solfège {solfège} other {scientific}} names)',
  noteHeaderWritten:
    'Note (written {semitones} semitones {side, select, above {above} other {below}} sounding, {naming, select, german {German} solfège {solfège} other {scientific}} names)',
} as const;
