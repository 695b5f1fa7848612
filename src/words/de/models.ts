import type { MODELS as ENGLISH } from '../en/models';
import type { Translation } from '../messageFormat';

export const MODELS: Translation<typeof ENGLISH> = {
  'instrument-trumpet': 'Trompete in B',
  'instrument-french-horn': 'Waldhorn in F',
  'instrument-tenor-trombone': 'Tenorposaune',
  'instrument-bass-trombone': 'Bassposaune',
  'instrument-euphonium': 'Euphonium',
  'instrument-tuba': 'Tuba in B (Kontrabass)',

  'rim-trumpet': 'Trompete',
  'rim-horn': 'Waldhorn',
  'rim-tenor-trombone': 'Tenorposaune',
  'rim-bass-trombone': 'Bassposaune',
  'rim-euphonium': 'Euphonium',
  'rim-tuba': 'Tuba',

  'arch-average': 'Durchschnitt',
  'arch-narrow': 'Schmal',
  'arch-broad': 'Breit',
  'arch-receded-lower-jaw': 'Unterkiefer zurückliegend',

  'player-pushes-up': 'Erfundener Spieler, der zur Höhe hin aufwärts schiebt',
  'label-pushes-up': 'Erfundener Spieler, schiebt aufwärts',
  'player-pulls-down': 'Erfundener Spieler, der zur Höhe hin abwärts zieht',
  'label-pulls-down': 'Erfundener Spieler, zieht abwärts',
  'player-turns-back': 'Erfundener Spieler, der in der Höhe umkehrt',
  'label-turns-back': 'Erfundener Spieler, kehrt in der Höhe um',
  'remark-pushes-up-lesson-1': 'Zum ersten Mal beobachtet, mit einem Lineal neben dem Rand.',
  'remark-pushes-up-try-out-1': 'Schalltrichter durfte frei mitgehen; fühlte sich fremd an, sprach gut an.',
  'remark-pushes-up-try-out-2': 'Festgehalten wie in der Grundstellung, um den Unterschied zu spüren.',
};
