import type { APP as ENGLISH } from '../en/app';
import type { Translation } from '../messageFormat';

export const APP: Translation<typeof ENGLISH> = {
  language: 'Sprache',
  measureChapter: 'Aus Bildern und Film',
  ownArch: 'Eigener Zahnbogen: mit dem Lineal oder aus einem Bissabdruck',
  scan: 'Eigener Zahnbogen: aus einem Scan',
  coming: 'Kommt …',

  notShown: 'Nicht gezeigt',
  close: 'Schließen',

  withoutNetwork: 'Ohne Netz',
  putBy: 'Diese Seite liegt in diesem Browser bereit: Sie lässt sich hier ohne Netz öffnen und benutzen.',
  notPutBy: 'Diese Seite liegt in diesem Browser nicht bereit: Ohne Netz lässt sie sich nicht öffnen. Wo Browser Seiten bereitlegen können, geschieht das kurz nach dem ersten Besuch.',
  needsNoNetwork: 'Diese Seite wurde von einem Datenträger geöffnet und braucht kein Netz.',
  install: 'Als App installieren …',
  installWhat: 'Installiert hat sie ein eigenes Symbol und ein eigenes Fenster. Es ist dieselbe Seite mit denselben Spielern.',

  partMissing: 'Dieser Teil lässt sich nicht zeigen: Er war nicht zu holen, oder er ist abgebrochen. Das Eingegebene bleibt erhalten; die Seite neu laden, wenn es passt.',
  readerMissing: 'Was Links liest, war nicht zu holen. Die Seite neu laden, wo es Netz gibt. Am Eigenen hat sich nichts geändert.',
};
