/** What is understood in cells of words, whichever language is set: a table may come from anywhere. In plainWords' form. */

export const DIRECTION = {
  up: ['ascending', 'up', 'asc', 'rising', 'upward', 'upwards', 'on the way up', 'aufwärts', 'auf', 'steigend'],
  down: ['descending', 'down', 'desc', 'falling', 'downward', 'downwards', 'on the way down', 'abwärts', 'ab', 'fallend'],
};
export const AIRSTREAM = {
  down: ['down', 'downstream', 'downward', 'downwards', 'abwärts', 'nach unten'],
  up: ['up', 'upstream', 'upward', 'upwards', 'aufwärts', 'nach oben'],
  unsure: ['not sure', 'unsure', 'unclear', 'unsicher', 'unklar'],
};
export const METHOD = {
  eye: ['by eye', 'eye', 'nach augenmaß', 'augenmaß'],
  ruler: ['ruler', 'with a ruler', 'by ruler', 'lineal', 'mit lineal'],
  video: ['video', 'from video', 'by video', 'aus dem video'],
  picture: ['picture', 'from a picture', 'from pictures', 'by picture', 'photo', 'photograph', 'bild', 'aus einem bild', 'aus bildern', 'foto'],
};
