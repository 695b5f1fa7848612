import type { STAGE as ENGLISH } from '../en/stage';
import type { Translation } from '../messageFormat';

export const STAGE: Translation<typeof ENGLISH> = {
  stage: 'Zähne, Lippen und Rand räumlich',
  turn: 'Bild: mit den Pfeiltasten drehen, mit Plus und Minus näher heran und weiter weg',
  handle: 'Rand: mit den Pfeiltasten bewegen, 0,1 mm je Schritt, mit der Umschalttaste 1 mm',
  handleValue:
    '{up} mm nach {vertical, select, down {unten} other {oben}}, {right} mm zur {sideways, select, left {Linken} other {Rechten}} des Spielers',
  hornAngle: '{up}° {vertical, select, down {abwärts} other {aufwärts}} · {right}° {sideways, select, left {links} other {rechts}}',
  widestAngle: '−00,0° aufwärts · 00,0° rechts',
  held: 'festgehalten',
  measured: 'gemessen',
  pressure: 'Druck rund um den Rand',
  upperLip: 'Oberlippe',
  lowerLip: 'Unterlippe',
  flatSide: 'Schnitt von der Seite: Zähne, Zahnfleisch, Lippen, Rand und die Achse des Instruments',
  flatAbove: 'Schnitt von oben: obere Zähne, Zahnfleisch, Lippe, Rand und die Achse des Instruments',
  flatFront: 'Von vorn: Zähne, Zahnfleisch, Rand und die Bahn seiner Mitte',
  noPicture: 'Ohne WebGL 2 im Browser ist die Zeichnung flach.',
  contextLost: 'Die Grafik ist stehen geblieben; an ihrer Stelle steht die flache Zeichnung.',
  flatForNow: 'Eine flache Zeichnung, bis das räumliche Bild bereit ist.',
};
