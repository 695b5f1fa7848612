import type { TABLES as ENGLISH } from '../en/tables';
import type { Translation } from '../messageFormat';

export const TABLES: Translation<typeof ENGLISH> = {
  tableRefused: 'Tabelle: {why}',
  pasteRefused: 'Eingefügtes: {why}',
  tableUnread: 'Tabelle: keine ihrer Zellen ließ sich lesen; erlaubt: eine Ablesung je Zeile, darüber die Namen der Spalten',
  tableTooMany: 'Tabelle: mehr als {most} Ablesungen; erlaubt: bis zu {most}',
  charactersUpTo: '{count} Zeichen; erlaubt: bis zu {most}',
  tableEmpty: 'leer; erlaubt: eine Tabelle mit einer Ablesung je Zeile',
  tableNoText: 'kein Text; erlaubt: eine Tabelle als Text (CSV), wie Tabellenprogramme sie sichern',
  noteHeaderSounding: 'Note (klingend, {naming, select, german {deutsche} solfège {Solfège-} other {wissenschaftliche}} Namen)',
  noteHeaderWritten:
    'Note (notiert {semitones} Halbtöne {side, select, above {über} other {unter}} klingend, {naming, select, german {deutsche} solfège {Solfège-} other {wissenschaftliche}} Namen)',
};
