import { createContext, useContext } from 'react';
import type { StandIns } from './standIns';

export const StandInsContext = createContext<StandIns | null>(null);

export function useStandIns(): StandIns {
  const standIns = useContext(StandInsContext);
  if (standIns === null) throw new Error('useStandIns: outside StandInsContext');
  return standIns;
}
