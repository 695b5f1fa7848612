import type { BESIDE as ENGLISH } from '../en/beside';
import type { Translation } from '../messageFormat';

export const BESIDE: Translation<typeof ENGLISH> = {
  beside: 'daneben',
  nobody: 'niemand',
  notFound: 'Dieser Spieler ist hier nicht mehr aufbewahrt oder lässt sich nicht lesen.',
  notComputed: '{name} lässt sich nicht zeigen: Der Datensatz lässt sich nicht berechnen.',
  hasNoNote: 'Hat {note} nicht: steht still.',
  otherHasNoNote: '{name} hat {note} nicht und steht still.',
  nothingShared: 'Die beiden haben keine gemeinsame Note, also gibt es nichts zu vergleichen.',

  rimStays: 'bleibt der Rand, wo er ist',
  rimGoes: 'wandert der Rand {parts}',
  travelUp: '{mm}\u00a0mm nach {way, select, plus {oben} other {unten}}',
  travelSide: '{mm}\u00a0mm nach {way, select, plus {rechts} other {links}}',
  fromTo: '{named, select, yes {Von {from}} other {Von der Grundstellung}} bis {to} {rim}; {swing}.',
  differ:
    'Zwischen den beiden: {upMm}\u00a0mm Weg auf und ab und {rightMm}\u00a0mm zur Seite, {elevation}° Schwenk auf und ab und {lateral}° zur Seite.',
};
