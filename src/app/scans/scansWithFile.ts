/** A player's scan put into a file, and taken out of one. The shelf is fetched only where there is a scan. */
import type { PlayerSpec } from '../../core/specs';
import type { ScanShelf, ScannedJawName } from '../../records/scanShelf';
import { type ScanInFile, scanFromText, scanToText, scannedId } from '../../records/scansInFile';

const JAWS: readonly ScannedJawName[] = ['upper', 'lower'];

/** Those jaws that are kept here. */
export async function scansOf({ arch }: PlayerSpec, shelf?: Pick<ScanShelf, 'get'>): Promise<readonly ScanInFile[]> {
  const id = scannedId(arch);
  if (id === null) return [];
  const from = shelf ?? (await pageShelf());
  const got = await Promise.all(JAWS.map((jaw) => from.get(id, jaw)));
  return got.flatMap((one) => (one.kind === 'scan' ? [{ id, jaw: one.jaw, packed: scanToText(one.packed) }] : []));
}

/**
 * Onto the shelf, where one of these players has them and it is not there: an `id` means one scan, and no file is to put another in its place. What
 * cannot be read or kept is left: the fitted arch is in the record.
 */
export async function putScans(scans: readonly ScanInFile[], players: readonly PlayerSpec[], shelf?: Pick<ScanShelf, 'get' | 'put'>): Promise<void> {
  const wanted = new Map(players.map((player) => [scannedId(player.arch), player.id]));
  const own = scans.filter(({ id }) => wanted.has(id));
  if (own.length === 0) return;
  const to = shelf ?? (await pageShelf());
  for (const { id, jaw, packed } of own) {
    const bytes = scanFromText(packed);
    if (bytes !== null && (await to.get(id, jaw)).kind !== 'scan') await to.put({ id, jaw, of: wanted.get(id) }, bytes);
  }
}

const pageShelf = async (): Promise<ScanShelf> => (await import('../../records/scanShelf')).createScanShelf();
