/** The own arch from a scan, joined to the page. */
import { type ReactNode, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { noteAsShown } from '../notebook/noteNames';
import { ScanPart } from '../notebook/scan/ScanPart';
import { createScanShelf } from '../records/scanShelf';
import { afterRest } from './idle';
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
  const [scanning] = useState(() => createScanning({ record: () => store.getState().record, playerId: () => store.getState().player.id, change: (edit, made) => store.getState().change(edit, null, made) }, standIns, createScanShelf()));
  const state = useStore(scanning);
  const { known, onScan, restOn } = useStore(standIns);
  useEffect(() => void scanning.getState().refreshKept(), [scanning]);
  // A scan that is open holds a worker, and belongs to whoever was on the page: it outlives neither.
  useEffect(() => () => scanning.getState().close(), [scanning, playerId]);
  const { rim, lips, force, readings } = record;
  const jaw = 'single' in record.arch ? null : record.arch.jaw;
  // What scan and arch were compared by.
  useEffect(() => afterRest(() => void scanning.getState().compare()), [scanning, rim, lips, force, readings, jaw]);
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
      onStop={(jaw) => void state.stop(jaw)}
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
