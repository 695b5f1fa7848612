/** The seed of a property test: FAST_CHECK_SEED to repeat a run, else the day's number, so that every day tries other values. */
const DAY_MS = 86_400_000;

export const propertySeed: number = seedFrom(process.env.FAST_CHECK_SEED);

/** For a test's title: how to repeat it. */
export const seedWords = `(FAST_CHECK_SEED=${propertySeed})`;

function seedFrom(given: string | undefined): number {
  if (given === undefined || given === '') return Math.floor(Date.now() / DAY_MS);
  const seed = Number(given);
  if (!Number.isInteger(seed)) throw new RangeError(`FAST_CHECK_SEED ${given}: allowed is a whole number`);
  return seed;
}

/** How many runs: PROPERTY_TIMES as many where that is set (`npm run property:long`: 10). */
export const longer = (runs: number): number => runs * Number(process.env.PROPERTY_TIMES ?? 1);
