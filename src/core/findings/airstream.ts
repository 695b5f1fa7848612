/** Which way the air was seen to go, where that changes, and whether the rim sits near half and half. Counts of what was seen, nothing estimated. */
import { shareByDiameter } from '../lipLine';
import { midiOf } from '../pitch';
import { branchesOf } from '../readings';
import type { PlayerRecord, ReadingSpec } from '../specs';
import type { AirstreamFinding, AirstreamSeenAt, Finding } from './findings';

/** How far from one half of the diameter still counts as near it; common practice calls such a placement unstable, with no published figure: our judgement. */
const NEAR_HALF = 0.05;
/** Keeps 0.45 and 0.55 themselves inside, whatever their conversion rounds to. */
const ROUNDING = 1e-9;

/**
 * A note is clear where all its sure takes say the same; `both` where they differ. A change lies between two clear notes that differ and have
 * no other clear note between them. Told as soon as one side or one share was seen.
 */
export function airstreamFinding(record: PlayerRecord): Finding<AirstreamFinding> {
  const seen = seenAt(record.readings);
  const nearHalf = sharesNearHalf(record);
  const usual = shareByDiameter(record.upperLipShare);
  const rested = record.readings.filter((reading) => reading.airstream !== undefined || reading.upperLipShare !== undefined);
  const sure = seen.some((note) => note.down + note.up > 0) || rested.some((reading) => reading.upperLipShare !== undefined);
  if (!sure) {
    const notes = [...new Map(record.readings.map((reading) => [midiOf(reading.note), reading.note])).entries()];
    notes.sort(([a], [b]) => a - b);
    return { kind: 'cannot-tell', reason: 'not-seen', needs: [{ notes: notes.map(([, note]) => note), takes: 1, of: 'airstream' }] };
  }
  return {
    kind: 'told',
    evidence: { notes: new Set(rested.map((reading) => midiOf(reading.note))).size, readings: rested.length },
    seen,
    changes: changesIn(seen),
    both: [...new Map(seen.filter((note) => note.down > 0 && note.up > 0).map(({ midi, note }) => [midi, note])).values()],
    nearHalf,
    usualNearHalf: isNearHalf(usual) ? usual : null,
  };
}

const isNearHalf = (share: number): boolean => Math.abs(share - 0.5) <= NEAR_HALF + ROUNDING;

/** Counts by note and direction, low to high. */
function seenAt(readings: readonly ReadingSpec[]): AirstreamSeenAt[] {
  const groups = new Map<string, { note: string; midi: number; direction: AirstreamSeenAt['direction']; down: number; up: number; unsure: number }>();
  for (const reading of readings) {
    if (reading.airstream === undefined) continue;
    const midi = midiOf(reading.note);
    const direction = reading.direction ?? null;
    const key = `${midi} ${direction ?? ''}`;
    const group = groups.get(key) ?? { note: reading.note, midi, direction, down: 0, up: 0, unsure: 0 };
    group[reading.airstream]++;
    groups.set(key, group);
  }
  return [...groups.values()].sort((a, b) => a.midi - b.midi);
}

function changesIn(seen: readonly AirstreamSeenAt[]): AirstreamFinding['changes'] {
  if (seen.length === 0) return [];
  return branchesOf(seen).flatMap(({ direction, order }) => {
    const clear = order.map((index) => seen[index]!).filter((note) => (note.down > 0) !== (note.up > 0));
    return clear.slice(1).flatMap((high, i) => {
      const low = clear[i]!;
      const from = low.down > 0 ? ('down' as const) : ('up' as const);
      const to = high.down > 0 ? ('down' as const) : ('up' as const);
      return from === to ? [] : [{ lowNote: low.note, highNote: high.note, from, to, direction }];
    });
  });
}

/** Mean share of each note at which one was seen, by diameter, where near one half; low to high. */
function sharesNearHalf(record: PlayerRecord): AirstreamFinding['nearHalf'] {
  const groups = new Map<number, { note: string; shares: number[] }>();
  for (const reading of record.readings) {
    if (reading.upperLipShare === undefined) continue;
    const share = shareByDiameter({ value: reading.upperLipShare, by: record.upperLipShare.by });
    const group = groups.get(midiOf(reading.note)) ?? { note: reading.note, shares: [] };
    group.shares.push(share);
    groups.set(midiOf(reading.note), group);
  }
  return [...groups.entries()]
    .sort(([a], [b]) => a - b)
    .map(([, { note, shares }]) => ({ note, shareByDiameter: shares.reduce((sum, share) => sum + share, 0) / shares.length }))
    .filter((each) => isNearHalf(each.shareByDiameter));
}
