import { type ReactNode, useMemo, useState } from 'react';
import { shownNote } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { instrumentById } from '../records/library';
import { Staff } from '../staff/Staff';
import type { StaffInstrument } from '../staff/props';
import { useApp, useSession } from './SessionContext';

/** The readings as notes: real notation that is also the time line. */
export function StaffPane({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  const analysis = useApp((state) => state.analysis);
  const selected = useApp((state) => state.selected);
  const instrumentId = useApp((state) => state.record.player.instrument);
  const instrument = useMemo((): StaffInstrument => {
    const known = instrumentById(instrumentId);
    return {
      name: known?.name ?? instrumentId,
      clef: known?.notations[0]?.clef ?? 'treble',
      transpositionSemitones: known?.notations[0]?.transpositionSemitones ?? 0,
    };
  }, [instrumentId]);
  const inOrder = useMemo(
    () =>
      (analysis?.branches ?? []).flatMap((branch) =>
        branch.order.flatMap((at) => {
          const reading = analysis?.readings[at];
          return reading === undefined ? [] : [reading];
        })),
    [analysis],
  );
  const notes = useUnchanged(
    useMemo(
      () =>
        inOrder.map((reading) => ({
          midi: reading.midi,
          label: shownNote(reading.note, entry.shownTransposition),
          readingIndex: reading.sources[0] ?? 0,
        })),
      [inOrder, entry.shownTransposition],
    ),
  );
  const swing = useMemo(() => inOrder.map((reading) => reading.changeFromHome), [inOrder]);
  const shown = inOrder.find((reading) => reading.sources.includes(selected));
  return (
    <div className="staff-pane">
      <Staff
        notes={notes}
        instrument={instrument}
        live={session.playhead}
        selected={shown?.sources[0] ?? null}
        showSwing={swing}
        onSelect={session.selectReading}
        onScrub={session.scrub}
        onScrubEnd={NOTHING_TO_DO}
      />
    </div>
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
