import type { SHARING as ENGLISH } from '../en/sharing';
import type { Translation } from '../messageFormat';

export const SHARING: Translation<typeof ENGLISH> = {
  linkRefused: '{what} Noch einmal darum bitten, oder um eine einzige Datei. Am Eigenen hat sich nichts geändert.',
  notOurs: 'Was hinter dem # dieser Adresse steht, ist kein Bild dieses Programms.',
  newerLink: 'Dieser Link stammt aus einer neueren Fassung dieses Programms als der geöffneten Seite: die Seite neu laden, dann den Link noch einmal öffnen.',
  linkTooLong: 'Dieser Link hat {count} Zeichen, und bis zu {most} werden gelesen.',
  notWhole: 'Dieser Link ist nicht ganz: Er wurde unterwegs abgeschnitten oder verändert.',
  noPicture: 'In diesem Link steht kein Bild, das sich lesen lässt.',
  pictureUnreadable: 'Das Bild in diesem Link lässt sich nicht lesen ({why}).',

  pictureTooLong: 'Bild: {count} Zeichen; erlaubt: bis zu {most}',
  pictureNotJson: 'Bild: kein JSON ({detail}); erlaubt: ein JSON-Objekt',
  notAnObject: 'Bild: {value}; erlaubt: ein Objekt',
  manyLessons: 'Datensatz: mehr als eine Stunde; erlaubt: ein Spieler mit einer Stunde',

  measuredDay: 'Mit dem Gemessenen geht der Tag der Messung mit; die Namen der Dateien nur mit der Bezeichnung.',
};
