import { useMemo } from 'react';
import type { EntryStyle } from '../notebook/props';
import { useApp } from './SessionContext';
import { shownTransposition } from './describe';

/** How numbers and notes are typed and shown on this page. */
export function useEntry(): EntryStyle {
  const sideways = useApp((state) => state.settings.sideways);
  const unit = useApp((state) => state.settings.unit);
  const noteNames = useApp((state) => state.settings.noteNames);
  const naming = useApp((state) => state.settings.naming);
  const transposition = useApp(shownTransposition);
  return useMemo(
    () => ({ sideways, unit, noteNames, naming, shownTransposition: transposition }),
    [sideways, unit, noteNames, naming, transposition],
  );
}
