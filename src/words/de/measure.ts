import type { MEASURE as ENGLISH } from '../en/measure';
import type { Translation } from '../messageFormat';

export const MEASURE: Translation<typeof ENGLISH> = {
  namedFile: '„{name}“',
  theFile: 'Die Datei',
  minutes: '{count} Minuten',
  hours: '{hours} h {minutes} min',

  filmEmpty: 'Die Datei ist leer (0 Bytes). Den Film noch einmal vom Telefon kopieren.',
  stillNotFetched: 'Was Bilder öffnet, war nicht zu holen. Die Seite neu laden, wo es ein Netz gibt.',
  unreadable: 'Die Datei lässt sich nicht mehr lesen: Sie wurde verschoben, umbenannt oder verändert. Sie noch einmal wählen.',
  filmText: '{file} enthält Text, keinen Film. Den Film selbst wählen: MP4, MOV oder WebM.',
  pictureAsFilm: '{file} ist ein Bild, kein Film. Dort ablegen, wo Bilder gemessen werden, oder einen Film wählen.',
  filmOtherKind: '{file} ist kein Film, der sich hier öffnen lässt. Das geht mit MP4, MOV und WebM: als eines davon sichern oder umwandeln.',
  soundOnly: '{file} enthält Ton und kein Bild. Den Film des Durchgangs wählen, keine Tonaufnahme.',
  noFrames: 'Der Film enthält keine Bilder. Falls das Telefon noch am Sichern war, ihn danach noch einmal kopieren.',
  filmCutShort:
    'Das Ende der Datei fehlt, und damit, was zum Lesen des Films nötig ist. Ihn noch einmal vom Telefon kopieren und das Kopieren zu Ende laufen lassen.',
  filmDamaged: 'Der Film ist beschädigt und lässt sich nicht lesen. Ihn noch einmal vom Telefon kopieren; hilft das nicht, den Durchgang noch einmal filmen.',
  filmCodec:
    'Der Film ist als {codec} gespeichert, was dieser Browser nicht zeigen kann. Die Kamera des Telefons auf H.264 stellen (oft „maximale Kompatibilität“ genannt) und noch einmal filmen, oder den Film in MP4 mit H.264 umwandeln.',
  filmTooLarge:
    'Der Film hat {width} × {height} px; lesen lassen sich höchstens {most} Millionen px je Bild (4K). 1280 × 720 oder 1920 × 1080 genügen: die Kamera darauf stellen oder den Film umwandeln.',
  filmTooLong: 'Der Film dauert {duration}; lesen lassen sich höchstens {most}. Auf den Durchgang kürzen, der gemessen werden soll.',
  tooManyFrames:
    'Der Film hat {count} Bilder; lesen lassen sich höchstens {most}. Auf den Durchgang kürzen, der gemessen werden soll, oder mit weniger Bildern je Sekunde filmen: 30 oder 60 genügen.',
  oldBrowser: 'Dieser Browser kann Filme nicht Bild für Bild lesen. Einen neueren nehmen; Bilder lassen sich auch in diesem messen.',

  onlyTheFirst: 'Nur die ersten {seconds} s des Films lassen sich lesen: Der Rest fehlt oder ist beschädigt. Wird er gebraucht, den Film noch einmal kopieren.',
  noSound: 'Der Film hat keinen Ton: die Noten mittippen, während der Film läuft.',
  soundCodec: 'Der Ton des Films ist als {codec} gespeichert, was dieser Browser nicht lesen kann: die Noten mittippen, während der Film läuft.',
  ownCodec: '„{codec}“',
  unknownCodec: 'ein hier unbekanntes Format',
  damagedPast: 'Hinter {seconds} s lässt sich der Film nicht lesen: Dort ist er beschädigt. Ihn noch einmal vom Telefon kopieren oder vor dieser Stelle abschneiden.',
  changedSize:
    'Ab {seconds} s haben die Bilder des Films eine andere Größe ({width} × {height} px statt {filmWidth} × {filmHeight}): Marken lassen sich nicht von den einen zu den anderen verfolgen. Den Film dort trennen und einen der Teile messen.',
  unfitRate:
    'Der Ton des Films hat {rate} Werte je Sekunde; Noten hören lassen sich bei {lowest} bis {highest}. Die Noten von Hand tippen oder den Ton des Films in 48.000 umwandeln.',
  noShowing: 'dieser Browser gibt keine Zeichenfläche her, um Bilder des Films zu zeigen',
  noReading: 'dieser Browser gibt keine Zeichenfläche her, um Bilder des Films zu lesen',

  stillEmpty: 'Die Datei ist leer (0 Bytes). Das Bild noch einmal von der Kamera kopieren.',
  stillText: '{file} enthält Text, kein Bild. Das Bild selbst wählen: JPEG, PNG oder WebP.',
  filmAsPicture: '{file} ist ein Film, kein Bild. Dort ablegen, wo Filme gemessen werden, oder ein Bild wählen.',
  stillOtherKind: '{file} ist kein Bild, das sich hier öffnen lässt. Das geht mit JPEG, PNG und WebP: als eines davon sichern oder umwandeln.',
  stillCutShort: 'Das Ende des Bilds fehlt. Es noch einmal von der Kamera kopieren und das Kopieren zu Ende laufen lassen.',
  stillDamaged: 'Das Bild ist beschädigt und lässt sich nicht lesen. Es noch einmal von der Kamera kopieren.',
  stillCodec:
    'Das Bild ist als {codec} gespeichert, was dieser Browser nicht zeigen kann. Die Kamera auf JPEG stellen (oft „maximale Kompatibilität“ genannt) oder das Bild in JPEG umwandeln.',
  stillTooLarge: 'Das Bild hat {width} × {height} px; lesen lassen sich höchstens {most} Millionen px. Es kleiner machen: 12 Millionen genügen.',
};
