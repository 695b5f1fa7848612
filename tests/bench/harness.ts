/**
 * Measures how costs compare within one run. Times say little across machines, so what counts is each case's ratio to the
 * first case of its group: the cases of a group take turns round by round, and a ratio is formed within each round.
 */
import { createRandom, type Random } from '../../src/core/random';

/** Cases that answer one question; the first is the yardstick of the ratios. */
export interface BenchGroup {
  readonly title: string;
  /** Every case is prepared from this seed anew, so all of a group meet the same inputs. */
  readonly seed: number;
  readonly cases: readonly (TimedCase | MeasuredCase)[];
  /** Default 40. */
  readonly rounds?: number;
}

/** Work that is timed. */
export interface TimedCase {
  readonly name: string;
  /** Called once, outside the timing. What the work returns is used, so that no compiler can leave the work out. */
  readonly prepare: (random: Random) => Work | Promise<Work>;
  /** Pieces of work one call does; the times are per piece. Default 1. */
  readonly piecesPerCall?: number;
}
export type Work = () => number | Promise<number>;

/** Something other than the time of a function: a size in kB, a page's milliseconds a frame. */
export interface MeasuredCase {
  readonly name: string;
  readonly unit: string;
  readonly measure: (random: Random) => readonly number[] | Promise<readonly number[]>;
}

export interface Spread {
  readonly lowerQuartile: number;
  readonly median: number;
  readonly upperQuartile: number;
}

export interface CaseResult {
  readonly name: string;
  /** 's' for timed cases. */
  readonly unit: string;
  readonly samples: number;
  readonly value: Spread;
  /** To the group's first case, where the unit is the same. */
  readonly ratio: Spread | null;
}

export type Clock = () => number;

export interface GroupResult {
  readonly title: string;
  readonly seed: number;
  readonly cases: readonly CaseResult[];
}

/** `clock` tells milliseconds; only tests of the harness hand in another. */
export async function runGroup(group: BenchGroup, clock: Clock = () => performance.now()): Promise<GroupResult> {
  const timed = new Map<TimedCase, Timing>();
  for (const one of group.cases) if ('prepare' in one) timed.set(one, await warmUp(one, createRandom(group.seed), clock));
  for (let round = 0; round < (group.rounds ?? 40); round += 1) {
    for (const timing of timed.values()) timing.seconds.push(await sample(timing, clock));
  }
  const results: { name: string; unit: string; values: readonly number[] }[] = [];
  for (const one of group.cases) {
    results.push(
      'prepare' in one
        ? { name: one.name, unit: 's', values: timed.get(one)?.seconds ?? [] }
        : { name: one.name, unit: one.unit, values: await one.measure(createRandom(group.seed)) },
    );
  }
  const yardstick = results[0];
  return {
    title: group.title,
    seed: group.seed,
    cases: results.map(({ name, unit, values }) => ({
      name,
      unit,
      samples: values.length,
      value: spread(values),
      ratio: yardstick && yardstick.unit === unit ? spread(ratios(values, yardstick.values)) : null,
    })),
  };
}

/** Median and quartiles, between neighbours by straight line. Throws on an empty list or a number that is not finite. */
export function spread(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b);
  if (sorted.length === 0 || !sorted.every(Number.isFinite)) {
    throw new RangeError(`spread: values (${values.join(', ')}); allowed: one or more finite numbers`);
  }
  const at = (part: number): number => {
    const place = part * (sorted.length - 1);
    const below = sorted[Math.floor(place)] ?? NaN;
    const above = sorted[Math.ceil(place)] ?? NaN;
    return below + (above - below) * (place - Math.floor(place));
  };
  return { lowerQuartile: at(0.25), median: at(0.5), upperQuartile: at(0.75) };
}

interface Timing {
  readonly work: Work;
  readonly calls: number;
  readonly piecesPerCall: number;
  readonly seconds: number[];
}

/** Long enough for the compiler to settle, and for a sample to be large beside the clock's step. */
const warmUpMs = 300;
const sampleMs = 4;

async function warmUp(one: TimedCase, random: Random, clock: Clock): Promise<Timing> {
  const work = await one.prepare(random);
  const started = clock();
  let calls = 0;
  let halfTime = { calls: 0, ms: 0 };
  for (let ms = 0; ms < warmUpMs || calls < 3; ms = clock() - started) {
    keep(await work());
    calls += 1;
    if (ms < warmUpMs / 2) halfTime = { calls, ms: clock() - started };
  }
  // The later half tells the pace of settled code.
  const settledMs = (clock() - started - halfTime.ms) / Math.max(1, calls - halfTime.calls);
  return { work, calls: Math.max(1, Math.ceil(sampleMs / settledMs)), piecesPerCall: one.piecesPerCall ?? 1, seconds: [] };
}

async function sample({ work, calls, piecesPerCall }: Timing, clock: Clock): Promise<number> {
  let total = 0;
  const started = clock();
  for (let call = 0; call < calls; call += 1) {
    const answer = work();
    // Waiting costs a turn of the event loop's queue: only work that asks for it pays.
    total += typeof answer === 'number' ? answer : await answer;
  }
  const seconds = (clock() - started) / 1000;
  keep(total);
  return seconds / (calls * piecesPerCall);
}

/** Round by round where both took the same rounds, else to the yardstick's median. */
function ratios(values: readonly number[], yardstick: readonly number[]): number[] {
  const middle = spread(yardstick).median;
  const paired = values.length === yardstick.length;
  return values.map((value, round) => value / (paired ? (yardstick[round] ?? middle) : middle));
}

let kept = 0;
function keep(value: number): void {
  kept += value;
  if (Number.isNaN(kept)) throw new Error('a benchmark answered NaN: what it times does not work');
}
