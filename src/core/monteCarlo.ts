/**
 * Bands by seeded Monte Carlo: every draw is one mouth, with its own jaw and travel error at every note. Balanced on a coarse net
 * (about 0.1°, common to home and note), so that thousands of draws stay interactive. docs/numerics.md §9.
 */
import type { Analysis } from './analysis';
import { buildArch, lowerJawAt } from './arch';
import { frontalPosition, toDegrees } from './frame';
import { DEFAULT_DEVIATIONS, type Deviations, carriedJaw, mouthUnknowns, movedJaw } from './deviations';
import { lipLineOffset } from './lipLine';
import { COARSE_SAMPLING } from './rim';
import type { createRandom } from './random';
import { createSeatSolver } from './seat';
import type { SeatSolver, SeatState } from './seatAnswer';
import { isHome } from './mouthMoves';
import { stateOf } from './session';
import type { JawSpec } from './specs';

export interface DrawnChanges {
  /** Change from home in degrees, readings × draws, a draw's readings together; NaN where that draw found no seat. */
  readonly elevationDeg: Float64Array;
  readonly lateralDeg: Float64Array;
  readonly readings: number;
  readonly draws: number;
}

/** Draws changes from home at every reading. `random` is seeded by the caller; `progress` (0 to 1) may return false to stop. */
export function drawChanges(
  analysis: Analysis,
  draws: number,
  random: ReturnType<typeof createRandom>,
  by: Deviations = DEFAULT_DEVIATIONS,
  progress?: (part: number) => boolean,
): DrawnChanges {
  const { record, readings, home } = analysis;
  const unknowns = mouthUnknowns(record, by);
  const count = readings.length;
  const elevationDeg = new Float64Array(count * draws).fill(NaN);
  const lateralDeg = new Float64Array(count * draws).fill(NaN);
  const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
  const atHome = readings.find((reading) => reading.midi === home.midi) ?? null;
  const homeForce = atHome?.forceN ?? record.force.newtons;
  const homeStart = stateOf(home.follow.pose);
  const starts: SeatState[] = readings.map((reading) => stateOf(reading.follow.pose));

  let solver: SeatSolver | null = null;
  for (let draw = 0; draw < draws; draw++) {
    if (progress && draw % 16 === 0 && !progress(draw / draws)) break;
    let mouth = record;
    for (const unknown of unknowns) mouth = unknown.moved(mouth, random.normal());
    const forceTimes = Math.exp(random.normal() * by.forcePart);
    const homeUp = home.upMm + random.normal() * by.homeUpMm;
    const arch = buildArch(mouth.arch);
    // One solver for all: only the mouth under it is changed, and the feet of the last one are a start for the next.
    solver ??= createSeatSolver({ rim: record.rim, lips: mouth.lips, lipLineMm, coarse: COARSE_SAMPLING, arch });
    solver.replaceMouth(arch, mouth.lips);
    const { moveLower, follow } = solver;
    const standAt = (jaw: JawSpec | null): void => {
      if (jaw && arch.lower) moveLower(lowerJawAt(arch.lower.placed, jaw));
    };
    standAt(atHome?.jaw ? carriedJaw(atHome.jaw, record, mouth) : arch.jaw);
    const homePlace = frontalPosition(homeUp, home.rightMm);
    const rest = follow(homePlace.x, homePlace.y, homeForce * forceTimes, homeStart);
    for (let index = 0; index < count; index++) {
      const reading = readings[index]!;
      const atHomeItself = isHome(analysis, reading);
      const { sdMm, rightSdMm } = atHomeItself ? EXACT : reading.travel;
      // The same number of random numbers for every draw, seat or none: a seed gives the same mouths whatever is solved.
      const [up, right, opening, forward] = [random.normal(), random.normal(), random.normal(), random.normal()];
      if (!rest.found) continue;
      const jaw = reading.jaw ? carriedJaw(reading.jaw, record, mouth) : arch.jaw;
      standAt(jaw && !reading.jawKnown && !atHomeItself ? movedJaw(jaw, opening, forward, by) : jaw);
      const place = frontalPosition(
        homeUp + reading.travel.upMm + up * sdMm,
        home.rightMm + reading.travel.rightMm + right * rightSdMm,
      );
      // This mouth sits at the note about as much apart from the record's mouth as it does at home.
      const start = starts[index]!;
      const seat = follow(place.x, place.y, reading.forceN * forceTimes, {
        z: start.z + rest.z - homeStart.z,
        elevation: start.elevation + rest.elevation - homeStart.elevation,
        lateral: start.lateral + rest.lateral - homeStart.lateral,
      });
      if (!seat.found) continue;
      elevationDeg[draw * count + index] = toDegrees(seat.elevation - rest.elevation);
      lateralDeg[draw * count + index] = toDegrees(seat.lateral - rest.lateral);
    }
  }
  return { elevationDeg, lateralDeg, readings: count, draws };
}

const EXACT = { sdMm: 0, rightSdMm: 0 } as const;

export interface DrawnBand {
  readonly mean: number;
  readonly sd: number;
  /** 2.5 % and 97.5 % points. */
  readonly low: number;
  readonly high: number;
  /** Draws that found a seat. */
  readonly found: number;
}

/** Mean, deviation and 95 % band of one reading's draws. */
export function bandOf(drawn: DrawnChanges, which: 'elevationDeg' | 'lateralDeg', reading: number): DrawnBand {
  const values: number[] = [];
  for (let draw = 0; draw < drawn.draws; draw++) {
    const value = drawn[which][draw * drawn.readings + reading]!;
    if (value === value) values.push(value);
  }
  values.sort((a, b) => a - b);
  const found = values.length;
  const mean = values.reduce((sum, value) => sum + value, 0) / found;
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, found - 1));
  return { mean, sd, low: quantile(values, 0.025), high: quantile(values, 0.975), found };
}

/** Linear interpolation between order statistics (type 7 of Hyndman & Fan 1996; value from memory). */
function quantile(sorted: readonly number[], part: number): number {
  if (sorted.length === 0) return NaN;
  const place = part * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}
