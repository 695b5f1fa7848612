import type { EXERCISES as ENGLISH } from '../en/exercises';
import type { Translation } from '../messageFormat';

export const EXERCISES: Translation<typeof ENGLISH> = {
  exerciseRefused: '{file}: {why}',
  bytesUpTo: '{count} Bytes; erlaubt: bis zu {most}',
  exerciseReaderMissing: 'was es liest, war nicht zu holen; die Seite neu laden, wo es ein Netz gibt',
  noExercise: 'weder MIDI noch MusicXML; erlaubt: eine Datei mit der Endung {endings}',
  exerciseTooMany: 'Übung: {count} Ablesungen; erlaubt: bis zu {most}',
  midiTooLarge: '{count} Bytes; für eine MIDI-Datei erlaubt: bis zu {most}',
  midiDamaged: 'beschädigt oder keine MIDI-Datei; erlaubt: eine Standard-MIDI-Datei',
  midiEmpty: 'eine MIDI-Datei ohne Noten; erlaubt: mindestens eine',
  midiFile: 'MIDI-Datei',
  track: 'Spur {number}',
  xmlDamaged: 'beschädigt oder kein MusicXML; erlaubt: eine MusicXML-Partitur, .musicxml, .xml oder .mxl',
  xmlByMeasures:
    'eine nach Takten geordnete Partitur (score-timewise); erlaubt: eine nach Stimmen geordnete (score-partwise), wie Notensatzprogramme sie sichern',
  xmlNoScore: 'XML, aber keine MusicXML-Partitur; erlaubt: score-partwise',
  xmlEmpty: 'eine Partitur ohne Noten bestimmter Höhe; erlaubt: mindestens eine',
  xmlFile: 'MusicXML-Datei',
  part: 'Stimme {number}',
  xmlOutOfRange: 'eine Note außerhalb des Bereichs, {note} um {semitones} Halbtöne verschoben; erlaubt: C-1 bis G9',
  xmlTransposition: 'eine Transposition um {semitones} Halbtöne; erlaubt: bis zu {most}',
  xmlNoPitch: 'eine Tonhöhe, die keine ist, {pitch}; erlaubt: C-1 bis G9',
  mxlNoScore: 'eine gepackte Datei, die keine Partitur nennt; erlaubt: gepacktes MusicXML (.mxl)',
  mxlTooLarge: '{count} Bytes nach dem Auspacken; erlaubt: bis zu {most}',
  mxlWithout: 'ein Zip ohne Partitur; erlaubt: gepacktes MusicXML (.mxl)',
};
