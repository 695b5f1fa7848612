/**
 * One thing followed through the frames, as text: in which frames it is there, then each of its numbers as steps from one frame that
 * has it to the next.
 */
import { type NumberReader, packNumbers, readNumbers } from './packedNumbers';

/** How one kind of number is stepped, and which whole numbers of steps may be kept. */
export interface Steps {
  readonly perUnit: number;
  readonly lowest: number;
  readonly highest: number;
}

/** What is kept of one thing in one frame, number by number: `take` in whole steps, `make` from numbers in their own units. */
export interface Channels<T> {
  readonly steps: readonly Steps[];
  take(value: T): readonly number[];
  make(numbers: readonly number[]): T;
}

/** Characters of one series: a rim whose every value jumps as far as it may takes 37 a frame, one that moves as rims do 5 to 7. */
export const LONGEST_SERIES = 3_000_000;

/** The nearest step. Throws RangeError with `field` for what is not finite or out of range. */
export function stepped(field: string, value: number, { perUnit, lowest, highest }: Steps): number {
  // Adding 0 makes −0 the 0 that comes back.
  const steps = Math.round(value * perUnit) + 0;
  if (!(steps >= lowest && steps <= highest)) {
    throw new RangeError(`${field}: ${value}; allowed: from ${lowest / perUnit} to ${highest / perUnit}`);
  }
  return steps;
}

/** null stands for a frame without it. The answer is null where no frame has it. */
export function packSeries<T>(series: readonly (T | null)[], { steps, take }: Channels<T>): string | null {
  const values = series.flatMap((value) => (value === null ? [] : [take(value)]));
  if (values.length === 0) return null;
  return packNumbers([...runsOf(series), ...steps.flatMap((_, channel) => differences(values.map((value) => value[channel] as number)))]);
}

/** null: not a series of `count` frames, or with a number that may not be kept. */
export function readSeries<T>(text: string, count: number, { steps, make }: Channels<T>): readonly (T | null)[] | null {
  const reader = readNumbers(text, LONGEST_SERIES);
  const present = reader === null ? null : readRuns(reader, count);
  if (reader === null || present === null) return null;
  const seen = present.filter((here) => here).length;
  const channels: (readonly number[])[] = [];
  for (const allowed of steps) {
    const values = inUnits(readDifferences(reader, seen), allowed);
    if (values === null) return null;
    channels.push(values);
  }
  if (!reader.isAtEnd()) return null;
  let at = -1;
  return present.map((here) => {
    if (!here) return null;
    at++;
    return make(channels.map((channel) => channel[at] as number));
  });
}

/** Frames follow each other evenly or nearly so: differences of differences are all but 0. Whole steps. */
export function packTimes(times: readonly number[]): string {
  return packNumbers(differences(differences(times)));
}

/** In their own unit; null: not `count` times, or one that may not be kept. */
export function readTimes(text: string, count: number, allowed: Steps): readonly number[] | null {
  const reader = readNumbers(text, LONGEST_SERIES);
  const second = reader === null ? null : readDifferences(reader, count);
  if (reader === null || second === null || !reader.isAtEnd()) return null;
  return inUnits(summed(second), allowed);
}

function inUnits(values: readonly number[] | null, { perUnit, lowest, highest }: Steps): readonly number[] | null {
  if (values === null || !values.every((value) => value >= lowest && value <= highest)) return null;
  return values.map((value) => value / perUnit);
}

/** How many frames in a row have it, how many have not, and so on in turn; only the first may be 0. */
function runsOf(series: readonly unknown[]): number[] {
  const runs: number[] = [];
  let run = 0;
  let here = true;
  for (const value of series) {
    if ((value !== null) !== here) {
      runs.push(run);
      here = !here;
      run = 0;
    }
    run++;
  }
  return [...runs, run];
}

function readRuns(reader: NumberReader, count: number): boolean[] | null {
  const present: boolean[] = [];
  let here = true;
  do {
    const run = reader.next();
    const isFirst = here && present.length === 0;
    if (run === null || run < (isFirst ? 0 : 1) || run > count - present.length) return null;
    for (let frame = 0; frame < run; frame++) present.push(here);
    here = !here;
  } while (present.length < count);
  return present;
}

function differences(values: readonly number[]): number[] {
  return values.map((value, at) => value - (values[at - 1] ?? 0));
}

function readDifferences(reader: NumberReader, count: number): number[] | null {
  const steps: number[] = [];
  for (let at = 0; at < count; at++) {
    const step = reader.next();
    if (step === null) return null;
    steps.push(step);
  }
  return summed(steps);
}

function summed(steps: readonly number[]): number[] {
  let sum = 0;
  return steps.map((step) => (sum += step));
}
