import type { HOLD as ENGLISH } from '../en/hold';
import type { Translation } from '../messageFormat';

export const HOLD: Translation<typeof ENGLISH> = {
  heading: 'Zum Drucken und Anfassen',
  intro:
    'Der Zahnbogen, der Rand und ein Stab für jede Note als Dateien für einen 3D-Drucker: einen echten Rand über den gedruckten Zahnbogen rollen, oder einen Stab nach dem anderen in den Träger stecken und sehen, wie die Achse wandert und schwenkt.',
  caution:
    'Das ist die Geometrie eines Modells, die glatte Fläche, mit der gerechnet wird: kein Abdruck von irgendjemandes Zähnen und nichts, was in den Mund gehört.',
  nothing: 'Noch ist nichts herzustellen: Der Datensatz lässt sich nicht berechnen.',
  make: 'Aus diesem Datensatz herstellen',
  makeAnew: 'Der Datensatz hat sich geändert. Neu herstellen',
  making: 'Was sich drucken lässt, wird hergestellt',
  makingOf: 'Was sich drucken lässt, wird hergestellt: {done} von {of}',
  cancel: 'Abbrechen',
  withLabel: 'die Bezeichnung des Spielers in die Dateinamen setzen',
  files:
    'STL-Dateien sind zum Drucken, in Millimetern. GLB-Dateien sind zum Ansehen: Sie gehen in wahrer Größe auf, und ihre Ecken sind Millimeter unter einem Knoten, der auf die Meter von glTF umrechnet.',
  made: '{count, plural, one {{count} Ding} other {{count} Dinge}} hergestellt. Jedes wurde geprüft: geschlossen, die Außenseite nach außen.',
  saveAs: 'Als {format} sichern',
  saveThingAs: 'Als {format} sichern: {thing}',
  savedAs: 'Gesichert als {name}.',

  'thing-surface': 'Der Zahnbogen',
  'thing-both': 'Beide Kiefer, wie sie beißen',
  'thing-upper': 'Oberkiefer',
  'thing-lower': 'Unterkiefer',
  'thing-rim': 'Rand',
  'thing-pegs': 'Stäbe der Bahn und ihr Träger',
  'file-surface': 'zahnbogen',
  'file-both': 'beide-kiefer',
  'file-upper': 'oberkiefer',
  'file-lower': 'unterkiefer',
  'file-rim': 'rand',
  'file-pegs': 'staebe',

  archSize: '{size} mm; lässt sich in einem Stück auf dem Rücken drucken, ohne Stützen; ein echter Rand von {rim} mm rollt darüber.',
  rimSize: '{size} mm; lässt sich in einem Stück auf dem flachen Rücken drucken.',
  pegsSize:
    'Ein Träger und {pegs, plural, one {{pegs} Stab} other {{pegs} Stäbe}}, nebeneinander {size} mm{large, select, yes {, mehr als auf viele Drucker passt: Das Druckprogramm kann sie enger legen oder einige auf einmal drucken} other {}}; jeder lässt sich stehend drucken, ohne Stützen.',
  triangles: '{count, plural, one {{count} Dreieck} other {{count} Dreiecke}}.',
  archFine: '{count, plural, one {{count} Dreieck} other {{count} Dreiecke}}, höchstens {chord} mm neben der berechneten Fläche, wo ein Rand sein kann.',
  rimFine: '{count, plural, one {{count} Dreieck} other {{count} Dreiecke}}, höchstens {chord} mm neben dem eigenen Profil des Rands.',
  pegsAre:
    'Erhaben auf den Füßen: {key}.{leftOut, plural, =0 {} one { {leftOut} Note dazwischen ist weggelassen.} other { {leftOut} Noten dazwischen sind weggelassen.}} Ein Stab ist so geneigt wie das Instrument im Bild und steht auf seinem Fuß dort, wo die Mitte des Rands steht, von der Grundstellung aus gezählt.',
  numberIs: '{number} ist {name}',
  noteWay: '{note} {way, select, up {aufwärts} other {abwärts}}',

  'one-surface': 'Dieser Zahnbogen ist eine einzige Fläche: Er hat keinen eigenen Unterkiefer.',
  'too-tight':
    'Dieser Zahnbogen ist für sein Profil zu stark gekrümmt, um ein Körper zu werden: In der Breite blieben weniger als 8 mm. Ein breiterer Zahnbogen oder ein geraderes Profil lässt sich herstellen.',
  'too-fine':
    'Dieser Zahnbogen hat so kleine Biegungen oder überdeckt sich so, dass ein gedruckter nicht auf 0,02 mm genau würde. Ein Zahn, der weniger vorsteht oder breiter ist, lässt sich herstellen.',
  'too-close':
    'Die Kanten der Kiefer sind weniger als 0,4 mm auseinander oder gehen aneinander vorbei, deshalb lassen sich beide nicht mit ihrem Spalt in einem Stück drucken. Den Kiefer etwas öffnen oder jeden Kiefer für sich drucken.',
  'too-open': 'Der Unterkiefer ist so weit gekippt, dass sein Zahnfleisch überhängen würde. Jeden Kiefer für sich drucken.',
  'nothing-across': 'Die beiden Kiefer decken sich von Seite zu Seite um weniger als 8 mm. Jeden Kiefer für sich drucken.',
  'not-closed': 'Was herauskam, ist kein geschlossener Körper und wird deshalb nicht angeboten: Diese Maße lassen sich nicht drucken.',
  'no-notes': 'Noch gibt es keine gemessenen Noten: Ein Satz hat einen Stab für jede.',
  tooManyPegs: 'Ein Satz hat höchstens {most} Stäbe, und es sind {count} Noten.',
  farNote: 'Bei {note} ist der Rand mehr als {most} mm von der Grundstellung entfernt: Die Füße der Stäbe würden zu groß.',
  steepNote: 'Bei {note} weist das Instrument mehr als 55° von geradeaus weg: Ein solcher Stab würde beim Drucken nicht stehen.',
  thinRim: 'Dieser Rand ist weniger als {least} mm breit: zu dünn zum Drucken.',
  smallHole: 'Die Öffnung dieses Rands ist weniger als {least} mm weit: zu klein zum Drucken.',
  largeRim: 'Dieser Rand ist mehr als {most} mm groß: zu groß zum Drucken.',
};
