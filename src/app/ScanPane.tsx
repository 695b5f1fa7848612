/** The own arch from a scan, joined to the page. */
import { type ReactNode, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { noteAsShown } from '../notebook/noteNames';
import { ScanPart } from '../notebook/scan/ScanPart';
import { createScanShelf } from '../records/scanShelf';
import { useSession, useUnhurried } from './SessionContext';
import { useStandIns } from './scans/StandInsContext';
import { createScanning } from './scans/scanning';
import { useEntry } from './useEntry';

export function ScanPane(): ReactNode {
  const { store } = useSession();
  const standIns = useStandIns();
  const record = useUnhurried((state) => state.record);
  const playerId = useUnhurried((state) => state.player.id);
  const entry = useEntry();
  const [scanning] = useState(() => createScanning({ record: () => store.getState().record, change: (edit) => store.getState().change(edit) }, standIns, createScanShelf()));
  const state = useStore(scanning);
  const { known, onScan, restOn } = useStore(standIns);
  useEffect(() => void scanning.getState().refreshKept(), [scanning]);
  // A scan that is open holds a worker, and belongs to whoever was on the page: it outlives neither.
  useEffect(() => () => scanning.getState().close(), [scanning, playerId]);
  const id = 'single' in record.arch ? undefined : record.arch.scanned?.id;
  return (
    <ScanPart
      {...state}
      record={record}
      isAtHand={id !== undefined && known.has(id)}
      onScan={onScan}
      pictures={state.door}
      noteLabel={(note) => noteAsShown(note, entry)}
      onFile={(jaw, file) => void state.open(jaw, file)}
      onAway={state.away}
      onUnit={state.setUnit}
      onSides={state.setSides}
      onFamily={state.setFamily}
      onMark={state.mark}
      onSettle={(jaw) => void state.settle(jaw)}
      onRestOn={restOn}
      onAccept={(keep) => void state.accept(keep)}
      onForget={(which) => void state.forget(which)}
    />
  );
}
