import type { STAFF as ENGLISH } from '../en/staff';
import type { Translation } from '../messageFormat';

export const STAFF: Translation<typeof ENGLISH> = {
  timeLine: 'Noten der Bahn, {instrument}',
  ascending: 'aufwärts',
  descending: 'abwärts',
  heard: '{differs, select, yes {, notiert {written}} other {}}{direction, select, up {, aufwärts} down {, abwärts} other {}}',
  heardSwing: ', vorhergesagter Schwenk {up}, {right}',
  headingUp: 'auf',
  headingRight: 'rechts',
  up: 'aufwärts',
  down: 'abwärts',
  right: 'rechts',
  left: 'links',
  noNotes: 'Noch keine Noten',
  notLoaded: 'Das Notenbild ließ sich nicht laden; die Noten stehen mit ihren Namen da.',
  notWritable: 'Diese Noten lassen sich nicht notieren; sie stehen mit ihren Namen da.',
  leftOut: '{count, plural, one {Eine weitere Note steht} other {{count} weitere Noten stehen}} nicht auf diesem Blatt: Es hat Platz für {room}.',
  writtenAs: '{note} (notiert {written})',
  swingOf: '{note} {elevation} {up}, {lateral} {right}',
  described: 'Noten und vorhergesagter Schwenk gegenüber der Grundstellung, {instrument}: {notes}',
};
