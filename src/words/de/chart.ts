import type { CHART as ENGLISH } from '../en/chart';
import type { Translation } from '../messageFormat';

export const CHART: Translation<typeof ENGLISH> = {
  noNotes: 'Noch keine Noten zu zeichnen.',
  home: 'Grund-\nstellung',
  degFromHome: '° ab Grundstellung',
  mmFromHome: 'mm ab Grundstellung',
  note: 'Note',

  'held-elevation': 'Schalltrichter nach oben',
  'held-lateral': 'Schalltrichter nach rechts',
  'lap-elevation': 'Kopf nach vorn',
  'lap-lateral': 'Kopf nach links',

  point: '{note}{direction, select, up {, aufwärts} down {, abwärts} other {}}',
  sidedUp: '{size}{way, select, plus { nach oben} minus { nach unten} other {}}',
  sidedRight: '{size}{way, select, plus { nach rechts} minus { nach links} other {}}',
  both: '{up}, {right}',
  pointTravel: '{point}: {travel}',
  pointAngles: '{point}: vorhergesagt {predicted}{seen, select, yes {; gemessen {measured}} other {}}.',

  angleSlider: 'Note im Winkeldiagramm',
  noneChosen: 'keine Note gewählt',
  choose: 'Eine Note wählen, um ihre Winkel abzulesen.',
  angleSummary:
    'Vorhergesagte Änderung des Instrumentenwinkels gegenüber der Grundstellung, über der Tonhöhe. {elevation}: {upFirst}° bei {first} bis {upLast}° bei {last}. {lateral}: {rightFirst}° bei {first} bis {rightLast}° bei {last}.',
  predictedKey: '{ways, select, two {aufwärts, } other {}}vorhergesagt{band, select, yes {, 95-%-Bereich} other {}}',
  ascending: 'aufwärts',
  descending: 'abwärts',
  heldKey: 'festgehalten',
  measuredKey: 'gemessen, 95-%-Bereich',
  angleCaption: 'Änderung des Instrumentenwinkels gegenüber der Grundstellung, Grad',
  predictedHead: '{angle}, vorhergesagt',
  measuredHead: '{angle}, gemessen',
  notMeasured: 'nicht gemessen',

  travelUp: 'Weg nach oben',
  travelRight: 'Weg nach rechts',
  travelHandle: '{travel} bei {point}',
  travelSummary: 'Weg des Rands von der Grundstellung aus, über der Tonhöhe. {points}.',
  dragUp: 'Ein Quadrat nach oben oder unten ziehen, oder mit den Pfeiltasten: 0,1\u00a0mm, mit der Umschalttaste 1\u00a0mm.',
  drag: 'Ein Quadrat ziehen, oder mit den Pfeiltasten: 0,1\u00a0mm, mit der Umschalttaste 1\u00a0mm.',
  playersLeft: 'links vom Spieler',
  playersRight: 'rechts vom Spieler',
  pathTitle: 'Bahn {seen, select, mirror {wie im Spiegel} other {von vorn gesehen}}',
  pathSummary: 'Bahn des Rands {seen, select, mirror {wie im Spiegel} other {von vorn gesehen}}. {points}.',
  movablePoint: 'beweglicher Punkt',
};
