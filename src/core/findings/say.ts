/** Everything that is said of one record, in one call: some tenths of a second, so not while a hand is on the rim. */
import { analyse } from '../analyse';
import { computeMoves } from '../mouthMoves';
import { createRandom } from '../random';
import type { PlayerRecord } from '../specs';
import { airstreamFinding } from './airstream';
import { alongLine } from './alongLine';
import type { TravelFindings } from './findings';
import { followRatios } from './followRatio';
import { localShape } from './localShape';
import { lineOfTravel } from './lineOfTravel';
import { type WayReadings, readingsOfWays } from './readingsOfWay';
import type { Said, WaySaid } from './said';
import { turnBack } from './turnBack';
import { whichWay } from './whichWay';

/** The same readings always give the same p. */
const TURN_BACK_SEED = 1;

const NOTHING_SEEN: WayReadings = { direction: null, notes: [] };

/** Throws as `analyse` does. */
export function sayOf(record: PlayerRecord): Said {
  const analysis = analyse(record);
  const seen = readingsOfWays(record);
  // Where nobody saw any travel, that is what is to be said.
  const ways = seen.length > 0 ? seen : [NOTHING_SEEN];
  const travel = ways.map((way): TravelFindings => ({
    direction: way.direction,
    line: lineOfTravel(way),
    way: whichWay(way),
    turnBack: turnBack(way, createRandom(TURN_BACK_SEED)),
  }));
  const moves = computeMoves(analysis);
  return {
    findings: { travel, airstream: airstreamFinding(record), follow: followRatios(analysis, moves) },
    ways: ways.map((way, index) => waySaid(way, travel[index]!)),
    local: localShape(analysis, moves),
  };
}

function waySaid(way: WayReadings, { line }: TravelFindings): WaySaid {
  return { notes: way.notes, along: line.kind === 'told' ? alongLine(way, line.fromUpDeg.value) : null };
}
