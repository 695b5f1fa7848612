/** What a file of players would change before anything is changed, and what is to be saved once the reader has chosen. Pure. */
import type { PlayerSpec } from '../core/specs';
import { numberedLabel } from './copies';
import { differenceWords } from './differences';
import { type NewId, newId } from './newId';
import { sameValue } from './sameValue';
import type { KeptPlayer, ToSave } from './shelfTypes';

/** Take over: as in the file, in the place of what is kept. Keep both: the file's beside it under another label. */
export type ImportChoice = 'take-over' | 'keep-both' | 'leave-out';

export interface PlannedPlayer {
  readonly incoming: PlayerSpec;
  readonly kind: 'new' | 'same' | 'changes';
  /** What is kept of this player; null for a new one. */
  readonly kept: KeptPlayer | null;
  /** What would change by taking it over, in words, one difference each; empty unless `kind` is 'changes'. */
  readonly differences: readonly string[];
  /** What is chosen until the reader chooses: nothing that is kept is lost by it. */
  readonly suggested: ImportChoice;
}

/** In the file's order. A file of version 1 has no ids: its player is known again where nothing differs but the ids. */
export function importPlan(existing: readonly KeptPlayer[], incoming: readonly PlayerSpec[]): PlannedPlayer[] {
  const byId = new Map(existing.map((kept) => [kept.player.id, kept]));
  return incoming.map((player): PlannedPlayer => {
    const kept = byId.get(player.id) ?? existing.find((other) => sameValue(withoutIds(other.player), withoutIds(player))) ?? null;
    const plan = { incoming: player, kept, differences: [] };
    if (kept === null) return { ...plan, kind: 'new', suggested: 'take-over' };
    if (sameValue(kept.player, player) || kept.player.id !== player.id) return { ...plan, kind: 'same', suggested: 'leave-out' };
    return { ...plan, kind: 'changes', differences: differenceWords(kept.player, player), suggested: 'keep-both' };
  });
}

/**
 * What to hand to the shelf's `importPlayers`; `choices` go by the incoming players' ids, and those without one are as suggested.
 * `labels` are those that are taken already.
 */
export function applyPlan(
  plan: readonly PlannedPlayer[],
  choices: ReadonlyMap<string, ImportChoice>,
  labels: Iterable<string>,
  idOf: NewId = newId,
): ToSave[] {
  const taken = new Set(labels);
  return plan.flatMap(({ incoming, kept, suggested }): ToSave[] => {
    const choice = choices.get(incoming.id) ?? suggested;
    if (choice === 'leave-out') return [];
    if (choice === 'take-over' || kept === null) {
      // Known again by what it holds, it keeps the id under which it is kept.
      const id = kept?.player.id ?? incoming.id;
      return [{ player: { ...incoming, id }, revision: kept?.revision ?? 0 }];
    }
    const label = numberedLabel(incoming.label, taken);
    taken.add(label);
    return [{ player: { ...incoming, id: idOf(), label }, revision: 0 }];
  });
}

function withoutIds(player: PlayerSpec): unknown {
  const { id: _player, lessons, ...rest } = player;
  return {
    ...rest,
    lessons: lessons.map(({ id: _lesson, tryOuts, ...lesson }) => ({ ...lesson, tryOuts: tryOuts.map(({ id: _tryOut, ...tryOut }) => tryOut) })),
  };
}
