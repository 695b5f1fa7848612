/**
 * How sure a change from home is: first-order propagation of what is not known through the seat, by central differences one
 * deviation wide. Checked against Monte Carlo (monteCarlo.ts) in tests/reference/bands.test.ts. docs/numerics.md §9.
 */
import type { Analysis, AngleBand, ReadingAnalysis } from './analysis';
import { toDegrees } from './frame';
import { DEFAULT_DEVIATIONS, type Deviations, mouthUnknowns, movedJaw } from './deviations';
import { COARSE_SAMPLING } from './rim';
import type { SeatFound } from './seatAnswer';
import { type SeatRequest, type SeatSession, createSeatSession, stateOf } from './session';
import type { PlayerRecord } from './specs';

/** One thing that widens a band, and by how much (degrees, one deviation). */
export interface BandPart extends AngleBand {
  readonly name: string;
}

export interface ReadingBand {
  /** Of changeFromHome: one standard deviation. */
  readonly change: AngleBand;
  /** Of predictedHorn: with the measured home angle's own deviation; null without one. */
  readonly predicted: AngleBand | null;
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
  const { record } = analysis;
  const session = createSeatSession(record, COARSE_SAMPLING);
  const readings = analysis.readings;
  const parts: BandPart[][] = readings.map(() => []);
  const complete = readings.map(() => true);
  const unknowns = mouthUnknowns(record, by);
  const add = (index: number, name: string, high: Change | null, low: Change | null): void => {
    if (!high || !low) {
      complete[index] = false;
      return;
    }
    parts[index]!.push({
      name,
      elevationSdDeg: Math.abs(high.elevation - low.elevation) / 2,
      lateralSdDeg: Math.abs(high.lateral - low.lateral) / 2,
    });
  };

  let done = 0;
  for (const unknown of unknowns) {
    const [high, low] = [1, -1].map((sds) => changes(analysis, unknown.moved(record, sds), 0));
    readings.forEach((_, index) => {
      add(index, unknown.name, high?.[index] ?? null, low?.[index] ?? null);
    });
    yield ++done / (unknowns.length + 3);
  }
  for (const [name, moves] of [
    ['force', [1, -1].map((sds) => changes(analysis, record, 0, Math.exp(sds * by.forcePart)))],
    ['home place', [by.homeUpMm, -by.homeUpMm].map((up) => changes(analysis, record, up))],
  ] as const) {
    readings.forEach((_, index) => {
      add(index, name, moves[0]?.[index] ?? null, moves[1]?.[index] ?? null);
    });
    yield ++done / (unknowns.length + 3);
  }
  const home = angles(session, requestAt(analysis, null, 0, 1), analysis.home.follow);
  readings.forEach((reading, index) => {
    const request = requestAt(analysis, reading, 0, 1);
    const at = (moved: Partial<SeatRequest>): Change | null => {
      const found = angles(session, { ...request, ...moved }, reading.follow);
      return found && home && { elevation: found.elevation - home.elevation, lateral: found.lateral - home.lateral };
    };
    const sd = reading.travel.sdMm;
    if (sd > 0 && !isHome(analysis, reading)) {
      add(index, 'travel up', at({ upMm: request.upMm + sd }), at({ upMm: request.upMm - sd }));
      add(index, 'travel to the side', at({ rightMm: request.rightMm + sd }), at({ rightMm: request.rightMm - sd }));
    }
    const jaw = request.jaw ?? session.jaw;
    if (jaw && !reading.jawKnown && !isHome(analysis, reading)) {
      add(index, 'jaw\'s opening', at({ jaw: movedJaw(jaw, 1, 0, by) }), at({ jaw: movedJaw(jaw, -1, 0, by) }));
      add(index, 'jaw forward or back', at({ jaw: movedJaw(jaw, 0, 1, by) }), at({ jaw: movedJaw(jaw, 0, -1, by) }));
    }
  });
  const homeSd = analysis.home.measured?.sdDeg;
  return readings.map((_, index) => {
    const change = together(parts[index]!);
    return {
      change,
      predicted:
        homeSd === undefined
          ? null
          : { elevationSdDeg: Math.hypot(change.elevationSdDeg, homeSd), lateralSdDeg: Math.hypot(change.lateralSdDeg, homeSd) },
      parts: parts[index]!.slice().sort((a, b) => size(b) - size(a)),
      complete: complete[index]!,
    };
  });
}

interface Change {
  readonly elevation: number;
  readonly lateral: number;
}

/** At the home note with no travel a reading is home itself: there is no error of its own between the two. */
export function isHome(analysis: Analysis, reading: ReadingAnalysis): boolean {
  return reading.midi === analysis.home.midi && reading.travel.upMm === 0 && reading.travel.rightMm === 0;
}

const size = (part: AngleBand): number => Math.hypot(part.elevationSdDeg, part.lateralSdDeg);

function together(parts: readonly AngleBand[]): AngleBand {
  return {
    elevationSdDeg: Math.hypot(...parts.map((part) => part.elevationSdDeg)),
    lateralSdDeg: Math.hypot(...parts.map((part) => part.lateralSdDeg)),
  };
}

/** Change from home at every reading for a moved mouth; null where that mouth or a reading has no seat. */
function changes(analysis: Analysis, record: PlayerRecord, homeUpMm: number, forceTimes = 1): (Change | null)[] | null {
  const session = sessionOrNull(record);
  if (!session) return null;
  const home = angles(session, requestAt(analysis, null, homeUpMm, forceTimes), analysis.home.follow);
  if (!home) return null;
  return analysis.readings.map((reading) => {
    const found = angles(session, requestAt(analysis, reading, homeUpMm, forceTimes), reading.follow);
    return found && { elevation: found.elevation - home.elevation, lateral: found.lateral - home.lateral };
  });
}

function requestAt(analysis: Analysis, reading: ReadingAnalysis | null, homeUpMm: number, forceTimes: number): SeatRequest {
  const { home, record } = analysis;
  const atHome = reading ?? analysis.readings.find((each) => each.midi === home.midi) ?? null;
  return {
    upMm: home.upMm + homeUpMm + (reading?.travel.upMm ?? 0),
    rightMm: home.rightMm + (reading?.travel.rightMm ?? 0),
    forceN: (atHome?.forceN ?? record.force.newtons) * forceTimes,
    jaw: atHome?.jaw ?? null,
  };
}

function angles(session: SeatSession, request: SeatRequest, near: ReadingAnalysis['follow']): Change | null {
  const result = session.followAngles(request, stateOf(near.pose));
  return result.found ? inDegrees(result) : null;
}

const inDegrees = (seat: SeatFound): Change => ({ elevation: toDegrees(seat.elevation), lateral: toDegrees(seat.lateral) });

/** A mouth moved past what can be built is no fault of the record's: its part is left out and said so (`complete`). */
function sessionOrNull(record: PlayerRecord): SeatSession | null {
  try {
    return createSeatSession(record, COARSE_SAMPLING);
  } catch (fault) {
    if (fault instanceof RangeError) return null;
    throw fault;
  }
}
