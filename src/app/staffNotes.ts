/** The readings as the staff shows them, on the page and on paper: in which order, under which names, for which instrument. */
import type { Analysis, ReadingAnalysis } from '../core/analysis';
import type { PlayingDirection } from '../core/specs';
import { noteAsShown, shownNote } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { instrumentName } from '../records/modelWords';
import type { StaffInstrument, StaffNote, SwingWords } from '../staff/props';
import { notationOf } from './describe';
import type { Settings } from './settings';
import { sayPage } from '../words/page';

/** An instrument on the lap stays where it is: the head moves the other way. */
export const lapSwingWords = (): SwingWords => ({
  elevation: { heading: sayPage('headingForward'), positive: sayPage('headForward'), negative: sayPage('headBack') },
  lateral: { heading: sayPage('headingLeft'), positive: sayPage('headLeft'), negative: sayPage('headRight') },
});

export interface OrderedReading {
  readonly reading: ReadingAnalysis;
  readonly direction: PlayingDirection | null;
}

/** The time line goes up, and where the way down was seen apart, down again. */
export function readingsInOrder(analysis: Analysis | null): readonly OrderedReading[] {
  return (analysis?.branches ?? []).flatMap(({ direction, order }) =>
    (direction === 'down' ? order.toReversed() : order).map((at) => ({ reading: analysis!.readings[at]!, direction })));
}

/** Scientific names carry the staff's own spelling; other namings are shown beside it. */
export function staffNotes(inOrder: readonly OrderedReading[], instrument: StaffInstrument, entry: EntryStyle): readonly StaffNote[] {
  return inOrder.map(({ reading, direction }) => ({
    midi: reading.midi,
    direction,
    label: noteAsShown(reading.note, entry),
    ...(entry.naming === undefined || entry.naming === 'scientific'
      ? {}
      : {
          spelling: shownNote(reading.note, entry.shownTransposition),
          writtenLabel: shownNote(reading.note, instrument.transpositionSemitones, entry.naming),
        }),
    readingIndex: reading.sources[0] ?? 0,
  }));
}

export function staffInstrument(instrumentId: string, clef: Settings['clef']): StaffInstrument {
  const notation = notationOf(instrumentId, clef);
  return {
    name: instrumentName(instrumentId),
    clef: notation?.clef ?? 'treble',
    transpositionSemitones: notation?.transpositionSemitones ?? 0,
  };
}
