/** One random record put to the test: an answer must be true, and what has no answer must say why. */
import { analyse, homePlace, workingsOf } from '../../src/core/analyse';
import type { Seated } from '../../src/core/analysis';
import { buildArch } from '../../src/core/arch';
import { frontalPosition } from '../../src/core/frame';
import { lipLineOffset } from '../../src/core/lipLine';
import { createLoadReader } from '../../src/core/load';
import { createSeatSolver } from '../../src/core/seat';
import { stateOf } from '../../src/core/session';
import type { PlayerRecord } from '../../src/core/specs';
import { HomeUnseatedError, seatWords } from '../../src/core/words';
import { type Allowance, evenEnergy, notFinite, provenFault } from './checkSeat';
import { parseRecord } from './records';

export type Outcome = 'seated' | 'unseated' | 'refused arch';

/** The net for the many trials; the fewer, whole ones use 256 azimuths. */
const QUICK_AZIMUTHS = 96;

/** The whole analysis. Throws where the record is invalid, a number is not finite, or a claimed seat is none. */
export function tryAnalysis(record: PlayerRecord, allowance: Allowance): Outcome {
  mustParse(record);
  const analysis = answerOf(() => analyse(record));
  if (typeof analysis === 'string') return analysis;
  mustBe(notFinite({ home: analysis.home, readings: analysis.readings }));
  const { session } = workingsOf(analysis);
  // The generated readings leave the jaw where the record has it.
  const even = evenEnergy(record, session.arch, session.lipLineMm);
  const check = (what: string, { pose, load }: Seated, forceN: number, free: boolean): void => {
    const [x, y] = pose.rimCentreMm;
    mustBe(provenFault(record, session.arch, session.lipLineMm, even, () => false, allowance, x, y, stateOf(pose), forceN, free), what);
    const { share, lipShare, contactFraction } = load;
    // One half can carry more than the whole where the other wraps behind an edge and is pushed forward; together they are one.
    for (const whole of [share.upper + share.lower, share.right + share.left, lipShare.upper + lipShare.lower]) {
      if (!(Math.abs(whole - 1) <= 1e-9)) throw new Error(`${what}: shares that make ${whole}`);
    }
    if (!(contactFraction > 0 && contactFraction <= 1 + 1e-9)) throw new Error(`${what}: a contact of ${contactFraction}`);
    if (!(load.peakOverMeanPressure > 0)) throw new Error(`${what}: a peak of ${load.peakOverMeanPressure}`);
  };
  check('home', analysis.home.follow, record.force.newtons, true);
  for (const reading of analysis.readings) {
    check('follow', reading.follow, reading.forceN, true);
    check('held', reading.held, reading.forceN, false);
  }
  if (analysis.readings.length + analysis.problems.length !== record.readings.length) throw new Error('a reading went missing');
  for (const problem of analysis.problems) if (problem.words.length === 0) throw new Error('a problem without words');
  return analysis.readings.length > 0 ? 'seated' : 'unseated';
}

/** One seat alone, at the record's first reading: many times quicker. */
export function trySeat(record: PlayerRecord, allowance: Allowance): Outcome {
  mustParse(record);
  const setup = answerOf(() => ({ arch: buildArch(record.arch), rim: record.rim, lips: record.lips, lipLineMm: lipLineOffset(record.rim, record.upperLipShare) }));
  if (typeof setup === 'string') return setup;
  const solver = createSeatSolver(setup);
  const home = homePlace(record);
  const travel = record.readings[0]!.travel!;
  const { x, y } = frontalPosition(home.upMm + travel.upMm, home.rightMm + travel.rightMm);
  const seat = solver.follow(x, y, record.force.newtons);
  mustBe(notFinite(seat));
  if (!seat.found) {
    if (!(seatWords(seat.reason).length > 0)) throw new Error(`no words for ${seat.reason}`);
    return 'unseated';
  }
  if (!(seat.forceResidual <= 1e-9 && seat.momentResidual <= 1e-9)) throw new Error(`residuals ${seat.forceResidual}, ${seat.momentResidual}`);
  const even = evenEnergy(record, setup.arch, setup.lipLineMm, QUICK_AZIMUTHS);
  let outcome: Outcome = 'seated';
  // What lies between the solver's own nodes is refused when the load is read.
  const refused = (): boolean => {
    const load = createLoadReader(setup).read(solver.energy, x, y, seat, record.force.newtons, false);
    if (typeof load === 'string' && seatWords(load).length > 0) outcome = 'unseated';
    return outcome === 'unseated';
  };
  const fault = provenFault(record, setup.arch, setup.lipLineMm, even, refused, allowance, x, y, seat, record.force.newtons, true);
  mustBe(fault, 'follow');
  return outcome;
}

function mustParse(record: PlayerRecord): void {
  const parsed = parseRecord(record);
  if (parsed.kind === 'refused') throw new Error(`the generator made an invalid record: ${parsed.message}`);
}

function mustBe(fault: string | null, what = 'answer'): void {
  if (fault !== null) throw new Error(`${what}: ${fault}`);
}

/** A refusal that names its field, or a home without a seat, is an answer; anything else thrown is a fault. */
function answerOf<T>(make: () => T): T | Outcome {
  try {
    return make();
  } catch (error) {
    if (error instanceof HomeUnseatedError && error.message.length > 0) return 'unseated';
    if (error instanceof RangeError && error.message.includes(': allowed is ')) return 'refused arch';
    throw error;
  }
}
