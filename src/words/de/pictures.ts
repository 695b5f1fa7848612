import type { PICTURES as ENGLISH } from '../en/pictures';
import type { Translation } from '../messageFormat';

export const PICTURES: Translation<typeof ENGLISH> = {
  heading: 'Bilder und bewegte Bilder',
  nothing: 'Noch gibt es kein Bild: Der Datensatz lässt sich nicht berechnen.',
  shown: 'Was gezeigt wird',
  shownStage: 'das Bild, wie es gerade zu sehen ist',
  shownFlat: 'die flache Zeichnung: von vorn und von der Seite oder von oben',
  width: 'Breite eines PNG',
  savePng: 'Als PNG sichern',
  saveSvg: 'Als SVG sichern',
  svgNote:
    'Ein SVG ist immer die flache Zeichnung: Linien und Worte, die ein Zeichenprogramm ändern kann. Das räumliche Bild wird als PNG gesichert.',
  drawing: 'Das Bild wird gezeichnet …',
  withLabel: 'die Bezeichnung des Spielers in Bilder und Dateinamen schreiben',
  savedAs: 'Gesichert als {name}.',
  notMade: '{name} ließ sich in diesem Browser nicht herstellen.',

  film: 'Ein Film der Bahn',
  filmNote:
    'Jedes Einzelbild wird für seinen eigenen Augenblick berechnet, deshalb ruckelt nichts: dreißig in der Sekunde, darunter die Note, ihr Weg und ihr Schwenk.',
  size: 'Größe',
  file: 'Datei',
  format: '{container}{silent, select, yes {, stumm} other {}}',
  way: 'Die Bahn',
  there: 'von der tiefsten Note zur höchsten',
  thereAndBack: 'und wieder zurück',
  withSound: 'mit dem Klang der Noten',
  makeFilm: 'Film herstellen',
  saveSound: 'Nur den Ton sichern (WAV)',
  filming: 'Der Film wird hergestellt',
  filmProgress:
    'Der Film wird hergestellt: {percent}\u00a0%{left, select, seconds {, noch etwa {amount} s} minutes {, noch etwa {amount} Minuten} other {}}',
  cancel: 'Abbrechen',
  calledOff: 'Der Film wurde abgebrochen; nichts wurde gesichert.',
  slow: 'Dieser Browser zeichnet ohne Grafikkarte: Ein Film des räumlichen Bilds dauert hier viele Minuten. Einer der flachen Zeichnung ist schnell hergestellt.',
  oneNote: 'Ein Film braucht eine Bahn: den Weg von mindestens zwei Noten messen.',
  noEncoder:
    'Dieser Browser hat nichts, womit sich Filme schreiben lassen, deshalb kann hier keiner entstehen. Bilder und Ton lassen sich trotzdem sichern.',
  noSound: 'Dieser Browser kann den Ton eines solchen Films nicht schreiben: Er wird stumm. Der Ton allein lässt sich sichern.',

  caption: '{travel} {held, select, yes {Festgehalten; beim Mitgehen {swing}.} other {Vom Winkel der Grundstellung aus {swing}.}}',

  'file-picture': 'bild',
  'file-path': 'bahn',
  'file-sound': 'ton',
};
