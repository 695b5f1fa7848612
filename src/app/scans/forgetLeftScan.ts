/** The scan of a player who is deleted is forgotten at once: whoever deletes them does not mean to keep it. In a chunk of its own. */
import type { ArchSpec, PlayerSpec } from '../../core/specs';
import { type ScanShelf, createScanShelf } from '../../records/scanShelf';
import type { Shelf } from '../../records/shelfTypes';

const idOf = (arch: ArchSpec): string | undefined => ('single' in arch ? undefined : arch.scanned?.id);

/** Not where somebody else needs it, such as a copy, or where nobody can tell, since a player who is kept cannot be read. Never throws. */
export async function forgetLeftScan(
  gone: ArchSpec, players: Pick<Shelf, 'all'>, open: () => PlayerSpec, scans: Pick<ScanShelf, 'forget'> = createScanShelf(),
): Promise<void> {
  const id = idOf(gone);
  if (id === undefined) return;
  const kept = await players.all();
  if (kept.message !== null || kept.damaged.length > 0) return;
  if ([...kept.players.map(({ player }) => player), open()].some(({ arch }) => idOf(arch) === id)) return;
  await scans.forget(id);
}
