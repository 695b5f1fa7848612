/** Notes found beside notes played: which belong together, and how far they are apart. */
import type { NoteHeard } from '../../src/measure/traces';
import type { PlayedNote } from './brassTones';

export interface Matched {
  readonly played: PlayedNote;
  readonly heard: NoteHeard;
}

/** Each played note with the found one that overlaps it most; a found note stands beside one played note only. */
export function matched(played: readonly PlayedNote[], found: readonly NoteHeard[]): { readonly pairs: readonly Matched[]; readonly missing: number; readonly extra: number } {
  const used = new Set<NoteHeard>();
  const pairs = played.flatMap((note): Matched[] => {
    const overlap = (heard: NoteHeard): number => Math.min(heard.endS, note.endS) - Math.max(heard.startS, note.startS);
    const heard = found.reduce<NoteHeard | null>((best, each) => (overlap(each) > Math.max(0, best ? overlap(best) : 0) ? each : best), null);
    if (!heard || used.has(heard)) return [];
    used.add(heard);
    return [{ played: note, heard }];
  });
  return { pairs, missing: played.length - pairs.length, extra: found.length - used.size };
}
