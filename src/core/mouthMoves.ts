/**
 * How every swing moves with each thing that is not known, signed: central differences one deviation wide, through the seat on a
 * coarse net. What bands, the follow ratio and the player's own shape are made from. docs/numerics.md §9.
 */
import type { Analysis, HornAngles, ReadingAnalysis } from './analysis';
import { DEFAULT_DEVIATIONS, type Deviations, carriedJaw, mouthUnknowns, movedJaw } from './deviations';
import { toDegrees } from './frame';
import { COARSE_SAMPLING } from './rim';
import { type SeatRequest, type SeatSession, changeBetween, createSeatSession, stateOf } from './session';
import type { PlayerRecord } from './specs';
import type { UnknownName } from './unknownName';

/** Something that is the same at every note, moved by one deviation. */
export interface SharedMove {
  readonly name: UnknownName;
  /** Of home's own angle; null where that mouth has no seat at home. */
  readonly home: HornAngles | null;
  /** Of the change from home, for each reading of the analysis; null where that mouth has no seat there. */
  readonly readings: readonly (HornAngles | null)[];
}

/** Something of one reading's own, moved by one deviation: of its change from home. */
export interface OwnMove {
  readonly name: UnknownName;
  /** Null where it finds no seat. */
  readonly change: HornAngles | null;
}

/** Degrees for one deviation: half the difference between one more and one less. */
export interface MouthMoves {
  readonly shared: readonly SharedMove[];
  /** For each reading of the analysis: its travel and, where it was not seen, its jaw. None at home itself. */
  readonly own: readonly (readonly OwnMove[])[];
}

/** All moves at once; runs `moveSteps` to its end. */
export function computeMoves(analysis: Analysis, by: Deviations = DEFAULT_DEVIATIONS): MouthMoves {
  const steps = moveSteps(analysis, by);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/** The same in steps of some milliseconds, so that a page can breathe between them; yields the part done, 0 to 1. */
export function* moveSteps(analysis: Analysis, by: Deviations = DEFAULT_DEVIATIONS): Generator<number, MouthMoves> {
  const { record } = analysis;
  const unknowns = mouthUnknowns(record, by);
  const both = (seat: (sds: number) => Seats | null): readonly [Seats | null, Seats | null] => [seat(1), seat(-1)];
  const shared: SharedMove[] = [];
  for (const { name, moved } of unknowns) {
    shared.push(sharedMove(analysis, name, both((sds) => seats(analysis, moved(record, sds), 0))));
    yield shared.length / (unknowns.length + 3);
  }
  for (const [name, seat] of [
    ['force', (sds: number) => seats(analysis, record, 0, Math.exp(sds * by.forcePart))],
    ['home place', (sds: number) => seats(analysis, record, sds * by.homeUpMm)],
  ] as const) {
    shared.push(sharedMove(analysis, name, both(seat)));
    yield shared.length / (unknowns.length + 3);
  }
  return { shared, own: ownMoves(analysis, by) };
}

/** At the home note with no travel a reading is home itself: there is no error of its own between the two. */
export function isHome(analysis: Analysis, reading: ReadingAnalysis): boolean {
  return reading.midi === analysis.home.midi && reading.travel.upMm === 0 && reading.travel.rightMm === 0;
}

function ownMoves(analysis: Analysis, by: Deviations): OwnMove[][] {
  const session = createSeatSession(analysis.record, COARSE_SAMPLING);
  const home = angles(session, requestAt(analysis, null, 0, 1), analysis.home.follow);
  return analysis.readings.map((reading) => {
    if (isHome(analysis, reading)) return [];
    const request = requestAt(analysis, reading, 0, 1);
    const at = (moved: Partial<SeatRequest>): HornAngles | null => {
      const found = angles(session, { ...request, ...moved }, reading.follow);
      return found && home && changeBetween(home, found);
    };
    const own = (name: UnknownName, high: Partial<SeatRequest>, low: Partial<SeatRequest>): OwnMove => ({ name, change: half(at(high), at(low)) });
    const { sdMm, rightSdMm } = reading.travel;
    const travel = [
      ...(sdMm > 0 ? [own('travel up', { upMm: request.upMm + sdMm }, { upMm: request.upMm - sdMm })] : []),
      ...(rightSdMm > 0 ? [own('travel to the side', { rightMm: request.rightMm + rightSdMm }, { rightMm: request.rightMm - rightSdMm })] : []),
    ];
    const jaw = request.jaw ?? session.jaw;
    if (!jaw || reading.jawKnown) return travel;
    return [
      ...travel,
      own('jaw\'s opening', { jaw: movedJaw(jaw, 1, 0, by) }, { jaw: movedJaw(jaw, -1, 0, by) }),
      own('jaw forward or back', { jaw: movedJaw(jaw, 0, 1, by) }, { jaw: movedJaw(jaw, 0, -1, by) }),
    ];
  });
}

/** Where one mouth holds the horn: home's angle, and every reading's change from it. */
export interface Seats {
  readonly home: HornAngles;
  readonly changes: readonly (HornAngles | null)[];
}

function sharedMove(analysis: Analysis, name: UnknownName, [high, low]: readonly [Seats | null, Seats | null]): SharedMove {
  return {
    name,
    home: half(high?.home ?? null, low?.home ?? null),
    readings: analysis.readings.map((_, index) => half(high?.changes[index] ?? null, low?.changes[index] ?? null)),
  };
}

function half(high: HornAngles | null, low: HornAngles | null): HornAngles | null {
  if (!high || !low) return null;
  return { elevationDeg: (high.elevationDeg - low.elevationDeg) / 2, lateralDeg: (high.lateralDeg - low.lateralDeg) / 2 };
}

/** Where another mouth would hold the horn in an analysis's readings (coarse net); null where it cannot be built or has no seat at home. */
export function seats(analysis: Analysis, record: PlayerRecord, homeUpMm = 0, forceTimes = 1): Seats | null {
  const session = sessionOrNull(record);
  if (!session) return null;
  const request = (reading: ReadingAnalysis | null): SeatRequest => {
    const asked = requestAt(analysis, reading, homeUpMm, forceTimes);
    return asked.jaw === null ? asked : { ...asked, jaw: carriedJaw(asked.jaw, analysis.record, record) };
  };
  const home = angles(session, request(null), analysis.home.follow);
  if (!home) return null;
  return {
    home,
    changes: analysis.readings.map((reading) => {
      const found = angles(session, request(reading), reading.follow);
      return found && changeBetween(home, found);
    }),
  };
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

function angles(session: SeatSession, request: SeatRequest, near: ReadingAnalysis['follow']): HornAngles | null {
  const seat = session.followAngles(request, stateOf(near.pose));
  return seat.found ? { elevationDeg: toDegrees(seat.elevation), lateralDeg: toDegrees(seat.lateral) } : null;
}

/** A mouth moved past what can be built is no fault of the record's: its part is left out and said so. */
function sessionOrNull(record: PlayerRecord): SeatSession | null {
  try {
    return createSeatSession(record, COARSE_SAMPLING);
  } catch (fault) {
    if (fault instanceof RangeError) return null;
    throw fault;
  }
}
