import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { fitsFile } from '../../records/scansInFile';
import { useStandIns } from './StandInsContext';

/** How large the scan of this id is that is kept in this browser, bytes; null where none is, or it is too large for a file. */
export function useScanBytes(id: string | null): number | null {
  const standIns = useStandIns();
  // Kept or forgotten, it changes what is at hand as well.
  const known = useStore(standIns, (state) => state.known);
  const [found, setFound] = useState<{ readonly id: string; readonly bytes: number } | null>(null);
  useEffect(() => {
    if (id === null) return;
    let isLeft = false;
    const look = async (): Promise<void> => {
      const { createScanShelf } = await import('../../records/scanShelf');
      const listed = await createScanShelf().list();
      const own = listed.kind === 'failed' ? [] : listed.scans.filter((scan) => scan.id === id);
      if (!isLeft) setFound({ id, bytes: own.reduce((sum, { bytes }) => sum + bytes, 0) });
    };
    look().catch(() => undefined);
    return () => {
      isLeft = true;
    };
  }, [id, known]);
  return found !== null && found.id === id && found.bytes > 0 && fitsFile(found.bytes) ? found.bytes : null;
}
