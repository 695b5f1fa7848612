import type { CLI as ENGLISH } from '../en/cli';
import type { Translation } from '../messageFormat';

export const CLI: Translation<typeof ENGLISH> = {
  usage:
    'Aufruf: npm run -s predict -- DATEI.json [--player BEZEICHNUNG|ID] [--lesson NUMMER|TAG] [--language {languages}]',
  usageNotes: '(- liest die Standardeingabe; von mehreren Stunden wird die letzte genommen)',
  arguments: 'Argumente: {why}. {usage}',
  oneFile: 'Argumente: {count}; erlaubt: ein Dateiname. {usage}',
  unreadable: 'nicht lesbar',
  language: '--language: {value}; erlaubt: {allowed}',
  internal: 'Fehler im Programm: {detail}',
  notFinite: 'Fehler im Programm: {place} ist keine endliche Zahl',
  home: 'Grundstellung',
  problem: '{place}: {words}',
  andMore: '{words} (und {count} weitere)',

  noPlayer: '--player: {value}; erlaubt: {allowed}',
  playerMissing: '--player: fehlt, und die Datei enthält {count} Spieler; erlaubt: {allowed}',
  playerTwice: '--player: {value}, eine Bezeichnung von {count} Spielern; erlaubt: {allowed}',
  listed: '{players}{more, plural, =0 {} other { und {more} weitere}}',
  noLesson: 'Stunden: keine; erlaubt: mindestens eine',
  lessonNumber: '--lesson: {value}; erlaubt: eine Zahl von 1 bis {most}',
  lessonNumberOrDay: '--lesson: {value}; erlaubt: eine Zahl von 1 bis {most} oder der Tag einer Stunde',
  lessonDayTwice: '--lesson: {value}, ein Tag mit {count} Stunden; erlaubt: eine Zahl, hier {numbers}',

  standardInput: 'Standardeingabe',
  tooLarge: '{file}: größer als eine Datensatzdatei; erlaubt: bis zu {most} Bytes',
  notRead: '{file}: {why}; erlaubt: eine lesbare JSON-Datei, oder - für die Standardeingabe',
  notText: '{file}: kein UTF-8-Text; erlaubt: eine JSON-Datei in UTF-8',
  noSuchFile: 'keine solche Datei',
  isFolder: 'ist ein Ordner',
  noPermission: 'keine Erlaubnis, sie zu lesen',
  cannotBeRead: 'lässt sich nicht lesen',
  cannotBeReadFor: 'lässt sich nicht lesen ({detail})',

  outputNotWritten: 'Standardausgabe: lässt sich nicht schreiben ({code})',
  unknownReason: 'Grund unbekannt',
};
