/** Travel along the line that turns back within the range: whether, where, how far, and how many takes it would need to be seen. */
import type { Random } from '../random';
import { TRAVEL_SD_MM } from '../readings';
import { FOUR_TIMES_IN_FIVE, NORMAL_95 } from './distributions';
import type { CannotTell, Finding, PlannedMethod, TurnBack } from './findings';
import { TRAVEL_WORTH_TELLING_MM, isOnePlace, largerSd, pitchSlope, takesAtEnds } from './lineOfTravel';
import { alongLineMm, orthogonalLine } from './orthogonalLine';
import { type PlacedNote, type WayReadings, evidenceOf, sdAlong } from './readingsOfWay';
import { singleTurnFit } from './singleTurn';
import { FEWEST_NOTES, createTurnBackTest } from './turnBackTest';

/** A turn-back is called found at this p. */
export const FOUND_P = 0.05;
/** Up to this p the likeliest place is named; beyond, none stands out. */
const PLACE_P = 0.2;
/** The turn-back that the number of takes is worked out for, mm, over this many notes. */
export const SOUGHT_MM = 2;
const SOUGHT_NOTES = 3;
/** How often it should then be found. */
const SOUGHT_POWER = 0.95;
/** More takes of every note than this nobody plays. */
const MOST_TAKES = 60;
/** Rise before the turn in the player that the takes are worked out for, at least so many times the turn-back: else it were the main way. */
const LEAST_RISE = 1.5;
/** For a number of takes a power known to 0.007 will do. */
const PLANNING_DRAWS = 999;

/**
 * Along the line of the readings (orthogonalLine.ts), whichever way it runs. The same seed gives the same p. Readings' deviations are
 * taken as known: where they are set too small, monotone players are flagged too often.
 */
export function turnBack(way: WayReadings, random: Random): Finding<TurnBack> {
  const { notes } = way;
  if (notes.length < FEWEST_NOTES) {
    return cannot('too-few-notes', { notes: [], takes: 1, moreNotes: FEWEST_NOTES - notes.length, of: 'travel' });
  }
  const line = orthogonalLine(notes);
  if (line.kind !== 'fitted' || isOnePlace(line)) {
    const octaves = (notes[notes.length - 1]!.midi - notes[0]!.midi) / 12;
    const takes = takesAtEnds(notes, TRAVEL_WORTH_TELLING_MM / octaves, NORMAL_95 + FOUR_TIMES_IN_FIVE, largerSd);
    return cannot('too-little-travel', { notes: [notes[0]!.note, notes[notes.length - 1]!.note], takes, of: 'travel' });
  }
  const values = notes.map((note) => alongLineMm(note, line.middleMm, line.angle));
  const midis = notes.map((note) => note.midi);
  const sds = notes.map((note) => sdAlong(note, line.angle));
  const p = createTurnBackTest(midis, sds, random).p(values);
  const slope = pitchSlope(notes);
  const risePerSemitoneMm = Math.abs(slope.up * Math.cos(line.angle) + slope.right * Math.sin(line.angle)) / 12;
  return {
    kind: 'told',
    evidence: evidenceOf(way),
    found: p <= FOUND_P,
    p,
    at: p <= PLACE_P ? placeOf(notes, values, sds) : null,
    takesFor: takesFor(midis, risePerSemitoneMm, random),
  };
}

/**
 * Takes of every note, each erring by the method's deviation, with which a player who rises so steeply and comes back by SOUGHT_MM over the last
 * SOUGHT_NOTES notes is found in SOUGHT_POWER of lessons; null beyond MOST_TAKES. By draws, from the same test as the finding.
 */
export function takesFor(midis: readonly number[], risePerSemitoneMm: number, random: Random): TurnBack['takesFor'] {
  const travel = soughtTravel(midis, risePerSemitoneMm);
  const test = createTurnBackTest(midis, midis.map(() => 1), random, PLANNING_DRAWS);
  const enough = (sdMm: number, takes: number): boolean => test.power(travel, sdMm / Math.sqrt(takes), FOUND_P) >= SOUGHT_POWER;
  const of = (method: PlannedMethod): { sizeMm: number; takes: number | null } => {
    const sdMm = TRAVEL_SD_MM[method];
    if (!enough(sdMm, MOST_TAKES)) return { sizeMm: SOUGHT_MM, takes: null };
    let few = 0;
    let many = MOST_TAKES;
    while (many - few > 1) {
      const middle = (few + many) >> 1;
      if (enough(sdMm, middle)) many = middle;
      else few = middle;
    }
    return { sizeMm: SOUGHT_MM, takes: many };
  };
  return { eye: of('eye'), ruler: of('ruler'), video: of('video') };
}

/** Straight up to the turn and straight back from there, mm; on few notes the way back takes less than half of them. */
export function soughtTravel(midis: readonly number[], risePerSemitoneMm: number, sizeMm = SOUGHT_MM): number[] {
  const last = midis.length - 1;
  const turn = midis[last - Math.min(SOUGHT_NOTES, Math.floor(last / 2))]!;
  const rise = Math.max(risePerSemitoneMm, (LEAST_RISE * sizeMm) / (turn - midis[0]!));
  const fall = sizeMm / (midis[last]! - turn);
  return midis.map((midi) => (midi <= turn ? rise : -fall) * (midi - turn));
}

/** The single turn that fits best, and its shorter side; null where that side has no length. */
function placeOf(notes: readonly PlacedNote[], values: readonly number[], sds: readonly number[]): TurnBack['at'] {
  const weights = sds.map((sd) => 1 / sd ** 2);
  const peak = singleTurnFit(values, weights, 'peak');
  const valley = singleTurnFit(values, weights, 'valley');
  const best = peak.chi2 <= valley.chi2 ? peak : valley;
  const sizeMm = Math.min(best.before, best.after);
  const { note, midi } = notes[best.turn]!;
  return sizeMm > 0 ? { note, midi, sizeMm, side: best.after <= best.before ? 'above' : 'below' } : null;
}

const cannot = (reason: CannotTell['reason'], need: CannotTell['needs'][number]): CannotTell => ({ kind: 'cannot-tell', reason, needs: [need] });
