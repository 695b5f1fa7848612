import type { SHARE as ENGLISH } from '../en/share';
import type { Translation } from '../messageFormat';

export const SHARE: Translation<typeof ENGLISH> = {
  linkHeading: 'Ein Link und sein Code',
  fileHeading: 'Eine einzige Datei',

  howMuch: 'Wie viel davon',
  'extent-lesson': 'die ganze Stunde',
  'extent-readings': 'ohne Versuche',
  'extent-note': 'die gewählte Note und die Grundstellung',
  alongWithIt: 'Dazu, wenn angekreuzt',
  labelAndDay: 'Bezeichnung und Tag',
  remarks: 'Bemerkungen und was zu versuchen ist',
  measurings: 'was aus Filmen und Bildern gemessen wurde ({count}), ohne die Filme',
  goes:
    'Dabei sind: Zähne, Lippen, Rand und Kraft; {extent, select, note {die gewählte Note und die Grundstellung} other {{readings, plural, one {{readings} Ablesung} other {{readings} Ablesungen}}}}{tryOuts, plural, =0 {} one { und {tryOuts} Versuch} other { und {tryOuts} Versuche}}; das Bild, wie es gerade zu sehen ist.',
  stays:
    '{label, select, stays {Ohne Bezeichnung, ohne Tag{remarks, select, stays {, ohne Bemerkungen} other {}}{measured, select, stays {, ohne das aus Filmen Gemessene} other {}}.} other {{remarks, select, stays {Ohne Bemerkungen{measured, select, stays {, ohne das aus Filmen Gemessene} other {}}.} other {{measured, select, stays {Ohne das aus Filmen Gemessene.} other {}}}}}}',

  linkIs:
    'Der Link ist das Bild: Alles steht hinter dem #, und das schicken Browser niemandem. Wer ihn öffnet, sieht das Bild auf einer Seite wie dieser.',
  link: 'Der Link',
  copy: 'Link kopieren',
  copied: 'Der Link ist kopiert.',
  notCopied: 'Der Browser lässt die Seite nicht kopieren. Der Link ist in seinem Feld markiert: von dort kopieren.',
  handOn: 'An ein anderes Programm geben …',
  noAddress:
    'Diese Seite wurde von einem Datenträger geöffnet; sie hat also keine eigene Adresse, und es gibt keinen Link darauf. Stattdessen eine einzige Datei weitergeben: Sie wird weiter unten hergestellt.',
  linkRefused: 'Es gibt keinen Link, solange sich der Datensatz nicht wieder lesen lässt: {why}.',
  length: '{characters} Zeichen.',
  linkTooLong:
    'Mit alledem hätte der Link {characters} Zeichen. Programme für Mail und Nachrichten können einen Link abschneiden, deshalb wird über {most} keiner gemacht. Etwas weglassen, oder eine einzige Datei weitergeben: Sie wird weiter unten hergestellt.',
  shorter: 'Kürzer:',
  withoutTicked: 'Angekreuztes weglassen',
  withoutTryOuts: 'Die Versuche weglassen',
  onlyNote: 'Nur die gewählte Note und die Grundstellung',

  code: 'QR-Code des Links, {squares} Kästchen je Seite',
  codeTooLong: 'Dieser Link ist für einen Code zu lang.',
  codeTooFine: 'Ein Code dieses Links hätte {squares} Kästchen je Seite und wäre durch einen Raum hindurch nicht zu lesen; möglich sind bis zu {most}.',
  large: 'Code groß zeigen',
  largeCode: 'Der Code des Links',
  pointCamera: 'Die Kamera eines Telefons auf den Code richten: Das Bild geht in dessen Browser auf.',
  close: 'Schließen',

  fileIs:
    'Eine einzige Datei enthält die ganze Seite mit diesem Bild. Sie geht von einem Datenträger oder aus einer Nachricht auf, ohne Netz und ohne Installation.',
  saveFile: 'Als eine Datei sichern',
  fileMaking: 'Die Datei wird hergestellt …',
  fileMade: 'Die Datei liegt bei den Downloads.',
  fileFailed: 'Die Datei ließ sich nicht herstellen: {why}.',
  fileLeavesOut:
    '{here, select, yes {Diese Seite ist selbst eine solche Datei; aus ihr lässt sich eine weitere sichern. } other {}}Das Messen aus Bildern und Filmen fehlt darin, damit sie klein bleibt. Die Datei selbst ändert sich nie. Was jemand aufbewahrt, während sie offen ist, bleibt im eigenen Browser, der es womöglich für alle Seiten von einem Datenträger gemeinsam hält; wo ein Browser für solche Seiten nichts aufbewahrt, sagt es die Seite.',
  notFetched: 'die Seite dafür ließ sich nicht von dort holen, woher diese Seite kam',
  notThere: 'dort, woher diese Seite kam, gibt es keine Seite dafür',
  picture: 'bild',
};
