/** The scan of a player who is deleted is forgotten at once: whoever deletes them does not mean to keep it. In a chunk of its own. */
import type { ArchSpec, PlayerSpec } from '../../core/specs';
import { type ScanShelf, createScanShelf } from '../../records/scanShelf';
import type { Shelf } from '../../records/shelfTypes';

const idOf = (arch: ArchSpec): string | undefined => ('single' in arch ? undefined : arch.scanned?.id);

/**
 * All that were taken in as theirs, earlier ones too. Not where somebody else needs it, such as a copy, or where nobody can tell, since a player
 * who is kept cannot be read. Never throws.
 */
export async function forgetLeftScan(
  gone: PlayerSpec, players: Pick<Shelf, 'all'>, open: () => PlayerSpec, scans: Pick<ScanShelf, 'forget' | 'list'> = createScanShelf(),
): Promise<void> {
  const listed = await scans.list();
  if (listed.kind === 'failed') return;
  const own = listed.scans.filter(({ id, of }) => of === gone.id || id === idOf(gone.arch));
  if (own.length === 0) return;
  const kept = await players.all();
  if (kept.message !== null || kept.damaged.length > 0) return;
  const needed = new Set([...kept.players.map(({ player }) => player), open()].map(({ arch }) => idOf(arch)));
  for (const id of new Set(own.map((scan) => scan.id))) if (!needed.has(id)) await scans.forget(id);
}
