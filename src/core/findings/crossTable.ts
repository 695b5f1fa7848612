/**
 * A teacher's own players side by side: which way the rim goes against which way the air goes, and against what the horn does. Counts
 * of separate observations; no kinds of player are made of them, and nothing is concluded.
 */
import { lessonOf, recordOf } from '../lessons';
import type { PlayerRecord, PlayerSpec } from '../specs';
import type { AirstreamFinding, Finding, Findings, FollowRatio, WhichWay } from './findings';

export type WaySeen = WhichWay['way'];
export type AirSeen = 'down' | 'up' | 'changes';
export type SwingSeen = 'follows' | 'held' | 'against';

/** What was seen of one player; null where it cannot be told. */
export interface PlayerObservations {
  readonly id: string;
  readonly label: string;
  readonly way: WaySeen | null;
  readonly air: AirSeen | null;
  readonly swing: SwingSeen | null;
}

const WAYS_SEEN: readonly WaySeen[] = ['pushes-up', 'pulls-down', 'to-the-side'];
const AIR_SEEN: readonly AirSeen[] = ['down', 'up', 'changes'];
const SWING_SEEN: readonly SwingSeen[] = ['follows', 'held', 'against'];

/** A table of one player is none. */
export const FEWEST_PLAYERS = 2;

export interface CrossTable<Column> {
  /** The last of either is null: cannot tell. */
  readonly rows: readonly (WaySeen | null)[];
  readonly columns: readonly (Column | null)[];
  /** By row, then column. */
  readonly counts: readonly (readonly number[])[];
  readonly rowTotals: readonly number[];
  readonly columnTotals: readonly number[];
  readonly total: number;
}

export function crossWithAir(players: readonly PlayerObservations[]): CrossTable<AirSeen> {
  return cross(players, AIR_SEEN, ({ air }) => air);
}

export function crossWithSwing(players: readonly PlayerObservations[]): CrossTable<SwingSeen> {
  return cross(players, SWING_SEEN, ({ swing }) => swing);
}

/** What the player's last lesson says. `findingsOf` is asked once. Throws RangeError for a player without lessons. */
export function observationsOf(player: PlayerSpec, findingsOf: (record: PlayerRecord) => Findings): PlayerObservations {
  const findings = findingsOf(recordOf(player, lessonOf(player, '')));
  return {
    id: player.id,
    label: player.label,
    way: waySeen(findings),
    air: airSeen(findings.airstream),
    swing: swingSeen(findings.follow.lateral) ?? swingSeen(findings.follow.elevation),
  };
}

function cross<Column>(
  players: readonly PlayerObservations[],
  told: readonly Column[],
  columnOf: (player: PlayerObservations) => Column | null,
): CrossTable<Column> {
  const rows = [...WAYS_SEEN, null];
  const columns = [...told, null];
  const counts = rows.map((row) =>
    columns.map((column) => players.filter((player) => player.way === row && columnOf(player) === column).length));
  return {
    rows,
    columns,
    counts,
    rowTotals: counts.map(sum),
    columnTotals: columns.map((_, at) => sum(counts.map((row) => row[at]!))),
    total: players.length,
  };
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);

/** The way is that of ascending; readings that only descend say nothing of it. */
function waySeen({ travel }: Findings): WaySeen | null {
  const ascending = travel.find(({ direction }) => direction !== 'down')?.way;
  return ascending?.kind === 'told' ? ascending.way : null;
}

/** One side at every note at which the air was surely seen, or a change between two of them. Both sides at one note is neither. */
function airSeen(air: Finding<AirstreamFinding>): AirSeen | null {
  if (air.kind !== 'told') return null;
  if (air.changes.length > 0) return 'changes';
  if (air.both.length > 0) return null;
  const sides = air.seen.flatMap(({ down, up }) => [...(down > 0 ? ['down' as const] : []), ...(up > 0 ? ['up' as const] : [])]);
  return sides.length > 0 && sides.every((side) => side === sides[0]) ? sides[0]! : null;
}

/** By the interval: surely with the arch, surely against it, or no more than held still; null where it holds both 0 and 1. */
function swingSeen(follow: Finding<FollowRatio>): SwingSeen | null {
  if (follow.kind !== 'told') return null;
  const { low, high } = follow.ratio;
  if (low > 0) return 'follows';
  if (high < 0) return 'against';
  return high < 1 ? 'held' : null;
}
