/** What is said of the airstream: what was seen, where it changes side, and where the placement is near half and half. Pure. */
import type { AirstreamFinding, AirstreamSeenAt } from '../../core/findings/findings';
import { saySays } from '../../words/says';
import { type NoteNamer, listWords } from './saysWords';

/** One plain sentence on what was seen. */
export function airWords(air: AirstreamFinding, name: NoteNamer): string {
  const sides = new Set(air.seen.flatMap((one) => sideAt(one) ?? []));
  if (air.changes.length > 0) {
    const places = air.changes.map(({ lowNote, highNote, from, to, direction }) =>
      saySays('airBetween', { low: name(lowNote), from, high: name(highNote), to, direction: direction ?? 'either' }));
    return saySays('airChanges', { places: listWords(places) });
  }
  const notes = new Set(air.seen.filter((one) => sideAt(one) !== null).map(({ midi }) => midi)).size;
  if (sides.size === 1) return saySays('airOneSide', { side: sides.has('down') ? 'down' : 'up', notes });
  return air.both.length > 0 ? saySays('airBoth', { notes: listWords(air.both.map(name)) }) : saySays('airUnsure');
}

/** What else was seen; empty where nothing was. */
export function airDetailWords(air: AirstreamFinding, name: NoteNamer): string {
  const parts: string[] = [];
  if (air.both.length > 0 && air.changes.length > 0) {
    parts.push(saySays('airBothToo', { notes: listWords(air.both.map(name)) }));
  }
  const unsure = air.seen.filter((one) => sideAt(one) === null && one.unsure > 0).map(({ note }) => name(note));
  if (unsure.length > 0) parts.push(saySays('airUnsureAt', { notes: listWords(unsure) }));
  return parts.join(' ');
}

/** Where the upper lip's share is near one half; null where it is nowhere seen to be. */
export function nearHalfWords({ nearHalf, usualNearHalf }: AirstreamFinding, name: NoteNamer): string | null {
  const places = nearHalf.map(({ note, shareByDiameter }) => saySays('halfAt', { note: name(note), percent: percent(shareByDiameter) }));
  if (usualNearHalf !== null) places.push(saySays('halfUsual', { percent: percent(usualNearHalf) }));
  if (places.length === 0) return null;
  return saySays('airNearHalf', { places: listWords(places) });
}

/** The side seen at a note, where all takes that were sure agree; null otherwise. */
function sideAt({ down, up }: Pick<AirstreamSeenAt, 'down' | 'up'>): 'down' | 'up' | null {
  if (down > 0 && up === 0) return 'down';
  return up > 0 && down === 0 ? 'up' : null;
}

const percent = (share: number): number => Math.round(share * 100);
