/** A scan kept in this browser made ready again, in a worker; in a chunk of its own, fetched for a player who has one. */
import type { PlayerRecord } from '../../core/specs';
import { type ScannedJawName, type ScanShelf, createScanShelf } from '../../records/scanShelf';
import type { GapField } from '../../scans/gapField';
import { fieldOf } from '../../scans/jawParts';
import { rimReach } from '../../scans/rimReach';
import { type ScanDoor, openScanDoor } from '../../workers/scanDoor';
import { madeStandIn } from './madeStandIn';
import type { StandIn } from './standIns';

/** Null where none of its jaws is kept here, or can be read. */
export async function reopenScan(record: PlayerRecord, id: string, shelf: Pick<ScanShelf, 'get'> = createScanShelf(), openDoor: () => ScanDoor = openScanDoor): Promise<StandIn | null> {
  // One after the other: two workers at once would hold the page up on a small machine.
  const upper = await fieldOfKept('upper');
  const lower = await fieldOfKept('lower');
  return upper === null && lower === null ? null : madeStandIn({ ...(upper === null ? {} : { upper }), ...(lower === null ? {} : { lower }) });

  async function fieldOfKept(jaw: ScannedJawName): Promise<GapField | null> {
    const kept = await shelf.get(id, jaw);
    if (kept.kind !== 'scan') return null;
    const door = openDoor();
    const parts = await door.reopen(kept.packed, rimReach(record, jaw));
    door.end();
    return parts === null ? null : fieldOf(parts);
  }
}
