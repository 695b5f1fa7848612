/** The own arch by ruler, caliper or bite print, joined to the page. */
import { type ReactNode, useEffect, useState } from 'react';
import { noteAsShown } from '../notebook/noteNames';
import { OwnArchPart } from '../notebook/ownArch/OwnArchPart';
import { createPrintDoors } from './printDoors';
import { useSession, useUnhurried } from './SessionContext';
import { notebookLibrary } from './library';
import { useBudget } from './useBudget';
import { useEntry } from './useEntry';

/** `isShown`: it is open; where it is not, nothing is worked out, but its marks stay. */
export function OwnArchPane({ isShown }: { readonly isShown: boolean }): ReactNode {
  const { store } = useSession();
  const record = useUnhurried((state) => state.record);
  const playerId = useUnhurried((state) => state.player.id);
  const selected = useUnhurried((state) => state.selected);
  const entry = useEntry();
  const shown = useBudget(isShown ? record : null);
  const { change, settle, announce } = store.getState();
  const [doors] = useState(() => createPrintDoors(announce));
  useEffect(() => () => doors.close(), [doors]);
  return (
    // A print that is being marked is of one mouth: with another player it is put away.
    <OwnArchPart
      key={playerId}
      record={record}
      selected={selected}
      arches={notebookLibrary.arches}
      shown={shown}
      doors={doors}
      noteLabel={(note) => noteAsShown(note, entry)}
      onChange={change}
      onSettle={settle}
    />
  );
}
