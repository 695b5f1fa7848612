/**
 * How sure a change from home is: first-order propagation of what is not known through the seat, by central differences one
 * deviation wide. Checked against Monte Carlo (monteCarlo.ts) in tests/reference/bands.test.ts. docs/numerics.md §9.
 */
import type { Analysis, AngleBand, HornAngles, KnownHorn } from './analysis';
import { DEFAULT_DEVIATIONS, type Deviations } from './deviations';
import { type MouthMoves, moveSteps } from './mouthMoves';
import { isAngleSeen } from './readings';
import type { UnknownName } from './unknownName';

/** One thing that widens a band, and by how much (degrees, one deviation). */
export interface BandPart extends AngleBand {
  readonly name: UnknownName;
}

/** One standard deviation of each angle of predictedHorn, degrees; null where that has none. */
export interface PredictedBand {
  readonly elevationSdDeg: number | null;
  readonly lateralSdDeg: number | null;
}

export interface ReadingBand {
  /** Of changeFromHome: one standard deviation. */
  readonly change: AngleBand;
  /** Of predictedHorn: with the measured home angle's own deviation; null without one, as is the part of an angle nobody saw at home. */
  readonly predicted: PredictedBand | null;
  /** Largest first. */
  readonly parts: readonly BandPart[];
  /** False where some moved mouth had no seat, so that the band is drawn from the others. */
  readonly complete: boolean;
}

/** A 95 % band is this many deviations either way. */
export const NINETY_FIVE_PERCENT = 1.959963984540054;

/** Bands for every reading of an analysis, in its order; runs `bandSteps` to its end. */
export function computeBands(analysis: Analysis, by: Deviations = DEFAULT_DEVIATIONS): ReadingBand[] {
  const steps = bandSteps(analysis, by);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same in steps of some milliseconds, so that a page can breathe between them; yields the part done, 0 to 1. */
export function* bandSteps(analysis: Analysis, by: Deviations = DEFAULT_DEVIATIONS): Generator<number, ReadingBand[]> {
  return bandsOfMoves(analysis, yield* moveSteps(analysis, by));
}

/** Bands from moves already worked out for this analysis: the parts add as squares. */
export function bandsOfMoves(analysis: Analysis, moves: MouthMoves): ReadingBand[] {
  const home = analysis.home.measured;
  return analysis.readings.map((_, index) => {
    const all = [
      ...moves.shared.map(({ name, readings }) => ({ name, change: readings[index] ?? null })),
      ...(moves.own[index] ?? []),
    ];
    const parts = all.flatMap(({ name, change }) => (change ? [partOf(name, change)] : []));
    const change = together(parts);
    return {
      change,
      predicted: home === null ? null : predictedBand(change, home),
      parts: parts.sort((a, b) => size(b) - size(a)),
      complete: parts.length === all.length,
    };
  });
}

function predictedBand(change: AngleBand, home: KnownHorn): PredictedBand | null {
  const [elevation, lateral] = [isAngleSeen(home.sdDeg), isAngleSeen(home.lateralSdDeg)];
  if (!elevation && !lateral) return null;
  return {
    elevationSdDeg: elevation ? Math.hypot(change.elevationSdDeg, home.sdDeg) : null,
    lateralSdDeg: lateral ? Math.hypot(change.lateralSdDeg, home.lateralSdDeg) : null,
  };
}

const partOf = (name: UnknownName, change: HornAngles): BandPart => ({
  name,
  elevationSdDeg: Math.abs(change.elevationDeg),
  lateralSdDeg: Math.abs(change.lateralDeg),
});

const size = (part: AngleBand): number => Math.hypot(part.elevationSdDeg, part.lateralSdDeg);

function together(parts: readonly AngleBand[]): AngleBand {
  return {
    elevationSdDeg: Math.hypot(...parts.map((part) => part.elevationSdDeg)),
    lateralSdDeg: Math.hypot(...parts.map((part) => part.lateralSdDeg)),
  };
}
