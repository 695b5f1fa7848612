/** What is said of the airstream: what was seen, where it changes side, and where the placement is near half and half. Pure. */
import { counted } from '../../core/words';
import type { AirstreamFinding, AirstreamSeenAt } from '../../core/findings/findings';
import { COMMON_PRACTICE, type NoteNamer, listWords } from './saysWords';

/** One plain sentence on what was seen. */
export function airWords(air: AirstreamFinding, name: NoteNamer): string {
  const sides = new Set(air.seen.flatMap((one) => sideAt(one) ?? []));
  if (air.changes.length > 0) {
    return `The air changes side ${listWords(air.changes.map(({ lowNote, highNote, from, to, direction }) =>
      `between ${name(lowNote)} (${from}) and ${name(highNote)} (${to})${WAY_WORDS[direction ?? 'either']}`))}.`;
  }
  const notes = counted(new Set(air.seen.filter((one) => sideAt(one) !== null).map(({ midi }) => midi)).size, 'note');
  if (sides.size === 1) return `The air was seen to go ${sides.has('down') ? 'down' : 'up'} at ${notes}, and at none the other way.`;
  return air.both.length > 0
    ? `At ${listWords(air.both.map(name))} the air was seen both ways, in different takes.`
    : 'Which way the air goes was not seen surely at any note.';
}

/** What else was seen; empty where nothing was. */
export function airDetailWords(air: AirstreamFinding, name: NoteNamer): string {
  const parts: string[] = [];
  if (air.both.length > 0 && air.changes.length > 0) {
    parts.push(`At ${listWords(air.both.map(name))} it was seen both ways, in different takes.`);
  }
  const unsure = air.seen.filter((one) => sideAt(one) === null && one.unsure > 0).map(({ note }) => name(note));
  if (unsure.length > 0) parts.push(`Not sure at ${listWords(unsure)}.`);
  return parts.join(' ');
}

/** Where the upper lip's share is near one half; null where it is nowhere seen to be. */
export function nearHalfWords({ nearHalf, usualNearHalf }: AirstreamFinding, name: NoteNamer): string | null {
  const places = nearHalf.map(({ note, shareByDiameter }) => `at ${name(note)} (${percent(shareByDiameter)})`);
  if (usualNearHalf !== null) places.push(`as this lesson was set up (${percent(usualNearHalf)})`);
  if (places.length === 0) return null;
  return `The upper lip’s share of the diameter is near half and half ${listWords(places)}. `
    + `Many teachers find that the air is unsteady there ${COMMON_PRACTICE}.`;
}

/** The side seen at a note, where all takes that were sure agree; null otherwise. */
export function sideAt({ down, up }: Pick<AirstreamSeenAt, 'down' | 'up'>): 'down' | 'up' | null {
  if (down > 0 && up === 0) return 'down';
  return up > 0 && down === 0 ? 'up' : null;
}

const WAY_WORDS: Readonly<Record<'up' | 'down' | 'either', string>> = { up: ', ascending', down: ', descending', either: '' };

const percent = (share: number): string => `${Math.round(share * 100)}\u00a0%`;
