import { type ReactNode, useEffect, useMemo, useState } from 'react';
import type { EntryStyle } from '../notebook/props';
import { Staff } from '../staff/Staff';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { postureOf } from './describe';
import { lapSwingWords, readingsInOrder, staffInstrument, staffNotes } from './staffNotes';

/** The readings as notes: real notation that is also the time line. */
export function StaffPane({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  // Gone from under the hand, it is not told that the hand was lifted.
  useEffect(() => session.endScrub, [session]);
  const analysis = useUnhurried((state) => state.analysis);
  const selected = useApp((state) => state.selected);
  const instrumentId = useApp((state) => state.record.player.instrument);
  const clef = useApp((state) => state.settings.clef);
  const instrument = useMemo(() => staffInstrument(instrumentId, clef), [instrumentId, clef]);
  const inOrder = useMemo(() => readingsInOrder(analysis), [analysis]);
  const notes = useUnchanged(useMemo(() => staffNotes(inOrder, instrument, entry), [inOrder, instrument, entry]));
  const lap = useApp((state) => postureOf(state.record.player.instrument) === 'lap');
  const swingWords = useMemo(() => (lap ? lapSwingWords() : undefined), [lap]);
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
          swingWords={swingWords}
          onSelect={session.selectReading}
          onScrub={session.scrub}
          onScrubEnd={session.endScrub}
        />
      </div>
    ),
    [notes, instrument, session, shownSource, swing, swingWords],
  );
}

/** The same array as long as it says the same: notation is engraved anew only when a note changed, not at each travel. */
function useUnchanged<T>(value: T): T {
  const [kept, setKept] = useState(value);
  const same = JSON.stringify(kept) === JSON.stringify(value);
  if (!same) setKept(value);
  return same ? kept : value;
}
