import { type ReactNode, useMemo, useState } from 'react';
import { shownNote } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { instrumentById } from '../records/library';
import { Staff } from '../staff/Staff';
import type { StaffInstrument, SwingWords } from '../staff/props';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { notationOf, postureOf } from './describe';

/** An instrument on the lap stays where it is: the head moves the other way. */
const LAP_WORDS: SwingWords = {
  elevation: { heading: 'forward', positive: 'head forward', negative: 'head back' },
  lateral: { heading: 'left', positive: 'head to the left', negative: 'head to the right' },
};

/** The readings as notes: real notation that is also the time line. */
export function StaffPane({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  const analysis = useUnhurried((state) => state.analysis);
  const selected = useApp((state) => state.selected);
  const instrumentId = useApp((state) => state.record.player.instrument);
  const clef = useApp((state) => state.settings.clef);
  const instrument = useMemo((): StaffInstrument => {
    const notation = notationOf(instrumentId, clef);
    return {
      name: instrumentById(instrumentId)?.name ?? instrumentId,
      clef: notation?.clef ?? 'treble',
      transpositionSemitones: notation?.transpositionSemitones ?? 0,
    };
  }, [instrumentId, clef]);
  // The time line goes up, and where the way down was seen apart, down again.
  const inOrder = useMemo(
    () =>
      (analysis?.branches ?? []).flatMap(({ direction, order }) =>
        (direction === 'down' ? order.toReversed() : order).map((at) => ({ reading: analysis!.readings[at]!, direction }))),
    [analysis],
  );
  const notes = useUnchanged(
    useMemo(
      () =>
        inOrder.map(({ reading, direction }) => ({
          midi: reading.midi,
          direction,
          label: shownNote(reading.note, entry.shownTransposition),
          readingIndex: reading.sources[0] ?? 0,
        })),
      [inOrder, entry.shownTransposition],
    ),
  );
  const lap = useApp((state) => postureOf(state.record.player.instrument) === 'lap');
  const swing = useMemo(() => inOrder.map(({ reading }) => reading.changeFromHome), [inOrder]);
  const shown = inOrder.find(({ reading }) => reading.sources.includes(selected))?.reading;
  const shownSource = shown?.sources[0] ?? null;
  return useMemo(
    () => (
      <div className="staff-pane">
        <Staff
          notes={notes}
          instrument={instrument}
          live={session.playhead}
          selected={shownSource}
          showSwing={swing}
          swingWords={lap ? LAP_WORDS : undefined}
          onSelect={session.selectReading}
          onScrub={session.scrub}
          onScrubEnd={NOTHING_TO_DO}
        />
      </div>
    ),
    [notes, instrument, session, shownSource, swing, lap],
  );
}

/** The same array as long as it says the same: notation is engraved anew only when a note changed, not at each travel. */
function useUnchanged<T>(value: T): T {
  const [kept, setKept] = useState(value);
  const same = JSON.stringify(kept) === JSON.stringify(value);
  if (!same) setKept(value);
  return same ? kept : value;
}

/** The rim stays where the time line was let go. */
const NOTHING_TO_DO = (): void => undefined;
