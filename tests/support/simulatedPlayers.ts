/**
 * Players made up for the checks of what readings say: an invented player's own mouth on a path of evenly spaced notes, jaw seen at every
 * one, and mouths drawn about it through the seat.
 */
import type { Analysis, HornAngles } from '../../src/core/analysis';
import { analyse } from '../../src/core/analyse';
import { drawChanges } from '../../src/core/monteCarlo';
import { isHome } from '../../src/core/mouthMoves';
import { noteName } from '../../src/core/pitch';
import { type Random, createRandom } from '../../src/core/random';
import type { PlayerRecord } from '../../src/core/specs';
import { demoPlayers } from '../../src/records/library';

export interface PathMade {
  readonly notes: number;
  /** From the lowest to the highest note, mm. */
  readonly travelMm: number;
  readonly travelSdMm: number;
  readonly hornSdDeg: number;
  /** The way of travel: mm to the right for a mm up, bent by this much at the ends. */
  readonly rightPart?: number;
  readonly bendMm?: number;
  readonly jawSeen?: boolean;
}

/** The first invented player on a made path: home in the middle, horn angles of nought, to be replaced. */
export function recordOnPath(made: PathMade): PlayerRecord {
  const [demo] = demoPlayers;
  if (!demo || 'single' in demo.record.arch) throw new Error('no invented player with two jaws');
  const { jaw } = demo.record.arch;
  const middle = Math.floor((made.notes - 1) / 2);
  const readings = Array.from({ length: made.notes }, (_, index) => {
    const upMm = ((index - middle) * made.travelMm) / (made.notes - 1);
    const bend = (made.bendMm ?? 0) * ((2 * (index - middle)) / (made.notes - 1)) ** 2;
    return {
      note: noteName(65 + 2 * (index - middle)),
      travel: { upMm, rightMm: (made.rightPart ?? 0.35) * upMm + bend, sdMm: index === middle ? 0 : made.travelSdMm },
      horn: { elevationDeg: 0, lateralDeg: 0, sdDeg: made.hornSdDeg },
      ...(made.jawSeen === false ? {} : { jaw: { openingMm: jaw.openingMm, forwardMm: jaw.forwardMm, hingeDeg: jaw.hingeDeg } }),
    };
  });
  return { ...demo.record, home: { note: 'F4' }, readings };
}

/** The same with travel seen exactly: what is drawn about it are mouths (and unseen jaws) only. */
export const withExactTravel = (record: PlayerRecord): PlayerRecord => ({
  ...record,
  readings: record.readings.map((reading) => ({ ...reading, ...(reading.travel && { travel: { ...reading.travel, sdMm: 0 } }) })),
});

/** True changes from home of mouths drawn about the record's own, `draws` of them, for each reading; null where one found no seat. */
export function drawnSwings(record: PlayerRecord, draws: number, seed: number): (readonly HornAngles[] | null)[] {
  const exact = analyse(withExactTravel(record));
  const drawn = drawChanges(exact, draws, createRandom(seed));
  return Array.from({ length: draws }, (_, draw) => {
    const swings = exact.readings.map((_reading, index) => ({
      elevationDeg: drawn.elevationDeg[draw * drawn.readings + index]!,
      lateralDeg: drawn.lateralDeg[draw * drawn.readings + index]!,
    }));
    return swings.some((swing) => Number.isNaN(swing.elevationDeg)) ? null : swings;
  });
}

/** The analysis as it would be had these horn angles been measured: home's own error is in every one of them alike. */
export function withHorns(analysis: Analysis, horns: readonly HornAngles[], changes?: readonly HornAngles[]): Analysis {
  const readings = analysis.readings.map((reading, index) => ({
    ...reading,
    measured: { ...horns[index]!, sdDeg: reading.measured!.sdDeg, lateralSdDeg: reading.measured!.lateralSdDeg },
    changeFromHome: changes?.[index] ?? reading.changeFromHome,
  }));
  const atHome = readings.find((reading) => isHome(analysis, reading))!;
  return { ...analysis, readings, home: { ...analysis.home, measured: atHome.measured } };
}

/** An angle of the horn read with its deviation. */
export const readOff = (angles: HornAngles, sdDeg: number, random: Random): HornAngles => ({
  elevationDeg: angles.elevationDeg + sdDeg * random.normal(),
  lateralDeg: angles.lateralDeg + sdDeg * random.normal(),
});
