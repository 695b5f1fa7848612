import type { WORKERS as ENGLISH } from '../en/workers';
import type { Translation } from '../messageFormat';

export const WORKERS: Translation<typeof ENGLISH> = {
  none: 'dieser Browser lässt neben der Seite keine Arbeit laufen',
  calledOff: 'es wurde abgebrochen',
  noFilmWorker: 'Dieser Browser lässt neben der Seite keine Arbeit laufen und kann deshalb keine Filme lesen. Bilder lassen sich trotzdem messen.',
  filmWorkerDied:
    'Das Lesen des Films brach ab: Der Browser hat es beendet, vielleicht aus Mangel an Speicher. Den Film noch einmal öffnen; ein kürzerer oder kleinerer braucht weniger.',
  noSolidWorker: 'Dieser Browser lässt neben der Seite keine Arbeit laufen; deshalb lässt sich nichts zum Drucken herstellen.',
  solidWorkerDied: 'Das Herstellen brach ab: Der Browser hat die Arbeit beendet, vielleicht aus Mangel an Speicher.',
};
