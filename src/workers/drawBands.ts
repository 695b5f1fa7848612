/** Bands by Monte Carlo beside the page: up to two workers draw blocks, and the page goes on. docs/numerics.md §16. */
import type { Analysis } from '../core/analysis';
import { DEFAULT_DEVIATIONS, type Deviations } from '../core/deviations';
import { type ReadingDrawn, bandsOfDraws, bandsOfFirstOrder, blocksOf, mergeBlocks } from '../core/drawnBands';
import type { DrawnChanges } from '../core/monteCarlo';
import { type BandPool, type LentWorker, createBandPool } from './bandPool';

export interface BandsAsked {
  readonly draws: number;
  /** Whole; the same seed gives the same bands, however many workers there are. */
  readonly seed: number;
  readonly by?: Deviations;
  /** Part done, 0 to 1. */
  readonly onProgress?: (part: number) => void;
  readonly signal?: AbortSignal;
  /** Whose workers are lent, and go back to it; absent, workers of this drawing's own, ended with it. */
  readonly pool?: BandPool;
  /** 1 or 2; absent, 2. */
  readonly workers?: number;
}

export type BandsAnswer =
  /** `first-order`: no worker could be had, so nothing was drawn. */
  | { readonly kind: 'drawn'; readonly method: 'drawn' | 'first-order'; readonly readings: readonly ReadingDrawn[] }
  | { readonly kind: 'stopped' }
  /** A sentence for people. */
  | { readonly kind: 'failed'; readonly words: string };

const MOST_WORKERS = 2;

/**
 * Bands for every reading of the analysis, in its order. A stop (`signal`) ends the workers at once, in the middle of a draw. Rejects only
 * for what a caller did wrong: RangeError for `draws`.
 */
export async function drawBands(analysis: Analysis, asked: BandsAsked): Promise<BandsAnswer> {
  const blocks = blocksOf(asked.draws);
  const { signal } = asked;
  if (signal?.aborted) return { kind: 'stopped' };
  const by = asked.by ?? DEFAULT_DEVIATIONS;
  const pool = asked.pool ?? createBandPool();
  const workers = pool.lend(Math.min(asked.workers ?? MOST_WORKERS, MOST_WORKERS, blocks.length));
  if (workers.length === 0) return firstOrder(analysis, by);
  let isWhole = false;
  let onStop: (() => void) | undefined;
  const stopped = new Promise<'stopped'>((resolve) => {
    onStop = () => resolve('stopped');
    signal?.addEventListener('abort', onStop, { once: true });
  });
  try {
    const end = await Promise.race([drawAll(workers, analysis, blocks, by, asked), stopped, ...workers.map(({ broken }) => broken)]);
    if (end === 'stopped') return { kind: 'stopped' };
    if (end === 'broken') return firstOrder(analysis, by);
    isWhole = true;
    return { kind: 'drawn', method: 'drawn', readings: bandsOfDraws(analysis, mergeBlocks(end)) };
  } catch (fault) {
    return { kind: 'failed', words: fault instanceof Error ? fault.message : String(fault) };
  } finally {
    if (onStop) signal?.removeEventListener('abort', onStop);
    // Only what has done all its work is at rest; anything else may still be drawing.
    for (const worker of workers) {
      if (isWhole) worker.giveBack();
      else worker.end();
    }
    if (asked.pool === undefined) pool.close();
  }
}

const firstOrder = (analysis: Analysis, by: Deviations): BandsAnswer => ({
  kind: 'drawn',
  method: 'first-order',
  readings: bandsOfFirstOrder(analysis, by),
});

/** Every worker takes the next block as it is done with one. */
async function drawAll(
  workers: readonly LentWorker[], analysis: Analysis, blocks: readonly number[], by: Deviations, { seed, onProgress, draws }: BandsAsked,
): Promise<DrawnChanges[]> {
  const drawn: DrawnChanges[] = [];
  let next = 0;
  let done = 0;
  const run = async ({ drawer }: LentWorker): Promise<void> => {
    await drawer.begin(analysis);
    while (next < blocks.length) {
      const block = next++;
      drawn[block] = await drawer.draw(seed, block, blocks[block]!, by);
      done += blocks[block]!;
      onProgress?.(done / draws);
    }
  };
  await Promise.all(workers.map(run));
  return drawn;
}
