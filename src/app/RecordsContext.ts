import { createContext, useContext, useSyncExternalStore } from 'react';
import type { KeptState, Records } from './records';

export const RecordsContext = createContext<Records | null>(null);

/** The kept players and what can be done with them. */
export function useRecords(): Records {
  const records = useContext(RecordsContext);
  if (records === null) throw new Error('useRecords: outside RecordsContext');
  return records;
}

/** What is kept, as it stands now. */
export function useKept(): KeptState {
  const records = useRecords();
  return useSyncExternalStore(records.subscribe, records.current);
}
