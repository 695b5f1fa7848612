/** A second player beside one of the same name: its own id, and a label that tells the two apart. */
import type { PlayerSpec } from '../core/specs';
import { sayKeeping } from '../words/keeping';
import type { NewId } from './newId';
import { LONGEST_LABEL } from './playerSchema';

/** What this tab had, where another tab kept something else meanwhile. */
export function copyFromThisTab(player: PlayerSpec, idOf: NewId): PlayerSpec {
  return { ...player, id: idOf(), label: withEnding(player.label, sayKeeping('copyEnding')) };
}

/** The first label of `M. K. (2)`, `M. K. (3)`, … that is not among those taken. */
export function numberedLabel(label: string, taken: ReadonlySet<string>): string {
  const stem = label.replace(/ \(\d{1,4}\)$/, '');
  for (let number = 2; ; number++) {
    const numbered = withEnding(stem, ` (${number})`);
    if (!taken.has(numbered)) return numbered;
  }
}

/** A label that already ends so is not given the ending twice; one that would be too long is cut before it. */
function withEnding(label: string, ending: string): string {
  const start = label.endsWith(ending) ? label.slice(0, -ending.length) : label;
  return `${start.slice(0, LONGEST_LABEL - ending.length)}${ending}`.trimStart();
}
