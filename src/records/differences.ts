/** What differs between a player as kept and as in a file, in words, from the point of view of taking the file's over. */
import { counted } from '../core/words';
import type { LessonSpec, PlayerSpec, ReadingSpec } from '../core/specs';
import { sameValue } from './sameValue';

/** One difference each; none where the two say the same. */
export function differenceWords(kept: PlayerSpec, incoming: PlayerSpec): string[] {
  const words: string[] = [];
  if (kept.label !== incoming.label) words.push(`label: “${kept.label}” becomes “${incoming.label}”`);
  if (kept.instrument !== incoming.instrument) words.push(`instrument: ${kept.instrument} becomes ${incoming.instrument}`);
  if (!sameValue(kept.arch, incoming.arch)) words.push('the arch is another');
  if (!sameValue(kept.lips, incoming.lips)) words.push('the lips are other ones');
  const { added, gone, both } = matched(kept.lessons, incoming.lessons);
  if (added.length > 0) words.push(`${counted(added.length, 'lesson')} more: ${added.map(lessonName).join(', ')}`);
  if (gone.length > 0) words.push(`${counted(gone.length, 'lesson')} fewer: ${gone.map(lessonName).join(', ')} would be lost`);
  for (const [before, after] of both) {
    const inside = lessonWords(before, after);
    if (inside.length > 0) words.push(`lesson ${lessonName(before)}: ${inside.join(', ')}`);
  }
  const order = both.map(([before]) => kept.lessons.indexOf(before));
  if (order.some((place, index) => index > 0 && place < (order[index - 1] ?? 0))) words.push('the lessons stand in another order');
  return words;
}

function lessonName({ date, id }: LessonSpec): string {
  return date === undefined ? `without a day (${id})` : `of ${date}`;
}

function lessonWords(before: LessonSpec, after: LessonSpec): string[] {
  const words = readingWords(before.readings, after.readings);
  if (before.date !== after.date) words.push(`its day becomes ${after.date ?? 'unknown'}`);
  const parts = [
    ['the rim', before.rim, after.rim],
    ['the force', before.force, after.force],
    ['home', before.home, after.home],
    ['the upper lip’s share', before.upperLipShare, after.upperLipShare],
    ['the remark', before.remark, after.remark],
    ['what to try at home', before.toTry, after.toTry],
  ] as const;
  const changed = parts.filter(([, one, other]) => !sameValue(one, other)).map(([name]) => name);
  if (changed.length > 0) words.push(`${changed.join(' and ')} changed`);
  words.push(...partWords('try-out', before.tryOuts, after.tryOuts), ...partWords('measuring', before.measurings ?? [], after.measurings ?? []));
  return words;
}

function partWords(what: string, before: readonly { readonly id: string }[], after: readonly { readonly id: string }[]): string[] {
  const { added, gone, both } = matched(before, after);
  return counts(what, added.length, gone.length, both.filter(([one, other]) => !sameValue(one, other)).length);
}

/** A reading is known again by its note, take and direction; of several alike the first goes with the first. */
function readingWords(before: readonly ReadingSpec[], after: readonly ReadingSpec[]): string[] {
  const left = new Map<string, ReadingSpec[]>();
  for (const reading of before) left.set(keyOf(reading), [...(left.get(keyOf(reading)) ?? []), reading]);
  let added = 0;
  let changed = 0;
  for (const reading of after) {
    const match = left.get(keyOf(reading))?.shift();
    if (match === undefined) added++;
    else if (!sameValue(match, reading)) changed++;
  }
  const gone = [...left.values()].reduce((sum, list) => sum + list.length, 0);
  const words = counts('reading', added, gone, changed);
  if (words.length === 0 && !sameValue(before, after)) words.push('the readings stand in another order');
  return words;
}

function keyOf({ note, take, direction }: ReadingSpec): string {
  return `${note} ${take ?? 1} ${direction ?? ''}`;
}

function counts(what: string, added: number, gone: number, changed: number): string[] {
  const words: string[] = [];
  if (changed > 0) words.push(`${counted(changed, what)} changed`);
  if (added > 0) words.push(`${counted(added, what)} more`);
  if (gone > 0) words.push(`${counted(gone, what)} fewer`);
  return words;
}

function matched<T extends { readonly id: string }>(before: readonly T[], after: readonly T[]) {
  const both = after.flatMap((one): [T, T][] => {
    const other = before.find(({ id }) => id === one.id);
    return other === undefined ? [] : [[other, one]];
  });
  return {
    added: after.filter((one) => !before.some(({ id }) => id === one.id)),
    gone: before.filter((one) => !after.some(({ id }) => id === one.id)),
    both,
  };
}
