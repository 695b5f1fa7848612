/** Names of the ready-made instruments, rims and arches, and the words of the invented players: as in the files under models/, by their ids. */
export const MODELS = {
  'instrument-trumpet': 'Trumpet in B flat',
  'instrument-french-horn': 'French horn in F',
  'instrument-tenor-trombone': 'Tenor trombone',
  'instrument-bass-trombone': 'Bass trombone',
  'instrument-euphonium': 'Euphonium',
  'instrument-tuba': 'Tuba in B flat (contrabass)',

  'rim-trumpet': 'Trumpet',
  'rim-horn': 'French horn',
  'rim-tenor-trombone': 'Tenor trombone',
  'rim-bass-trombone': 'Bass trombone',
  'rim-euphonium': 'Euphonium',
  'rim-tuba': 'Tuba',

  'arch-average': 'Average',
  'arch-narrow': 'Narrow',
  'arch-broad': 'Broad',
  'arch-receded-lower-jaw': 'Lower jaw set back',

  'player-pushes-up': 'Invented player who pushes up to ascend',
  'label-pushes-up': 'Invented player, pushes up',
  'player-pulls-down': 'Invented player who pulls down to ascend',
  'label-pulls-down': 'Invented player, pulls down',
  'player-turns-back': 'Invented player who turns back at the top',
  'label-turns-back': 'Invented player, turns back at the top',
  'remark-pushes-up-lesson-1': 'First time watched, with a ruler beside the rim.',
  'remark-pushes-up-try-out-1': 'Bell left free to come round; felt strange, spoke well.',
  'remark-pushes-up-try-out-2': 'Held as at home, to feel the difference.',
} as const;
