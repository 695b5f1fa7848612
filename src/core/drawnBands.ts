/** Monte Carlo bands in blocks, each with a stream of random numbers of its own: what is drawn hangs on the seed, not on who draws it. */
import type { Analysis } from './analysis';
import { NINETY_FIVE_PERCENT, computeBands } from './bands';
import { DEFAULT_DEVIATIONS, type Deviations } from './deviations';
import { type DrawnBand, type DrawnChanges, bandOf, drawChanges } from './monteCarlo';
import { createRandom } from './random';
import type { PlayingDirection } from './specs';

export interface ReadingDrawn {
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  /** Of the change from home, degrees. `found`: draws with a seat; 0 for a band of first order. */
  readonly elevation: DrawnBand;
  readonly lateral: DrawnBand;
}

/** Draws of one block: few enough that progress is told and a stop is heard, many enough that a solver of its own is no matter. */
const BLOCK_DRAWS = 100;
const MOST_DRAWS = 100_000;

/** The sizes of the blocks that make up so many draws. Throws RangeError outside 1 to MOST_DRAWS. */
export function blocksOf(draws: number): number[] {
  if (!Number.isInteger(draws) || draws < 1 || draws > MOST_DRAWS) throw new RangeError(`draws: ${draws}; allowed: a whole number from 1 to ${MOST_DRAWS}`);
  return Array.from({ length: Math.ceil(draws / BLOCK_DRAWS) }, (_, block) => Math.min(BLOCK_DRAWS, draws - block * BLOCK_DRAWS));
}

/** Draws blocks of one analysis at a time; made once for each worker. */
export interface BlockDrawer {
  begin(analysis: Analysis): void;
  draw(seed: number, block: number, draws: number, by: Deviations): DrawnChanges;
}

export function createBlockDrawer(): BlockDrawer {
  let analysis: Analysis | null = null;
  return {
    begin(begun) {
      analysis = begun;
    },
    draw(seed, block, draws, by) {
      if (!analysis) throw new TypeError('draw: only after begin');
      return drawChanges(analysis, draws, createRandom(seed, block), by);
    },
  };
}

/** All blocks as one, in the order of the blocks. */
export function mergeBlocks(blocks: readonly DrawnChanges[]): DrawnChanges {
  const [first] = blocks;
  if (!first) throw new RangeError('blocks: none; allowed: at least one');
  const draws = blocks.reduce((sum, block) => sum + block.draws, 0);
  const whole = (which: 'elevationDeg' | 'lateralDeg'): Float64Array => {
    const all = new Float64Array(draws * first.readings);
    let at = 0;
    for (const block of blocks) {
      all.set(block[which], at);
      at += block[which].length;
    }
    return all;
  };
  return { elevationDeg: whole('elevationDeg'), lateralDeg: whole('lateralDeg'), readings: first.readings, draws };
}

/** The band of every reading, in the analysis's order. */
export function bandsOfDraws(analysis: Analysis, drawn: DrawnChanges): ReadingDrawn[] {
  return analysis.readings.map(({ note, midi, direction }, index) => ({
    note,
    midi,
    direction,
    elevation: bandOf(drawn, 'elevationDeg', index),
    lateral: bandOf(drawn, 'lateralDeg', index),
  }));
}

/** The same shape without a single draw: first order, even about the change itself. */
export function bandsOfFirstOrder(analysis: Analysis, by: Deviations = DEFAULT_DEVIATIONS): ReadingDrawn[] {
  const bands = computeBands(analysis, by);
  const even = (mean: number, sd: number): DrawnBand => ({ mean, sd, low: mean - NINETY_FIVE_PERCENT * sd, high: mean + NINETY_FIVE_PERCENT * sd, found: 0 });
  return analysis.readings.map(({ note, midi, direction, changeFromHome }, index) => ({
    note,
    midi,
    direction,
    elevation: even(changeFromHome.elevationDeg, bands[index]!.change.elevationSdDeg),
    lateral: even(changeFromHome.lateralDeg, bands[index]!.change.lateralSdDeg),
  }));
}
