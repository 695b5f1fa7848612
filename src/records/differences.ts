/** What differs between a player as kept and as in a file, in words, from the point of view of taking the file's over. */
import type { LessonSpec, PlayerSpec, ReadingSpec } from '../core/specs';
import { sayKeeping } from '../words/keeping';
import { sameValue } from './sameValue';

/** One difference each; none where the two say the same. */
export function differenceWords(kept: PlayerSpec, incoming: PlayerSpec): string[] {
  const words: string[] = [];
  if (kept.label !== incoming.label) words.push(sayKeeping('labelBecomes', { before: kept.label, after: incoming.label }));
  if (kept.instrument !== incoming.instrument) words.push(sayKeeping('instrumentBecomes', { before: kept.instrument, after: incoming.instrument }));
  if (!sameValue(kept.arch, incoming.arch)) words.push(sayKeeping('otherArch'));
  if (!sameValue(kept.lips, incoming.lips)) words.push(sayKeeping('otherLips'));
  const { added, gone, both } = matched(kept.lessons, incoming.lessons);
  if (added.length > 0) words.push(sayKeeping('lessonsMore', { count: added.length, lessons: added.map(lessonName).join(', ') }));
  if (gone.length > 0) words.push(sayKeeping('lessonsFewer', { count: gone.length, lessons: gone.map(lessonName).join(', ') }));
  for (const [before, after] of both) {
    const inside = lessonWords(before, after);
    if (inside.length > 0) words.push(sayKeeping('lessonChanges', { lesson: lessonName(before), changes: inside.join(', ') }));
  }
  const order = both.map(([before]) => kept.lessons.indexOf(before));
  if (order.some((place, index) => index > 0 && place < (order[index - 1] ?? 0))) words.push(sayKeeping('lessonsOrder'));
  return words;
}

function lessonName({ date, id }: LessonSpec): string {
  return date === undefined ? sayKeeping('lessonWithoutDay', { id }) : sayKeeping('lessonOf', { date });
}

function lessonWords(before: LessonSpec, after: LessonSpec): string[] {
  const words = readingWords(before.readings, after.readings);
  if (before.date !== after.date) words.push(sayKeeping('dayBecomes', { date: after.date ?? sayKeeping('dayUnknown') }));
  const parts = [
    ['theRim', before.rim, after.rim],
    ['theForce', before.force, after.force],
    ['theHome', before.home, after.home],
    ['theShare', before.upperLipShare, after.upperLipShare],
    ['theRemark', before.remark, after.remark],
    ['theHomework', before.toTry, after.toTry],
  ] as const;
  const changed = parts.filter(([, one, other]) => !sameValue(one, other)).map(([name]) => sayKeeping(name));
  if (changed.length > 0) words.push(sayKeeping('changed', { parts: changed.reduce((first, second) => sayKeeping('and', { first, second })) }));
  words.push(...partWords('tryOuts', before.tryOuts, after.tryOuts), ...partWords('measurings', before.measurings ?? [], after.measurings ?? []));
  return words;
}

function partWords(what: Counted, before: readonly { readonly id: string }[], after: readonly { readonly id: string }[]): string[] {
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
  const words = counts('readings', added, gone, changed);
  if (words.length === 0 && !sameValue(before, after)) words.push(sayKeeping('readingsOrder'));
  return words;
}

function keyOf({ note, take, direction }: ReadingSpec): string {
  return `${note} ${take ?? 1} ${direction ?? ''}`;
}

function counts(what: Counted, added: number, gone: number, changed: number): string[] {
  const words: string[] = [];
  if (changed > 0) words.push(sayKeeping(`${what}Changed`, { count: changed }));
  if (added > 0) words.push(sayKeeping(`${what}More`, { count: added }));
  if (gone > 0) words.push(sayKeeping(`${what}Fewer`, { count: gone }));
  return words;
}

type Counted = 'readings' | 'tryOuts' | 'measurings';

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
