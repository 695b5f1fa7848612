/** The one record that earlier versions of the page kept in localStorage, taken over as a player on first opening. */
import type { PlayerSpec } from '../core/specs';
import { sayKeeping } from '../words/keeping';
import { type NewId, newId } from './newId';
import { sameValue } from './sameValue';
import { type RecordStorage, SAVED_RECORD_KEY, browserStorage, forgetRecord } from './saved';
import { parsePlayersText } from './schema';
import type { Shelf } from './shelfTypes';

export type TakenOver =
  | { readonly kind: 'none' }
  | { readonly kind: 'taken'; readonly player: PlayerSpec; readonly revision: number }
  /** It is left where it is: it cannot be read, or cannot be kept in its new place yet. */
  | { readonly kind: 'left'; readonly message: string };

/** The same each time, so that a page which ended between keeping and forgetting does not keep it twice. */
const TAKEN_ID = 'kept-before';

/** The old place is emptied only when the player is kept in a place that lasts. */
export async function takeOverRecord(shelf: Shelf, storage: RecordStorage | null = browserStorage(), idOf: NewId = newId): Promise<TakenOver> {
  const json = readOld(storage);
  if (json === null) return { kind: 'none' };
  const parsed = parsePlayersText(json, () => TAKEN_ID);
  if (parsed.kind === 'refused') return { kind: 'left', message: sayKeeping('oldUnreadable', { why: parsed.message }) };
  const [player] = parsed.players;
  if (player === undefined) return { kind: 'none' };
  const kept = await keep(shelf, player, idOf);
  if (kept.kind === 'taken' && shelf.lasting) forgetRecord(storage);
  return kept;
}

async function keep(shelf: Shelf, player: PlayerSpec, idOf: NewId): Promise<TakenOver> {
  const saved = await shelf.save(player, 0);
  if (saved.kind === 'saved') return { kind: 'taken', player, revision: saved.revision };
  if (saved.kind === 'not-saved') return { kind: 'left', message: saved.message };
  if (saved.current !== null && sameValue(saved.current.player, player)) return { kind: 'taken', player, revision: saved.current.revision };
  // An older version of the page has kept another one since.
  const another = { ...player, id: idOf() };
  const again = await shelf.save(another, 0);
  if (again.kind === 'saved') return { kind: 'taken', player: another, revision: again.revision };
  return { kind: 'left', message: again.kind === 'not-saved' ? again.message : sayKeeping('oldNotTaken') };
}

function readOld(storage: RecordStorage | null): string | null {
  try {
    return storage?.getItem(SAVED_RECORD_KEY) ?? null;
  } catch {
    return null;
  }
}
