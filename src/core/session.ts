/** A record's arch, rim and lips made ready to seat: one solver for each place the jaw takes, answers in people's words. */
import type { HornAngles, LoadDetail, RimPose, Seated, SeatAnswer, SeatReason } from './analysis';
import { type Arch, type MouthOf, buildArch, mouthOfArch } from './arch';
import { axisFromRadians, frontalPosition, toDegrees, toRadians } from './frame';
import { lipLineOffset } from './lipLine';
import { type LoadReader, createLoadReader } from './load';
import type { Faces } from './gapFace';
import { onceAsked } from './onceAsked';
import type { RimSampling } from './rim';
import { createSeatSolver } from './seat';
import type { SeatFound, SeatResult, SeatSolver, SeatState } from './seatAnswer';
import type { JawSpec, PlayerRecord } from './specs';
import { seatWords } from './words';

/** Where the rim is asked to sit: its centre's place from the origin (mm up, mm to the player's right), force, jaw. */
export interface SeatRequest {
  readonly upMm: number;
  readonly rightMm: number;
  readonly forceN: number;
  /** Null for a single surface, or for the jaw as in the record. */
  readonly jaw: JawSpec | null;
}

export interface SeatSession {
  /** As in the record; the rim rests on it unless something stands in for it. */
  readonly arch: Arch;
  readonly lipLineMm: number;
  readonly jaw: JawSpec | null;
  follow(request: SeatRequest, near?: RimPose, detail?: LoadDetail): SeatAnswer;
  held(request: SeatRequest, horn: HornAngles, near?: RimPose, detail?: LoadDetail): SeatAnswer;
  /** Follow without the load round the rim: for bands, where only the angle is asked. */
  followAngles(request: SeatRequest, near?: SeatState): SeatResult;
}

/** An answer with what was asked: the moving picture often asks what the analysis has just been told. */
interface Remembered {
  readonly request: SeatRequest;
  readonly horn: HornAngles | null;
  readonly detail: LoadDetail;
  readonly answer: SeatAnswer;
}

interface Station {
  follow: Remembered | null;
  held: Remembered | null;
  readonly solver: SeatSolver;
  readonly reader: () => LoadReader;
}

/** Jaw places kept ready at once; the playing path moves through many. */
const STATIONS_KEPT = 24;

/**
 * Throws RangeError, naming the field, where arch or rim cannot be built. `coarse` balances on a small net: angles to about 0.1°. `mouthOf`:
 * what stands in for the arch under the rim, if anything does.
 */
export function createSeatSession(record: PlayerRecord, coarse?: RimSampling, mouthOf: MouthOf = mouthOfArch): SeatSession {
  const arch = buildArch(record.arch);
  const mouth = mouthOf(arch);
  const lipLineMm = lipLineOffset(record.rim, record.upperLipShare);
  const stations = new Map<string, Station>();

  /** For places the jaw only passes through, as the picture moves: one station whose lower jaw is moved. */
  let passing: Station | null = null;

  const makeStation = (at: Faces): Station => {
    const setup = { arch: at, rim: record.rim, lips: record.lips, lipLineMm, ...(coarse ? { coarse } : {}) };
    return { follow: null, held: null, solver: createSeatSolver(setup), reader: onceAsked(() => createLoadReader(setup)) };
  };

  const stationFor = (jaw: JawSpec | null, detail: LoadDetail = 'full'): Station => {
    const stands = jaw ?? arch.jaw;
    const key = stands === null ? '' : [stands.openingMm, stands.forwardMm, stands.hingeDeg, stands.hingeArmMm].join(' ');
    const ready = stations.get(key);
    if (ready) return ready;
    if (detail === 'glance' && jaw !== null && arch.lower !== null) {
      passing ??= makeStation(mouth.at(null));
      const lower = mouth.lowerAt(jaw);
      passing.solver.moveLower(lower);
      passing.reader().moveLower(lower);
      passing.follow = null;
      passing.held = null;
      return passing;
    }
    const station = makeStation(mouth.at(jaw));
    if (stations.size >= STATIONS_KEPT) stations.delete(stations.keys().next().value ?? '');
    stations.set(key, station);
    return station;
  };

  const answer = (station: Station, request: SeatRequest, seat: SeatResult, held: boolean, detail: LoadDetail): SeatAnswer => {
    if (!seat.found) return unseated(seat.reason);
    const { x, y } = frontalPosition(request.upMm, request.rightMm);
    const load = station.reader().read(station.solver.energy, x, y, seat, request.forceN, held, detail);
    if (typeof load === 'string') return unseated(load);
    return {
      kind: 'seated',
      pose: poseOf(x, y, seat),
      load,
      trace: { iterations: seat.iterations, forceResidual: seat.forceResidual, momentResidual: held ? 0 : seat.momentResidual },
    };
  };

  return {
    arch,
    lipLineMm,
    jaw: arch.jaw,
    follow(request, near, detail = 'full') {
      const station = stationFor(request.jaw, detail);
      if (station.follow && answers(station.follow, request, null, detail)) return station.follow.answer;
      const { x, y } = frontalPosition(request.upMm, request.rightMm);
      const seat = station.solver.follow(x, y, request.forceN, near && stateOf(near), detail);
      station.follow = { request, horn: null, detail, answer: answer(station, request, seat, false, detail) };
      return station.follow.answer;
    },
    held(request, horn, near, detail = 'full') {
      const station = stationFor(request.jaw, detail);
      if (station.held && answers(station.held, request, horn, detail)) return station.held.answer;
      const { x, y } = frontalPosition(request.upMm, request.rightMm);
      const elevation = toRadians(horn.elevationDeg);
      const lateral = toRadians(horn.lateralDeg);
      const seat = station.solver.held(x, y, request.forceN, elevation, lateral, near?.rimCentreMm[2], detail);
      station.held = { request, horn, detail, answer: answer(station, request, seat, true, detail) };
      return station.held.answer;
    },
    followAngles(request, near) {
      const { x, y } = frontalPosition(request.upMm, request.rightMm);
      return stationFor(request.jaw).solver.follow(x, y, request.forceN, near);
    },
  };
}

function answers(kept: Remembered, asked: SeatRequest, horn: HornAngles | null, detail: LoadDetail): boolean {
  const { request } = kept;
  return (
    (kept.detail === 'full' || detail === 'glance') &&
    request.upMm === asked.upMm && request.rightMm === asked.rightMm && request.forceN === asked.forceN &&
    kept.horn?.elevationDeg === horn?.elevationDeg && kept.horn?.lateralDeg === horn?.lateralDeg
  );
}

export function unseated(reason: SeatReason): SeatAnswer {
  return { kind: 'unseated', reason, words: seatWords(reason) };
}

/** The solver's state of a pose, to start near it. */
export function stateOf(pose: RimPose): SeatState {
  return { z: pose.rimCentreMm[2], elevation: toRadians(pose.elevationDeg), lateral: toRadians(pose.lateralDeg) };
}

function poseOf(x: number, y: number, seat: SeatFound): RimPose {
  return {
    elevationDeg: plusZero(toDegrees(seat.elevation)),
    lateralDeg: plusZero(toDegrees(seat.lateral)),
    rimCentreMm: [plusZero(x), plusZero(y), seat.z],
    axis: axisFromRadians(seat.elevation, seat.lateral),
  };
}

export const changeBetween = (from: HornAngles, to: HornAngles): HornAngles => ({
  elevationDeg: to.elevationDeg - from.elevationDeg,
  lateralDeg: to.lateralDeg - from.lateralDeg,
});

export const isSeated = (answer: SeatAnswer): answer is Seated => answer.kind === 'seated';

/** −0 would be printed and compared as another number. */
const plusZero = (value: number): number => (value === 0 ? 0 : value);
